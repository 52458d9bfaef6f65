"""Bands through angle tightening: what friction, tool, joint and material leave open."""

from __future__ import annotations

from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.bands import Band
from torquebook.errors import OutOfRange
from torquebook.mechanics.yielding import Course, Grip, ScrewThread, tighten

if TYPE_CHECKING:
    from torquebook.mechanics.plastic import Strength

_MODEL = "angle tightening, worst case by corners"
#: So many screws are kept: a list has few, and who draws a curve asks for one at every point.
_REMEMBERED: Final = 128


class TightenedBand(NamedTuple):
    """``Tightened`` with a band for every figure."""

    angle_deg: Band
    snug_n: Band
    preload_n: Band
    torque_nm: Band
    proof_share: Band
    yield_share: Band
    yield_angle_deg: Band
    permanent_mm: Band
    strain_share: Band


def tighten_band(
    torque: Band,
    angle: Band,
    thread_friction: Band,
    head_friction: Band,
    thread: ScrewThread,
    grips: tuple[Grip, ...],
    strengths: tuple[Strength, ...],
) -> TightenedBand:
    """Band of every figure of ``tighten``, worst case by corners.

    Parameters
    ----------
    torque : Band
        M, snug torque as delivered, in N·m
    angle : Band
        angle from snug, in °
    thread_friction : Band
        mu_G, coefficient of friction in the thread
    head_friction : Band
        mu_K, coefficient of friction under the head
    thread : ScrewThread
        pitch, d2, d0 and effective diameter of friction under the head
    grips : tuple
        what the joint may be, each a ``Grip``, the likely one first
    strengths : tuple
        what the screw may be, each a ``Strength``, the likely one first

    Returns
    -------
    TightenedBand
        Least, likely and greatest of each figure, each on its own.

    Valid range
    -----------
    As ``tighten`` at every corner; bands in ascending order; at least one grip and strength.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range, or there is no grip or strength.
    TorquebookError
        If a band is not in ascending order.

    Source
    ------
    Common practice: worst case by corners. Exact for snug and preload. Friction in the
    thread moves the other figures both ways, so that a value inside may pass a corner: in
    tests by up to 0.5 % within a friction class up to 0.35, and by up to 4 % (the torque)
    for friction from 0.04 to 0.35.

    Example
    -------
    As ``tighten``, at 60° to 90°: 60° give 0.25 mm and 50 kN.

    >>> from torquebook.mechanics.plastic import Strength
    >>> thread = ScrewThread(pitch_mm=1.5, d2_mm=9.026, d0_mm=8.593, bearing_mm=13)
    >>> grip = Grip(bolt_mm_per_n=4e-6, parts_mm_per_n=1e-6, plastic_length_mm=16)
    >>> none, endless = Band.exact(0), Strength(48100, 1e9, 1e9, 0.045)
    >>> band = tighten_band(none, Band(60, 75, 90), none, none, thread, (grip,), (endless,))
    >>> band.preload_n
    Band(low=50000.0, nominal=62500.0, high=75000.0)
    """
    if not grips:
        raise OutOfRange("grips", 0, 1, float("inf"), _MODEL)
    if not strengths:
        raise OutOfRange("strengths", 0, 1, float("inf"), _MODEL)
    # Whatever the screw, more torque or angle leaves no figure lower, but for the angle to
    # yield, which only falls: both low and both high are the ends over torque and angle.
    torque, angle = Band.checked(*torque), Band.checked(*angle)
    starts = dict.fromkeys(((torque.low, angle.low), (torque.high, angle.high)))
    likely = tighten(
        torque.nominal,
        angle.nominal,
        thread_friction.nominal,
        head_friction.nominal,
        thread,
        grips[0],
        strengths[0],
    )
    courses = _courses(thread_friction, head_friction, thread, grips, strengths)
    states = [course.after(*start) for course in courses for start in starts]
    figures = zip(likely, zip(likely, *states, strict=True), strict=True)
    return TightenedBand(*(Band(min(each), nominal, max(each)) for nominal, each in figures))


@lru_cache(maxsize=_REMEMBERED)
def _courses(
    thread_friction: Band,
    head_friction: Band,
    thread: ScrewThread,
    grips: tuple[Grip, ...],
    strengths: tuple[Strength, ...],
) -> tuple[Course, ...]:
    """Return what any torque and angle make of the screw, at every corner."""
    corners = product(_ends(thread_friction), _ends(head_friction), grips, strengths)
    return tuple(
        Course.of(mu_thread, mu_head, thread, grip, strength)
        for mu_thread, mu_head, grip, strength in corners
    )


def _ends(band: Band) -> tuple[float, ...]:
    """Return the ends of a band, once if they are the same."""
    low, _, high = Band.checked(*band)
    return (low,) if low == high else (low, high)
