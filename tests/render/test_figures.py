"""Numbers for a person."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.render import figures as f


@pytest.mark.parametrize(
    ("value", "shown"),
    [(48912.0, "48900"), (1234567.0, "1230000"), (0.10446, "0.104"), (24.0, "24"), (0.0, "0"),
     (999.6, "1000"), (99.96, "100"), (0.0005, "0.0005"), (-12.34, "-12.3")],
)  # fmt: skip
def test_figures(value: float, shown: str) -> None:
    """Three digits that matter, no idle zeros, no exponent."""
    assert f.figures(value) == shown


@given(st.floats(1e-6, 1e12))
def test_figures_are_right_to_half_a_digit(value: float) -> None:
    """The printed number is within half of its last digit of the value."""
    assert float(f.figures(value)) == pytest.approx(value, rel=0.00501)
    assert "e" not in f.figures(value)


def test_forces_and_areas_keep_three_digits() -> None:
    """In a column 13 kN stands as 13.0."""
    assert f.kilonewtons(13000) == "13.0"
    assert f.kilonewtons(276000) == "276"
    assert f.three_digits(57.99) == "58.0"


def test_shares() -> None:
    """Up to threefold in per cent, above as a multiple."""
    assert f.share(0.749) == "75 %"
    assert f.share(7.84) == "7.8 times"
    assert f.percent(12.98) == "1298"


def test_span() -> None:
    """A range with like ends is one number."""
    assert f.span("20", "20") == "20"
    assert f.span("20", "25") == "20–25"


def test_on_the_point() -> None:
    """Points stand under one another once the numbers are flush right."""
    assert f.on_the_point(["5.3", "708", "0.25"]) == ["5.3 ", "708   ", "0.25"]
    assert f.on_the_point(["1", "22"]) == ["1", "22"]
