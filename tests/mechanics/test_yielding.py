"""Angle tightening: limiting cases that hold exactly, and the structural rotations.

No measured curve to yield was found in print. What stands in: cases in which the answer is
known beforehand, the rotations and pretensions of structural bolting, and measured points.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import inf, pi, sqrt
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics.bearing import bearing_diameter_ring
from torquebook.mechanics.joint import joint_resilience, usual_free_thread
from torquebook.mechanics.plastic import Strength
from torquebook.mechanics.preload import preload_from_torque, torque_from_preload
from torquebook.mechanics.stress import assembly_preload, combined_stress
from torquebook.mechanics.thread import pitch_diameter, stress_area_unified
from torquebook.mechanics.yielding import Course, Grip, ScrewThread, Tightened, curve, tighten

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

M10 = ScrewThread(pitch_mm=1.5, d2_mm=9.026, d0_mm=8.593, bearing_mm=13.0)
GRIP = Grip(bolt_mm_per_n=4e-6, parts_mm_per_n=0.6e-6, plastic_length_mm=16)
CLASS_10_9 = Strength(proof_load_n=48100, yield_mpa=940, tensile_mpa=1040, uniform_strain=0.045)
ENDLESS = CLASS_10_9._replace(yield_mpa=1e12, tensile_mpa=1e12)
FLAT = CLASS_10_9._replace(tensile_mpa=940)
MU = (0.12, 0.12)


def yield_point(mu_thread: float, strength: Strength = CLASS_10_9) -> float:
    """Preload at which tension and torsion reach the yield strength."""
    return assembly_preload(strength.yield_mpa, 1.5, 9.026, 8.593, mu_thread, share=1.0)


torques = st.floats(0, 60)
angles = st.floats(0, 400)
friction = st.floats(0.02, 0.4)
strengths = st.sampled_from([CLASS_10_9, FLAT, ENDLESS])
grips = st.builds(Grip, st.floats(1e-6, 2e-5), st.floats(0, 1e-5), st.floats(2, 100))


def test_angle_nothing_is_snug() -> None:
    """No angle leaves the preload and the torque of the snug stage, and nothing permanent."""
    state = tighten(30, 0, *MU, M10, GRIP, CLASS_10_9)
    assert state.preload_n == state.snug_n
    assert state.snug_n == pytest.approx(preload_from_torque(30, 1.5, 9.026, *MU, 13.0))
    assert state.torque_nm == pytest.approx(30)
    assert (state.permanent_mm, state.strain_share) == (0, 0)


def test_nothing_is_nothing() -> None:
    """No torque and no angle give no preload."""
    state = tighten(0, 0, *MU, M10, GRIP, CLASS_10_9)
    assert (state.snug_n, state.preload_n, state.torque_nm) == (0, 0, 0)


@given(torque=torques, angle=angles, mu=friction)
def test_no_end_of_strength_is_elastic_for_ever(torque: float, angle: float, mu: float) -> None:
    """With strength without end the preload rises by pitch and resilience, and nothing stays."""
    state = tighten(torque, angle, mu, mu, M10, GRIP, ENDLESS)
    assert state.preload_n == pytest.approx(state.snug_n + angle / 360 * 1.5 / 4.6e-6)
    assert (state.permanent_mm, state.strain_share) == (0, 0)
    assert state.yield_share < 1e-6


@given(torque=st.floats(0, 40), share=st.floats(0, 0.999), mu=friction)
def test_elastic_below_the_yield_angle(torque: float, share: float, mu: float) -> None:
    """An angle too small to yield gives F_snug + angle / 360 · P / (δ_S + δ_P)."""
    angle = tighten(torque, 0, mu, mu, M10, GRIP, CLASS_10_9).yield_angle_deg * share
    state = tighten(torque, angle, mu, mu, M10, GRIP, CLASS_10_9)
    if state.snug_n < yield_point(mu):
        assert state.preload_n == pytest.approx(state.snug_n + angle / 360 * 1.5 / 4.6e-6)
        assert state.yield_share <= 1
        assert state.permanent_mm == 0


@given(torque=torques, angle=angles, grip=grips, strength=strengths)
def test_no_friction_is_all_lead(
    torque: float, angle: float, grip: Grip, strength: Strength
) -> None:
    """Without friction the wrench shows the torque of the lead alone, F P / 2π."""
    state = tighten(torque, angle, 0, 0, M10, grip, strength)
    assert state.torque_nm == pytest.approx(state.preload_n * 1.5 / (2 * pi) / 1000, abs=1e-12)


@given(torque=st.floats(0, 20), angle=st.floats(0, 30))
def test_rigid_parts(torque: float, angle: float) -> None:
    """Parts that do not give leave the screw alone to stretch: by the whole advance."""
    rigid = GRIP._replace(parts_mm_per_n=0.0)
    state = tighten(torque, angle, *MU, M10, rigid, ENDLESS)
    stretched = (state.preload_n - state.snug_n) * rigid.bolt_mm_per_n
    assert stretched == pytest.approx(1.5 * angle / 360, abs=1e-9)


@given(angle=st.floats(60, 400), mu=friction)
def test_no_hardening_stays_at_yield(angle: float, mu: float) -> None:
    """A steel that does not harden stays at its yield point, and the rest is permanent."""
    snug = tighten(10, 0, mu, mu, M10, GRIP, FLAT)
    state = tighten(10, angle, mu, mu, M10, GRIP, FLAT)
    assert state.preload_n == pytest.approx(yield_point(mu))
    assert state.yield_share == pytest.approx(1)
    beyond = 1.5 * (angle - snug.yield_angle_deg) / 360
    assert state.permanent_mm == pytest.approx(beyond)
    assert state.strain_share == pytest.approx(beyond / 16 / 0.045)


def test_the_brink() -> None:
    """At the uniform strain the combined stress is the tensile strength; beyond, it stays."""
    snug = tighten(30, 0, *MU, M10, GRIP, CLASS_10_9)
    most = yield_point(0.12) * 1040 / 940
    way = 0.045 * 16 + (most - snug.snug_n) * 4.6e-6
    at = tighten(30, way / 1.5 * 360, *MU, M10, GRIP, CLASS_10_9)
    assert at.preload_n == pytest.approx(most)
    assert at.strain_share == pytest.approx(1)
    assert combined_stress(most, 1.5, 9.026, 8.593, 0.12).combined_mpa == pytest.approx(1040)
    over = tighten(30, way / 1.5 * 360 + 36, *MU, M10, GRIP, CLASS_10_9)
    assert over.preload_n == pytest.approx(most)
    assert over.permanent_mm == pytest.approx(0.045 * 16 + 0.15)


def test_snug_past_yield() -> None:
    """A snug torque between yield and brink leaves the stretch that its preload takes."""
    target = yield_point(0.12) * 1.05
    torque = torque_from_preload(target, 1.5, 9.026, *MU, 13.0)
    state = tighten(torque, 0, *MU, M10, GRIP, CLASS_10_9)
    assert state.preload_n == pytest.approx(target)
    assert state.yield_angle_deg == 0
    assert state.strain_share == pytest.approx(0.05 / (1040 / 940 - 1))


@pytest.mark.parametrize("strength", [CLASS_10_9, FLAT])
def test_snug_beyond_the_screw(strength: Strength) -> None:
    """A snug torque that no such screw carries leaves it at the brink of necking."""
    state = tighten(500, 0, *MU, M10, GRIP, strength)
    assert state.preload_n == pytest.approx(yield_point(0.12) * strength.tensile_mpa / 940)
    assert state.strain_share == pytest.approx(1)
    assert state.torque_nm < 500


@given(torque=torques, mu=friction, grip=grips, strength=st.sampled_from([CLASS_10_9, FLAT]))
def test_continuity_at_yield(torque: float, mu: float, grip: Grip, strength: Strength) -> None:
    """Just before and just after the yield angle the states are alike, at yield."""
    at = tighten(torque, 0, mu, mu, M10, grip, strength)
    if at.snug_n < yield_point(mu):
        before, after = (
            tighten(torque, at.yield_angle_deg * share, mu, mu, M10, grip, strength)
            for share in (1 - 1e-9, 1 + 1e-9)
        )
        assert before.preload_n == pytest.approx(yield_point(mu))
        assert after.preload_n == pytest.approx(yield_point(mu))
        assert after.permanent_mm == pytest.approx(0, abs=1e-6)


@given(torque=torques, angle=angles, more=st.floats(0.1, 90), mu=friction, grip=grips)
def test_monotony_in_angle(torque: float, angle: float, more: float, mu: float, grip: Grip) -> None:
    """A greater angle never gives less of anything; past yield it stretches more."""
    here = tighten(torque, angle, mu, mu, M10, grip, CLASS_10_9)
    there = tighten(torque, angle + more, mu, mu, M10, grip, CLASS_10_9)
    tiny = 1 + 1e-12
    assert there.preload_n * tiny >= here.preload_n
    assert there.torque_nm * tiny >= here.torque_nm
    assert there.permanent_mm >= here.permanent_mm
    if here.permanent_mm > 0:
        assert there.permanent_mm > here.permanent_mm


@given(torque=torques, angle=angles, mu_thread=friction, mu_head=friction, grip=grips)
def test_way_is_accounted_for(
    torque: float, angle: float, mu_thread: float, mu_head: float, grip: Grip
) -> None:
    """Advance of the thread is elastic give plus permanent stretch, beyond what snug took."""
    snug = tighten(torque, 0, mu_thread, mu_head, M10, grip, CLASS_10_9)
    state = tighten(torque, angle, mu_thread, mu_head, M10, grip, CLASS_10_9)
    give = grip.bolt_mm_per_n + grip.parts_mm_per_n
    elastic = (state.preload_n - snug.preload_n) * give
    permanent = state.permanent_mm - snug.permanent_mm
    assert elastic + permanent == pytest.approx(1.5 * angle / 360, abs=1e-9)
    assert state.proof_share == pytest.approx(state.preload_n / 48100)
    assert state.strain_share == pytest.approx(state.permanent_mm / grip.plastic_length_mm / 0.045)


def test_an_angle_scatters_less_than_a_torque() -> None:
    """Past yield the preload hardly depends on friction under the head, as after a torque."""
    by_angle = [tighten(30, 120, 0.12, mu, M10, GRIP, CLASS_10_9).preload_n for mu in (0.08, 0.16)]
    by_torque = [preload_from_torque(60, 1.5, 9.026, 0.12, mu, 13.0) for mu in (0.08, 0.16)]
    assert by_angle[0] / by_angle[1] < 1.03
    assert by_torque[0] / by_torque[1] > 1.3


def test_curve() -> None:
    """A curve starts at snug, ends at the angle, and holds the states of its even steps."""
    states = curve(30, 120, *MU, M10, GRIP, CLASS_10_9, 5)
    assert [state.angle_deg for state in states] == pytest.approx([0, 30, 60, 90, 120])
    for state in states:
        assert state == tighten(30, state.angle_deg, *MU, M10, GRIP, CLASS_10_9)
    assert len(curve(30, 120, *MU, M10, GRIP, CLASS_10_9, 2)) == 2


@pytest.mark.parametrize("points", [1, 0, -3])
def test_curve_of_too_few_points(points: int) -> None:
    """A curve has a beginning and an end."""
    with pytest.raises(OutOfRange, match=r"^points = "):
        curve(30, 120, *MU, M10, GRIP, CLASS_10_9, points)


GOOD = {
    "torque_nm": 30.0,
    "angle_deg": 90.0,
    "mu_thread": 0.12,
    "mu_head": 0.12,
    "thread": M10,
    "grip": GRIP,
    "strength": CLASS_10_9,
}


@pytest.mark.parametrize("formula", [tighten, lambda **given: curve(**given, points=3)])
@pytest.mark.parametrize(
    ("name", "bad"),
    [
        ("torque_nm", [-1e-9, inf, float("nan")]),
        ("angle_deg", [-1e-9, inf, float("nan")]),
        ("mu_thread", [-1e-9, 1.001, float("nan")]),
        ("mu_head", [-1e-9, 1.001, float("nan")]),
    ],
)
def test_out_of_range(formula: Callable[..., object], name: str, bad: list[float]) -> None:
    """Each argument is held to its range by its own name."""
    for value in bad:
        with pytest.raises(OutOfRange, match=f"^{name} = "):
            formula(**GOOD | {name: value})


@pytest.mark.parametrize(
    ("holder", "name", "value"),
    [
        *(("thread", name, 0.0) for name in ScrewThread._fields),
        ("grip", "bolt_mm_per_n", 0.0),
        ("grip", "bolt_mm_per_n", 1.0),
        ("grip", "bolt_mm_per_n", float("nan")),
        ("grip", "parts_mm_per_n", -1e-9),
        ("grip", "parts_mm_per_n", 1.0),
        ("grip", "parts_mm_per_n", float("nan")),
        ("grip", "plastic_length_mm", 0.0),
        ("strength", "tensile_mpa", 939.0),
    ],
)
def test_figures_out_of_range(holder: str, name: str, value: float) -> None:
    """Each figure of thread, grip and strength is held to its range by its own name."""
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        tighten(**GOOD | {holder: GOOD[holder]._replace(**{name: value})})


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
