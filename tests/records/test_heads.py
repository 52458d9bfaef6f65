"""Checks of records of heads."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from torquebook.records.heads import HeadEntry


def test_entry() -> None:
    """A size need not have every dimension."""
    assert HeadEntry(size="M10", across_flats_mm=16).bearing_mm is None


@pytest.mark.parametrize("value", [0, -16, "16", float("nan")])
def test_entries_refused(value: object) -> None:
    """A dimension is a number above zero."""
    with pytest.raises(ValidationError):
        HeadEntry.model_validate({"size": "M10", "across_flats_mm": value})
