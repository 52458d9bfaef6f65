"""Checks of records of threads."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from torquebook.records.threads import InchThread, MetricThread


def test_sizes_say_what_d_and_pitch_say() -> None:
    """A size agrees with diameter, pitch and series."""
    assert MetricThread(size="M10", d_mm=10, pitch_mm=1.5, series="coarse").size == "M10"
    assert MetricThread(size="M10x1.25", d_mm=10, pitch_mm=1.25, series="fine").pitch_mm == 1.25
    assert InchThread(size="3/8-16", d_in=0.375, tpi=16, series="UNC").tpi == 16


@pytest.mark.parametrize(
    ("size", "d_mm", "pitch_mm", "series"),
    [
        ("M10", 10, 1.25, "fine"),
        ("M10x1.5", 10, 1.5, "coarse"),
        ("M10", 12, 1.5, "coarse"),
        ("M10X1.25", 10, 1.25, "fine"),
    ],
)
def test_metric_sizes_that_disagree(size: str, d_mm: float, pitch_mm: float, series: str) -> None:
    """A metric size that says another thing is refused with the right one."""
    values = {"size": size, "d_mm": d_mm, "pitch_mm": pitch_mm, "series": series}
    with pytest.raises(ValidationError, match="d, pitch and series make it"):
        MetricThread.model_validate(values)


def test_inch_size_that_disagrees() -> None:
    """An inch size that ends in another pitch is refused."""
    with pytest.raises(ValidationError, match="write -16"):
        InchThread(size="3/8-24", d_in=0.375, tpi=16, series="UNC")
