"""Angle tightening: from a snug torque through an angle, elastic and past yield.

After snug, every turn stretches the screw and squeezes the parts by one pitch together.
Past yield the screw's loaded thread (or reduced shank) takes most of that as permanent
stretch. Twist of the screw, settling and prevailing torque are left out. No measured
curve to yield was found in print; the limiting cases are exact (tests).
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.plastic import Hardening, Strength
from torquebook.mechanics.preload import torque_from_preload
from torquebook.mechanics.stress import assembly_preload

_DEG_PER_TURN = 360.0
_MODEL = "angle tightening, elastic and linear hardening"
# Screws of one thread in many joints share what no joint changes.
_yield_preload_n = lru_cache(maxsize=1024)(assembly_preload)
_nm_per_n = lru_cache(maxsize=1024)(torque_from_preload)


class ScrewThread(NamedTuple):
    """Diameters that torque and yield act on: pitch, d2, d0 and D_Km.

    ``d0_mm`` is the stress diameter of the thread, or the shank where that is thinner.
    """

    pitch_mm: float
    d2_mm: float
    d0_mm: float
    bearing_mm: float


class Grip(NamedTuple):
    """How screw and parts give, and the length of screw that yields.

    ``plastic_length_mm`` is the loaded thread outside the nut, or the reduced shank.
    """

    bolt_mm_per_n: float
    parts_mm_per_n: float
    plastic_length_mm: float

    def checked(self) -> Grip:
        """Return the grip, or raise OutOfRange if a value is none that a joint has."""
        if not 0 < self.bolt_mm_per_n < 1:
            raise OutOfRange("bolt_mm_per_n", self.bolt_mm_per_n, 0.0, 1.0, _MODEL)
        if not 0 <= self.parts_mm_per_n < 1:
            raise OutOfRange("parts_mm_per_n", self.parts_mm_per_n, 0.0, 1.0, _MODEL)
        limits.positive(_MODEL, plastic_length_mm=self.plastic_length_mm)
        return self


class Tightened(NamedTuple):
    """A screw at the end of an angle.

    ``torque_nm`` is what the wrench shows there; ``yield_share`` is the preload per preload
    at which the screw yields under tension and torsion; ``yield_angle_deg`` is the angle
    from snug at which it does; ``permanent_mm`` is what it is longer when taken out;
    ``strain_share`` is the share of the uniform strain that this uses, above 1 necking.
    """

    angle_deg: float
    snug_n: float
    preload_n: float
    torque_nm: float
    proof_share: float
    yield_share: float
    yield_angle_deg: float
    permanent_mm: float
    strain_share: float


class Course(NamedTuple):
    """One screw in one joint at one friction: what any torque and angle make of it."""

    pitch_mm: float
    nm_per_n: float
    proof_load_n: float
    path: Hardening

    @classmethod
    def of(
        cls, mu_thread: float, mu_head: float, thread: ScrewThread, grip: Grip, strength: Strength
    ) -> Course:
        """Return the course, or raise OutOfRange as ``tighten`` does."""
        grip.checked()
        strength.checked()
        pitch_mm, d2_mm, d0_mm, bearing_mm = thread
        yield_n = _yield_preload_n(strength.yield_mpa, pitch_mm, d2_mm, d0_mm, mu_thread, share=1.0)
        path = Hardening(
            give_mm_per_n=grip.bolt_mm_per_n + grip.parts_mm_per_n,
            yield_n=yield_n,
            most_n=yield_n * (strength.tensile_mpa / strength.yield_mpa),
            uniform_mm=strength.uniform_strain * grip.plastic_length_mm,
        )
        arm = _nm_per_n(1.0, pitch_mm, d2_mm, mu_thread, mu_head, bearing_mm)
        return cls(pitch_mm, arm, strength.proof_load_n, path)

    def after(self, torque_nm: float, angle_deg: float) -> Tightened:
        """State after a snug torque and an angle from there."""
        limits.not_negative(_MODEL, torque_nm=torque_nm, angle_deg=angle_deg)
        path = self.path
        way_mm = self.pitch_mm * angle_deg / _DEG_PER_TURN
        wanted_n = torque_nm / self.nm_per_n
        snug_n = min(wanted_n, path.most_n)
        start_mm = path.way_mm(wanted_n)
        end_mm = start_mm + way_mm
        preload_n = path.preload_n(end_mm) if end_mm > 0 else snug_n + way_mm / path.give_mm_per_n
        permanent_mm = path.permanent_mm(end_mm)
        return Tightened(
            angle_deg=angle_deg,
            snug_n=snug_n,
            preload_n=preload_n,
            torque_nm=preload_n * self.nm_per_n,
            proof_share=preload_n / self.proof_load_n,
            yield_share=preload_n / path.yield_n,
            yield_angle_deg=max(-start_mm, 0.0) / self.pitch_mm * _DEG_PER_TURN,
            permanent_mm=permanent_mm,
            strain_share=permanent_mm / path.uniform_mm,
        )


def tighten(
    torque_nm: float,
    angle_deg: float,
    mu_thread: float,
    mu_head: float,
    thread: ScrewThread,
    grip: Grip,
    strength: Strength,
) -> Tightened:
    """State of a screw after a snug torque and an angle.

    Parameters
    ----------
    torque_nm : float
        M, snug torque [N·m]
    angle_deg : float
        angle from snug, all angle stages together [°]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]
    mu_head : float
        mu_K, coefficient of friction under the head [1]
    thread : ScrewThread
        pitch, d2, d0 and effective diameter of friction under the head
    grip : Grip
        resilience of screw and parts, length that yields
    strength : Strength
        proof load, yield and tensile strength, uniform strain

    Returns
    -------
    Tightened
        Elastic: F = F_snug + P angle / 360 / (δ_S + δ_P). It yields at F_y, the assembly
        preload of ``stress.assembly_preload`` at the whole yield strength, and hardens in
        a straight line to F_y R_m / R_p0.2 where its length that yields has reached the
        uniform strain. Beyond, F is held there, which is the most that it can be: the screw
        necks. A snug torque that is too much for the screw leaves it at that brink.

    Valid range
    -----------
    Torque and angle finite and 0 or above; mu from 0 to 1; lengths and strengths finite and
    above 0; R_p0.2 ≤ R_m; uniform strain below 1; 0 < δ_S < 1; 0 ≤ δ_P < 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003 for torque, yield under tension and torsion, and resilience; linear
    hardening is an inference.

    Example
    -------
    No friction and a strength without end: a turn of a quarter at P = 1.5 mm gives
    0.375 mm, at 5e-6 mm/N in all 75 kN, and the torque is that of the lead alone,
    75 kN · 1.5 mm / 2π = 17.9 N·m.

    >>> thread = ScrewThread(pitch_mm=1.5, d2_mm=9.026, d0_mm=8.593, bearing_mm=13)
    >>> grip = Grip(bolt_mm_per_n=4e-6, parts_mm_per_n=1e-6, plastic_length_mm=16)
    >>> endless = Strength(48100, 1e9, 1e9, 0.045)
    >>> state = tighten(0, 90, 0, 0, thread, grip, endless)
    >>> state.preload_n, state.torque_nm
    (75000.0, 17.9)
    """
    return Course.of(mu_thread, mu_head, thread, grip, strength).after(torque_nm, angle_deg)


def curve(
    torque_nm: float,
    angle_deg: float,
    mu_thread: float,
    mu_head: float,
    thread: ScrewThread,
    grip: Grip,
    strength: Strength,
    points: int,
) -> tuple[Tightened, ...]:
    """States of a screw from snug to the end of an angle, at even steps.

    Parameters
    ----------
    torque_nm : float
        M, snug torque [N·m]
    angle_deg : float
        angle from snug at the end [°]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]
    mu_head : float
        mu_K, coefficient of friction under the head [1]
    thread : ScrewThread
        pitch, d2, d0 and effective diameter of friction under the head
    grip : Grip
        resilience of screw and parts, length that yields
    strength : Strength
        proof load, yield and tensile strength, uniform strain
    points : int
        how many states, the first at snug and the last at the end

    Returns
    -------
    tuple
        The states, each a ``Tightened``.

    Valid range
    -----------
    As ``tighten``; two points or more.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    As ``tighten``.

    Example
    -------
    As ``tighten``, in three steps: the preload rises by 25 kN for each 30°.

    >>> thread = ScrewThread(pitch_mm=1.5, d2_mm=9.026, d0_mm=8.593, bearing_mm=13)
    >>> grip = Grip(bolt_mm_per_n=4e-6, parts_mm_per_n=1e-6, plastic_length_mm=16)
    >>> states = curve(0, 90, 0, 0, thread, grip, Strength(48100, 1e9, 1e9, 0.045), 4)
    >>> [state.preload_n for state in states]
    [0.0, 25000.0, 50000.0, 75000.0]
    """
    fewest = 2
    if points < fewest:
        raise OutOfRange("points", points, fewest, float("inf"), _MODEL)
    limits.not_negative(_MODEL, angle_deg=angle_deg)
    course = Course.of(mu_thread, mu_head, thread, grip, strength)
    angles = (angle_deg * (step / (points - 1)) for step in range(points))
    return tuple(course.after(torque_nm, each) for each in angles)
