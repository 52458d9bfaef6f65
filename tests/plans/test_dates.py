"""Dates that a spreadsheet made of something else."""

from __future__ import annotations

import pytest

from torquebook.plans.dates import date_in


@pytest.mark.parametrize(
    ("column", "text", "readings"),
    [
        ("thread", "8-Mar", ("3/8", "8/3")),
        ("thread", "2025-03-08", ("3/8", "8/3")),
        ("thread", "03/08/2025", ("3/8", "8/3")),
        ("class", "10. Sep", ("10.9",)),
        ("class", "08.08.2025", ("8.8",)),
        ("order", "2002-03-01", ("3-1-2", "1-3-2")),
        ("order", "Mar-01", ("3-1", "1-3")),
        ("engagement", "15. Dez", ("12-15",)),
        ("clamp_length", "2025-12-15", ("12-15",)),
        ("count", "1. Mrz 25", ()),
        ("length", "03 Mai 2025", ()),
        ("thread", "2025-03-08T00:00:00", ("3/8", "8/3")),
    ],
)
def test_date_is_told_with_what_was_typed(
    column: str, text: str, readings: tuple[str, ...] | None
) -> None:
    """A date is named as one, with the text that a spreadsheet makes this date of."""
    found = date_in(column, text)
    assert found is not None
    assert "date" in found[0]
    assert found[1] == readings


@pytest.mark.parametrize("text", ["12:15", "12:15:00"])
def test_time_is_told(text: str) -> None:
    """A time of day is named as one."""
    found = date_in("order", text)
    assert found is not None
    assert "time" in found[0]


@pytest.mark.parametrize(
    "text", ["3/8-16", "1-3-2-4", "10.9", "8.8", "60 N.m", "M10x1.25", "12-15", "A2-70", "March"]
)
def test_what_is_no_date_is_left_alone(text: str) -> None:
    """Threads, classes, orders and ranges are no dates."""
    assert date_in("order", text) is None
