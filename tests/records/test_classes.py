"""Checks of records of strength classes."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from torquebook.records.classes import ClassEntry

SOUND = {"name": "8.8", "tensile": 800, "yield": 640, "proof": 580, "over": 0, "to": 16}


def test_sound_entry() -> None:
    """An entry holds strengths in their order; elongation may be left out."""
    entry = ClassEntry.model_validate(SOUND)
    assert (entry.yield_, entry.elongation_pct) == (640, None)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"proof": 641}, "proof is at most yield"),
        ({"yield": 801}, "proof is at most yield"),
        ({"over": 16}, "over is not below to"),
        ({"name": 8.8}, "string"),
        ({"tensile": "800"}, "number"),
    ],
)
def test_entries_refused(changes: dict[str, Any], words: str) -> None:
    """Strengths or diameters out of order, and values of another type, are refused."""
    with pytest.raises(ValidationError, match=words):
        ClassEntry.model_validate(SOUND | changes)


def test_equal_strengths_and_limits() -> None:
    """Equal strengths are in order: stainless steels have no proof stress of their own."""
    assert ClassEntry.model_validate(SOUND | {"proof": 640}).proof == 640
