"""Effective diameters of the bearing area."""

from __future__ import annotations

from math import nextafter
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics.bearing import bearing_diameter, bearing_diameter_ring

if TYPE_CHECKING:
    from collections.abc import Callable

BOTH = pytest.mark.parametrize("formula", [bearing_diameter, bearing_diameter_ring])


@BOTH
@pytest.mark.parametrize("outer_mm", [-14.6, 0.0, float("inf"), float("nan")])
def test_outer_out_of_range(formula: Callable[[float, float], float], outer_mm: float) -> None:
    """An outer diameter that is not finite and above 0 is refused."""
    with pytest.raises(OutOfRange, match="outer_mm"):
        formula(outer_mm, 11)


@BOTH
@pytest.mark.parametrize("inner_mm", [-11.0, 0.0, 14.6, 15.0, float("inf"), float("nan")])
def test_inner_out_of_range(formula: Callable[[float, float], float], inner_mm: float) -> None:
    """A hole that is not above 0, or not below the outer diameter, is refused."""
    with pytest.raises(OutOfRange, match="inner_mm"):
        formula(14.6, inner_mm)


@BOTH
def test_thin_ring(formula: Callable[[float, float], float]) -> None:
    """A ring as thin as floats allow acts at its own diameter, and no digits are lost."""
    assert formula(14.6, nextafter(14.6, 0)) == pytest.approx(14.6, rel=1e-12)


def test_ring_is_the_printed_quotient() -> None:
    """The shortened form equals 2/3 (Do³ - Di³)/(Do² - Di²), as the handbook writes it."""
    outer, inner = 15.2, 11.0
    printed_form = 2 / 3 * (outer**3 - inner**3) / (outer**2 - inner**2)
    assert bearing_diameter_ring(outer, inner) == pytest.approx(printed_form, rel=1e-12)


@given(outer_mm=st.floats(1, 100), share=st.floats(0.01, 0.99))
def test_even_pressure_acts_further_out(outer_mm: float, share: float) -> None:
    """Even pressure on a ring acts between the mean diameter and the rim."""
    inner_mm = outer_mm * share
    mean = bearing_diameter(outer_mm, inner_mm)
    assert mean < bearing_diameter_ring(outer_mm, inner_mm) < outer_mm
