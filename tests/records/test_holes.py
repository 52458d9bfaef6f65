"""Checks of records of holes and drills."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from torquebook.records.holes import DrillEntry, HoleEntry


def test_sound_entries() -> None:
    """Holes grow from fine to coarse, all above the diameter."""
    assert HoleEntry(d_mm=10, fine_mm=10.5, medium_mm=11, coarse_mm=12).medium_mm == 11
    assert DrillEntry(size="M10", drill_mm=8.5).drill_mm == 8.5


@pytest.mark.parametrize("holes", [(10, 11, 12), (10.5, 12, 11), (11, 10.5, 12), (10.5, 10.5, 12)])
def test_holes_out_of_order(holes: tuple[float, float, float]) -> None:
    """Holes that do not grow, or do not clear the bolt, are refused."""
    fine, medium, coarse = holes
    with pytest.raises(ValidationError, match="from small to large"):
        HoleEntry(d_mm=10, fine_mm=fine, medium_mm=medium, coarse_mm=coarse)
