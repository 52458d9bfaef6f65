"""Diameters of mating threads against ISO 724 and ASME B1.13M, and their shear areas."""

from __future__ import annotations

from math import inf, nan, pi, sqrt
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics import mating
from torquebook.mechanics.mating import Pair, basic_pair, least_pair

if TYPE_CHECKING:
    from collections.abc import Callable

    ShearArea = Callable[[Pair, float], float]
    Make = Callable[[float, float], object]

Row = dict[str, str]

M8 = basic_pair(8, 1.25)
AREAS = pytest.mark.parametrize("area", [mating.external_shear_area, mating.internal_shear_area])


@pytest.mark.published("thread_limits.csv", {"standard": "ASME B1.13M"}, 48)
def test_limits_of_6g_and_6h(printed: Row) -> None:
    """The formulas of the tolerances give each printed limit within 10 µm.

    The standard rounds its tolerances to preferred numbers (R40, steps of 6 %), so that 170
    becomes 180 µm.
    """
    pair = least_pair(float(printed["d_mm"]), float(printed["pitch_mm"]))
    name = printed["quantity"].replace("_min", "").replace("_max", "")
    assert getattr(pair, name) == pytest.approx(float(printed["value"]), abs=0.010)


@pytest.mark.published("iso_threads.csv", {"quantity": ("d2_mm", "D1_mm")}, 53)
def test_basic_profile(printed: Row, half_digit: Callable[[str], float]) -> None:
    """The basic pair has the diameters that ISO 724 prints, both pitch diameters alike."""
    pair = basic_pair(float(printed["d_mm"]), float(printed["pitch_mm"]))
    wanted = pair.d2_mm if printed["quantity"] == "d2_mm" else pair.internal_d1_mm
    assert wanted == pytest.approx(float(printed["value"]), abs=half_digit(printed["value"]))
    assert pair.d2_mm == pair.internal_d2_mm


@given(d_mm=st.floats(3, 64), share=st.floats(0.05, 0.25))
def test_least_pair_has_less_to_shear(d_mm: float, share: float) -> None:
    """Tolerances only ever take from the overlap, and from both shear areas."""
    pitch_mm = max(d_mm * share, 0.35)
    basic, least = basic_pair(d_mm, pitch_mm), least_pair(d_mm, pitch_mm)
    assert least.d_mm < basic.d_mm
    assert least.internal_d1_mm > basic.internal_d1_mm
    for area in (mating.external_shear_area, mating.internal_shear_area):
        assert 0 < area(least, d_mm) < area(basic, d_mm)


def test_areas_of_the_basic_profile() -> None:
    """On the basic profile the teeth are 3/4 and 7/8 of a pitch wide where they shear."""
    assert mating.external_shear_area(M8, 10) == pytest.approx(pi * M8.internal_d1_mm * 7.5)
    assert mating.internal_shear_area(M8, 10) == pytest.approx(pi * 8 * 8.75)


@AREAS
def test_no_length_no_area(area: ShearArea) -> None:
    """Nothing engaged shears nothing; a length below 0 or no number is refused."""
    assert area(M8, 0) == 0
    for length in (-1e-9, inf, nan):
        with pytest.raises(OutOfRange, match="engagement_mm"):
            area(M8, length)


def test_coil_insert() -> None:
    """The insert's hole is bigger by 1.5 heights of the thread triangle, and holds a thread."""
    assert mating.coil_hole_diameter(8, 1.25) == pytest.approx(8 + 1.5 * sqrt(3) / 2 * 1.25)
    hole = basic_pair(mating.coil_hole_diameter(8, 1.25), 1.25)
    # the wire's inner thread ends where the outer one begins: 11/8 of the triangle's height
    wall = (hole.d_mm - M8.internal_d1_mm) / 2
    assert wall == pytest.approx(11 / 8 * sqrt(3) / 2 * 1.25)


@AREAS
@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"pitch_mm": 0.0}, "pitch_mm"),
        ({"d_mm": nan}, "d_mm"),
        ({"d2_mm": -1.0}, "d2_mm"),
        ({"internal_d2_mm": inf}, "internal_d2_mm"),
        ({"internal_d1_mm": 8.0}, "internal_d1_mm"),
        ({"internal_d1_mm": 0.0}, "internal_d1_mm"),
        # a bolt so thin at the flanks that D1 passes it: 6.647 − √3/2 · 1.25 = 5.564
        ({"d2_mm": 5.564}, "d2_mm"),
        # a hole so wide at the flanks that d passes it: 8 + √3/2 · 1.25 = 9.0825
        ({"internal_d2_mm": 9.083}, "internal_d2_mm"),
    ],
)
def test_threads_that_do_not_mate(area: ShearArea, change: dict[str, float], name: str) -> None:
    """Diameters that leave no overlap are refused by the one that is wrong."""
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        area(M8._replace(**change), 8)


@AREAS
def test_threads_that_just_mate(area: ShearArea) -> None:
    """A hair inside the limits of the overlap there is an area."""
    assert area(M8._replace(d2_mm=5.565, internal_d2_mm=9.082), 8) > 0


@pytest.mark.parametrize("make", [basic_pair, least_pair, mating.coil_hole_diameter])
@pytest.mark.parametrize(("d_mm", "pitch_mm"), [(0.0, 1.0), (8.0, 0.0), (8.0, 8.0), (nan, 1.0)])
def test_no_thread(make: Make, d_mm: float, pitch_mm: float) -> None:
    """Sizes that are no thread are refused."""
    with pytest.raises(OutOfRange, match=r"d_mm|pitch_mm"):
        make(d_mm, pitch_mm)


def test_tolerances_eat_a_tiny_thread() -> None:
    """Where the tolerances are wider than the thread, the pair is refused."""
    with pytest.raises(OutOfRange, match="ISO 965-1"):
        least_pair(0.05, 0.02)
