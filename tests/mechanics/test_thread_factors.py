"""Factors of a thread's strength: how they meet, where they end, and what they refuse."""

from __future__ import annotations

from math import inf, nan, nextafter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics import thread_factors as factors
from torquebook.mechanics.mating import basic_pair, least_pair

NO_SIZES = (-1.0, 0.0, inf, nan)


def test_bending_curves_meet_where_both_threads_are_equal() -> None:
    """At equal strength both curves run into 0.897, from their own side, within half a digit."""
    assert factors.bending_factors(1) == (0.897, 0.897)
    assert factors.bending_factors(1 + 1e-9).external == pytest.approx(0.897, abs=0.0005)
    assert factors.bending_factors(1 - 1e-9).internal == pytest.approx(0.897, abs=0.0005)


def test_only_the_stronger_thread_gains() -> None:
    """Beside a weaker thread that bends less, only the weaker one carries more than 0.897."""
    soft_hole, soft_bolt = factors.bending_factors(0.6), factors.bending_factors(1.5)
    assert soft_hole.external == soft_bolt.internal == 0.897
    assert soft_hole.internal > 0.897
    assert soft_bolt.external > 0.897


def test_bending_curves_end_on_the_safe_side() -> None:
    """Past the ends of the curves their gain, 6 and 19 %, is not counted on."""
    assert factors.bending_factors(0.4).internal == factors.bending_factors(0.1).internal == 1
    assert factors.bending_factors(2.2).external == factors.bending_factors(5).external == 1
    assert factors.bending_factors(nextafter(0.4, 1)).internal == pytest.approx(1.055, abs=0.001)
    assert factors.bending_factors(nextafter(2.2, 1)).external == pytest.approx(1.187, abs=0.001)


@given(low=st.floats(0.05, 3), step=st.floats(0.001, 1))
def test_a_stronger_hole_never_strips_earlier(low: float, step: float) -> None:
    """The strength of the internal thread grows with its material's, bending included."""
    weak, strong = low, low + step
    load = factors.bending_factors(weak).internal * weak
    assert load < factors.bending_factors(strong).internal * strong


@given(low=st.floats(1, 2.1), step=st.floats(0.001, 0.09))
def test_a_stronger_hole_spares_the_bolt(low: float, step: float) -> None:
    """Within its curve the external thread's factor never falls by more than rounding."""
    weak, strong = factors.bending_factors(low), factors.bending_factors(low + step)
    assert strong.external >= weak.external - 0.002


@pytest.mark.parametrize("ratio", NO_SIZES)
def test_no_ratio(ratio: float) -> None:
    """A strength ratio that is not finite and above 0 is refused."""
    with pytest.raises(OutOfRange, match=r"^ratio = "):
        factors.bending_factors(ratio)


def test_dilation_grows_out_of_a_thin_wall() -> None:
    """C1 reaches 1 at 1.9 times the diameter without a step, and stays there."""
    assert factors.dilation_factor(nextafter(19, 0), 10) == pytest.approx(1.0)
    assert factors.dilation_factor(19, 10) == 1.0
    assert factors.dilation_factor(100, 10) == 1.0
    rising = [factors.dilation_factor(across, 10) for across in (14, 15, 16, 17, 18, 19)]
    assert rising == sorted(rising)
    assert rising[0] == pytest.approx(0.75)


@pytest.mark.parametrize("across_mm", [13.999, 10.0, 0.0, -16.0, inf, nan])
def test_wall_too_thin(across_mm: float) -> None:
    """Below 1.4 times the diameter the source says nothing, so the value is refused."""
    with pytest.raises(OutOfRange, match=r"^across_mm = "):
        factors.dilation_factor(across_mm, 10)


def test_dilation_without_a_diameter() -> None:
    """A diameter that is not above 0 is refused."""
    with pytest.raises(OutOfRange, match=r"^d_mm = "):
        factors.dilation_factor(16, 0)


def test_strength_ratio_counts_material_and_area() -> None:
    """Half the strength is half the ratio; tolerances leave the ratio near the basic one."""
    basic, least = basic_pair(10, 1.5), least_pair(10, 1.5)
    even = factors.strength_ratio(basic, 400, 400)
    assert factors.strength_ratio(basic, 400, 200) == pytest.approx(even / 2)
    assert factors.strength_ratio(least, 400, 400) == pytest.approx(even, rel=0.05)


@pytest.mark.parametrize("strength", NO_SIZES)
def test_no_strength(strength: float) -> None:
    """Shear strengths that are not finite and above 0 are refused, each by its name."""
    pair = basic_pair(10, 1.5)
    with pytest.raises(OutOfRange, match=r"^external_shear_mpa = "):
        factors.strength_ratio(pair, strength, 400)
    with pytest.raises(OutOfRange, match=r"^internal_shear_mpa = "):
        factors.strength_ratio(pair, 400, strength)


@pytest.mark.published("engagement.csv", {"kind": "plain"}, 1)
def test_shear_strength_of_aluminium(printed: dict[str, str]) -> None:
    """The text's 180 MPa lies between 0.7 R_m of its weakest and strongest aluminium."""
    assert "tau 0.7 Rm = 180 MPa" in printed["material"]
    weakest, strongest = factors.shear_strength(250, 0.7), factors.shear_strength(270, 0.7)
    assert weakest < 180 < strongest


@pytest.mark.parametrize("ratio", [-0.6, 0.0, 1.5, nan])
def test_no_shear_ratio(ratio: float) -> None:
    """A shear ratio that no material has is refused, as is no tensile strength."""
    with pytest.raises(OutOfRange, match=r"^shear_ratio = "):
        factors.shear_strength(800, ratio)
    with pytest.raises(OutOfRange, match=r"^tensile_strength_mpa = "):
        factors.shear_strength(0, 0.6)


def test_chamfers_take_from_the_engagement() -> None:
    """The lost pitches come off, and nothing is left where they take all."""
    assert factors.effective_engagement(15, 1.5, 0) == 15
    assert factors.effective_engagement(15, 1.5, 2) == 12
    assert factors.effective_engagement(3, 1.5, 2) == factors.effective_engagement(1, 1.5, 2) == 0


@pytest.mark.parametrize(
    ("engaged_mm", "pitch_mm", "lost", "name"),
    [(-1, 1.5, 2, "engaged_mm"), (15, 0, 2, "pitch_mm"), (15, 1.5, -1, "lost_pitches")],
)
def test_no_engagement(engaged_mm: float, pitch_mm: float, lost: float, name: str) -> None:
    """Lengths and pitches below their range are refused by name."""
    with pytest.raises(OutOfRange, match=rf"^{name} = "):
        factors.effective_engagement(engaged_mm, pitch_mm, lost)
