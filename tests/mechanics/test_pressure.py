"""Pressure under heads and washers, and the ring that meets a limit."""

from __future__ import annotations

from math import inf, nan, pi
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics import pressure

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

LIMITS = {"kind": "pG_MPa", "standard": "VDI 2230:2003 via vendor"}


@pytest.mark.published("vdi2230_fine.csv", {"thread": "M10", "quantity(FM_kN|MA_Nm)": "FM_kN"}, 9)
def test_seat_of_a_hexagon_head(
    printed: Row, published: Callable[[str], list[Row]], hole_medium_mm: dict[float, float]
) -> None:
    """Printed preloads of M10 fine crush every cast aluminium and spare grey iron.

    Ring: d_w 14.63 mm (ISO 4014, least) and the medium hole of ISO 273, 11 mm. Limits as
    printed: cast aluminium 220 to 380 MPa, GJL-250 900 MPa.
    """
    limits = {
        row["item"]: float(row["value"])
        for row in published("friction_and_scatter.csv")
        if row["kind"] == "pG_MPa"
    }
    cast = [value for item, value in limits.items() if item.startswith(("GK-", "GD-"))]
    load = float(printed["value"]) * 1000
    computed = pressure.bearing_pressure(load, 14.63, hole_medium_mm[10])
    assert len(cast) == 3
    assert max(cast) < computed < limits["GJL-250"]


@pytest.mark.published("friction_and_scatter.csv", LIMITS, 25)
def test_washer_for_each_printed_limit(printed: Row) -> None:
    """Under the ring that is asked for, each printed limiting pressure is just met."""
    limit = float(printed["value"])
    outer = pressure.needed_outer_diameter(30000, 11, limit)
    assert pressure.bearing_pressure(30000, outer, 11) == pytest.approx(limit)


def test_disc_and_ring() -> None:
    """A ring is the disc less its hole, and a hole of nothing leaves the disc."""
    assert pressure.bearing_area(14.6, 11) == pytest.approx(pi / 4 * (14.6**2 - 11**2))
    assert pressure.bearing_area(10, 1e-6) == pytest.approx(25 * pi)
    assert pressure.bearing_pressure(0, 14.6, 11) == 0
    assert pressure.needed_outer_diameter(0, 11, 200) == 11


@given(
    preload=st.floats(1, 1e6),
    inner=st.floats(1, 60),
    wider=st.floats(1.05, 4),
    less=st.floats(0, 0.9),
)
def test_pressure_falls_with_the_ring_and_rises_with_the_load(
    preload: float, inner: float, wider: float, less: float
) -> None:
    """A wider ring presses less, a smaller load as well, in proportion."""
    p = pressure.bearing_pressure(preload, inner * wider, inner)
    assert pressure.bearing_pressure(preload, inner * wider * 1.1, inner) < p
    assert pressure.bearing_pressure(preload * less, inner * wider, inner) == pytest.approx(
        p * less
    )
    outer = pressure.needed_outer_diameter(preload, inner, p)
    assert outer == pytest.approx(inner * wider)


def test_washer_spreads_as_far_as_it_reaches() -> None:
    """A thick washer passes the load on by its whole face, a thin one by less."""
    assert pressure.spread_diameter(14.6, 20, 2) == pytest.approx(17.8)
    assert pressure.spread_diameter(14.6, 20, 5) == 20
    assert pressure.spread_diameter(14.6, 20, 2, 0) == 14.6
    assert pressure.spread_diameter(14.6, 13, 2) == 13


@pytest.mark.parametrize("value", [-1.0, 0.0, inf, nan])
def test_sizes_out_of_range(value: float) -> None:
    """Sizes and limits that are not finite and above 0 are refused by name."""
    with pytest.raises(OutOfRange, match=r"^outer_mm = "):
        pressure.bearing_area(value, 1)
    with pytest.raises(OutOfRange, match=r"^inner_mm = "):
        pressure.bearing_area(14.6, value)
    with pytest.raises(OutOfRange, match=r"^inner_mm = "):
        pressure.needed_outer_diameter(1000, value, 200)
    with pytest.raises(OutOfRange, match=r"^limit_mpa = "):
        pressure.needed_outer_diameter(1000, 11, value)
    with pytest.raises(OutOfRange, match=r"^outer_mm = "):
        pressure.spread_diameter(value, 20, 2)
    with pytest.raises(OutOfRange, match=r"^washer_mm = "):
        pressure.spread_diameter(14.6, value, 2)
    with pytest.raises(OutOfRange, match=r"^thickness_mm = "):
        pressure.spread_diameter(14.6, 20, value)


@pytest.mark.parametrize("preload_n", [-1.0, inf, nan])
def test_preload_out_of_range(preload_n: float) -> None:
    """A preload below 0 or no number is refused."""
    with pytest.raises(OutOfRange, match=r"^preload_n = "):
        pressure.bearing_pressure(preload_n, 14.6, 11)
    with pytest.raises(OutOfRange, match=r"^preload_n = "):
        pressure.needed_outer_diameter(preload_n, 11, 200)


def test_hole_as_wide_as_the_head() -> None:
    """A head that falls through its hole is refused."""
    with pytest.raises(OutOfRange, match=r"^inner_mm = "):
        pressure.bearing_pressure(1000, 14.6, 14.6)


@pytest.mark.parametrize("spread", [-0.1, 3.5, nan])
def test_spread_out_of_range(spread: float) -> None:
    """A spread below none, or wider than 60°, is refused; the ends pass."""
    with pytest.raises(OutOfRange, match=r"^spread = "):
        pressure.spread_diameter(14.6, 20, 2, spread)
    assert pressure.spread_diameter(14.6, 30, 2, 3.46) == pytest.approx(14.6 + 6.92)
