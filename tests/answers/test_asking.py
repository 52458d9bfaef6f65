"""What a person answers about his bench."""

from __future__ import annotations

import pytest

from torquebook.answers import asking
from torquebook.errors import NotUnderstood


@pytest.mark.parametrize(
    ("read", "text", "meant"),
    [
        (asking.scale, "20-100 N.m", (20, 100, "N.m")),
        (asking.scale, "15 to 75 lbf.ft", (15, 75, "lbf.ft")),
        (asking.number, "0,5", 0.5),
        (asking.whole, "12", 12),
        (asking.deviation, "4 %", 0.04),
        (asking.deviation, "0.04", 0.04),
        (asking.drive, "1/2 in", "1/2 in"),
        (asking.drive, '3/8"', "3/8 in"),
        (asking.drive, "1  1/2", "1 1/2 in"),
        (asking.drive, "12,5 mm", "1/2 in"),
        (asking.drive, "not stated", "not stated"),
        (asking.day, "2026-05-31", "2026-05-31"),
        (asking.day, "", ""),
        (asking.unit, "Nm", "N.m"),
        (asking.unit, "", ""),
        (asking.length_mm, "4 in", pytest.approx(101.6)),
        (asking.named, "  the  red one ", "the red one"),
    ],
)
def test_answers_are_read(read: object, text: str, meant: object) -> None:
    """A scale, a number, a date and a unit are read as a person writes them."""
    assert read(text) == meant  # type: ignore[operator]


@pytest.mark.parametrize(
    ("read", "text", "what"),
    [
        (asking.scale, "100 N.m", "two ends"),
        (asking.scale, "100-20 N.m", "goes up"),
        (asking.scale, "2-10 kgf.m", "no wrench shows"),
        (asking.number, "-1", "above 0"),
        (asking.number, "inf", "above 0"),
        (asking.whole, "1.5", "whole number"),
        (asking.deviation, "60 %", "off by half"),
        (asking.drive, "2026-01-01", "write 1/4 in or"),
        (asking.drive, "11 mm", "no size of a square drive"),
        (asking.day, "31.5.2026", "year-month-day"),
        (asking.unit, "mm", "mm"),
        (asking.unit, "my click", '^"my click"'),
        (asking.named, "a|b", "no name"),
    ],
)
def test_what_may_mean_something_else_is_asked_back(read: object, text: str, what: str) -> None:
    """Nothing is guessed."""
    with pytest.raises(NotUnderstood, match=what):
        read(text)  # type: ignore[operator]
