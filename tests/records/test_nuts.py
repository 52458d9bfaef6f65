"""Checks of records of nut classes."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from torquebook.records.nuts import NutEntry

SOUND = {"name": "8", "style": "1", "proof_mpa": 855, "over_mm": 4, "to_mm": 7}


def test_sound_entry() -> None:
    """A nut may pair with no bolt class at all."""
    assert NutEntry.model_validate(SOUND).pairs_with is None


@pytest.mark.parametrize("changes", [{"over_mm": 7}, {"name": 8}, {"style": "3"}, {"proof_mpa": 0}])
def test_entries_refused(changes: dict[str, Any]) -> None:
    """Diameters out of order, numbers for names and unknown styles are refused."""
    with pytest.raises(ValidationError):
        NutEntry.model_validate(SOUND | changes)
