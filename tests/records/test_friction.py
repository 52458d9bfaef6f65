"""Checks of records of friction."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from torquebook.records.friction import FrictionRecord


def record(low: float, high: float, **changes: Any) -> FrictionRecord:
    """Return a record with a band."""
    band = {"low": low, "nominal": high, "high": high}
    sound = {
        "kind": "friction",
        "title": "t",
        "name": "mine",
        "mu_thread": band,
        "mu_head": band,
        "lubricated": False,
        "source": {"kind": "invented", "title": "t", "provenance": "invented"},
    }
    return FrictionRecord.model_validate(sound | changes)


def test_sound_record() -> None:
    """Other names may be left out."""
    assert record(0.1, 1).aliases == []


@pytest.mark.parametrize(("low", "high"), [(0, 0.1), (0.1, 1.01)])
def test_impossible(low: float, high: float) -> None:
    """A coefficient lies above 0 and not above 1."""
    with pytest.raises(ValidationError, match="between 0 and 1"):
        record(low, high)


def test_lubricated_is_said_outright() -> None:
    """Whether there is a lubricant is true or false, never a word or a number."""
    for value in ("yes", 1, None):
        with pytest.raises(ValidationError):
            record(0.1, 0.2, lubricated=value)
