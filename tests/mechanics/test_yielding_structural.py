"""Angle tightening against the rotations and pretensions of structural bolting."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import pi, sqrt
from typing import TYPE_CHECKING

import pytest

from torquebook.mechanics.bearing import bearing_diameter_ring
from torquebook.mechanics.joint import joint_resilience, usual_free_thread
from torquebook.mechanics.plastic import Strength
from torquebook.mechanics.thread import pitch_diameter, stress_area_unified
from torquebook.mechanics.yielding import Course, Grip, ScrewThread, Tightened

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

# Structural bolts: A325 is taken with the strengths of SAE J429 grade 5, A490 with those of
# grade 8; the printed pretensions are 0.70 of just these tensile strengths (test below).
KIP = 4448.2216152605
MPA_PER_KSI = 6.894757293168
GRADE = {"A325": "5", "A490": "8"}
INCH_SIZES = ("1/2-13", "5/8-11", "3/4-10", "7/8-9", "1-8", "1-1/8-7", "1-1/4-7")
INCH_SIZES += ("1-3/8-6", "1-1/2-6")
# Torque may not exceed 0.25 P D in the FHWA procedure (C_fhwa_turn_test.csv): mu 0.19 or so.
ROUGHEST, LIKELY = 0.19, 0.14


@pytest.fixture(scope="module")
def structural(
    inch_thread: Callable[[str], tuple[float, float]], sae_stresses: list[Row]
) -> Callable[..., tuple[Course, float]]:
    """Return the course of a structural bolt, with its tensile load, at a friction."""

    def stress(quantity: str, grade: str, size_in: float) -> float:
        # J429 has one step within grade 5, at 1 in
        wanted = {"1/4-1", "1/4-1-1/2"} if size_in <= 1 else {">1-1-1/2", "1/4-1-1/2"}
        rows = [row for row in sae_stresses if row["quantity"] == quantity]
        rows = [row for row in rows if row["grade"] == grade and row["size_range_in"] in wanted]
        (value,) = {float(row["value_us"]) for row in rows}
        return value * MPA_PER_KSI

    def make(
        size: str, bolt: str, times_d: float, free_thread: float, strain: float, mu: float
    ) -> tuple[Course, float]:
        d_mm, pitch_mm = inch_thread(size)
        area_mm2 = stress_area_unified(d_mm, pitch_mm)
        # the nut is about 1 d high (heavy hexagon) and the head's face about 1.5 d wide
        clamp_mm, face_mm = (times_d - 1) * d_mm, 1.5 * d_mm
        bearing_mm = bearing_diameter_ring(face_mm, d_mm * 1.0625)
        thread_mm = min(free_thread * usual_free_thread(d_mm, clamp_mm), clamp_mm)
        steel = 205000.0
        give = joint_resilience(
            d_mm, pitch_mm, clamp_mm, thread_mm, d_mm, face_mm, d_mm * 1.0625, 3 * face_mm, steel,
            steel,
        )  # fmt: skip
        proof, yields, tensile = (
            stress(f"{name}_ksi", GRADE[bolt], d_mm / 25.4)
            for name in ("proof", "yield_min", "tensile_min")
        )
        strength = Strength(proof * area_mm2, yields, tensile, strain)
        d2_mm, d0_mm = pitch_diameter(d_mm, pitch_mm), sqrt(4 / pi * area_mm2)
        thread = ScrewThread(pitch_mm, d2_mm, d0_mm, bearing_mm)
        course = Course.of(mu, mu, thread, Grip(*give, thread_mm), strength)
        return course, tensile * area_mm2

    return make


@pytest.fixture(scope="module")
def snug_kip(real_rows: Callable[[str], list[Row]]) -> dict[str, float]:
    """Snug tension of the FHWA turn test by size, in kip."""
    rows = real_rows("C_fhwa_turn_test.csv")
    return {row["bolt_in"]: float(row["snug_tension_kips_for_test"]) for row in rows}


@pytest.fixture(scope="module")
def rotations(published: Callable[[str], list[Row]]) -> dict[int, float]:
    """RCSC's rotation from snug, in turns, by the greatest length in diameters."""
    rows = [
        row for row in published("rcsc_pretension.csv") if row["document"] == "RCSC turn-of-nut"
    ]
    longest = {row["length_band"].rpartition("<= ")[2]: Fraction(row["value"]) for row in rows}
    return {int(length.removesuffix("d")): float(turns) for length, turns in longest.items()}


def _after(course: Course, snug_kip: float, turns: float) -> Tightened:
    """State of a bolt that is snug at a tension, then turned."""
    return course.after(snug_kip * KIP * course.nm_per_n, turns * 360)


pretensions = pytest.mark.published(
    "rcsc_pretension.csv",
    {"document": "AISC 360-05 Table J3.1", "item": "min pretension"},
    18,
)


def _coarse(size: str) -> str:
    """Return a printed size with its threads per inch."""
    return next(each for each in INCH_SIZES if each.rpartition("-")[0] == size)


@pretensions
def test_pretension_is_a_share_of_strength(
    printed: Row, structural: Callable[..., tuple[Course, float]]
) -> None:
    """The printed pretension is 0.70 of the tensile load, so the strengths are the right ones.

    AISC 360-05, table J3.1, printed to the kip.
    """
    _, tensile_n = structural(_coarse(printed["size"]), printed["grade"], 4, 1.0, 0.06, LIKELY)
    assert 0.70 * tensile_n / KIP == pytest.approx(float(printed["value"]), abs=0.6, rel=0.006)


@pytest.mark.parametrize("times_d", [4, 8, 12])
@pretensions
def test_rotation_reaches_the_pretension(
    printed: Row,
    times_d: int,
    rotations: dict[int, float],
    structural: Callable[..., tuple[Course, float]],
    snug_kip: dict[str, float],
) -> None:
    """RCSC's rotations from snug reach AISC's minimum pretension, at the least strength.

    Rotations: 1/3 turn to 4 d long, 1/2 to 8 d, 2/3 to 12 d, as read on a page
    (rcsc_pretension.csv). It holds for any likely thread in the grip and uniform strain, of
    which neither is printed. At the greatest friction that the FHWA procedure allows, the
    least strength and the softest hardening the shortest A325 bolts stay up to 4 % below;
    all others reach it there too.
    """
    size, bolt = printed["size"], printed["grade"]
    for free_thread, strain in product((0.5, 1.0), (0.05, 0.08)):
        corner = (_coarse(size), bolt, times_d, free_thread, strain)
        for mu, share in ((LIKELY, 1.0), (ROUGHEST, 0.96 if (bolt, times_d) == ("A325", 4) else 1)):
            course, _ = structural(*corner, mu)
            state = _after(course, snug_kip[size], rotations[times_d])
            assert state.preload_n / KIP > share * float(printed["value"])
            assert state.yield_share > 1


@pretensions
def test_a_small_rotation_falls_short(
    printed: Row, structural: Callable[..., tuple[Course, float]], snug_kip: dict[str, float]
) -> None:
    """A 24th of a turn on a bolt 8 d long stays elastic and below the pretension."""
    size = printed["size"]
    course, _ = structural(_coarse(size), printed["grade"], 8, 1.0, 0.06, LIKELY)
    state = _after(course, snug_kip[size], 1 / 24)
    assert state.preload_n / KIP < float(printed["value"])
    assert state.permanent_mm == 0


@pytest.mark.parametrize("size", ["1/2", "5/8", "3/4", "7/8"])
def test_twice_the_rotation_reaches_the_test_tension(
    size: str,
    rotations: dict[int, float],
    structural: Callable[..., tuple[Course, float]],
    snug_kip: dict[str, float],
    real_rows: Callable[[str], list[Row]],
) -> None:
    """Twice the rotation gives the tension of the rotational-capacity test within 2 %.

    FHWA tables as in C_fhwa_turn_test.csv, in whole kip; 2/3 of a turn to 4 d long, at the
    least strength and likely friction. Bolts pass this test unbroken; with a short thread in
    the grip the model counts them past their uniform strain, so its count of strain is on
    the safe side.
    """
    rows = real_rows("C_fhwa_turn_test.csv")
    (wanted,) = [row["turn_test_tension_A325_kips"] for row in rows if row["bolt_in"] == size]
    shares = []
    for free_thread, strain in product((0.5, 1.0), (0.05, 0.08)):
        course, _ = structural(_coarse(size), "A325", 4, free_thread, strain, LIKELY)
        state = _after(course, snug_kip[size], 2 * rotations[4])
        assert state.preload_n / KIP > 0.98 * float(wanted)
        shares.append(state.strain_share)
    assert max(shares) > 1 > min(shares)
