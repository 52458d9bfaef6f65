"""Angle tightening: limiting cases that hold exactly.

No measured curve to yield was found in print. What stands in: cases in which the answer is
known beforehand; rotations and pretensions of structural bolting are held in
test_yielding_structural.py.
"""

from __future__ import annotations

from math import inf, pi
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics.plastic import Strength
from torquebook.mechanics.preload import preload_from_torque, torque_from_preload
from torquebook.mechanics.stress import assembly_preload, combined_stress
from torquebook.mechanics.yielding import Grip, ScrewThread, curve, tighten

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
