"""Resilience of the screw: how far it gives under 1 N.

The clamped parts are in ``cone``. Twist of the screw is left out.
"""

from __future__ import annotations

from math import pi
from typing import Literal, NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.cone import JOINTS, Joint
from torquebook.mechanics.thread import root_diameter

Head = Literal["hexagon", "socket"]

# substitution lengths per nominal diameter, VDI 2230-1:2003, from memory
_HEAD_LENGTH = {"hexagon": 0.5, "socket": 0.4}
_ENGAGED_LENGTH = 0.5
_NUT_LENGTH = {"through": 0.4, "tapped": 0.33}
_VDI = "VDI 2230-1:2003, resilience of the bolt"


class Section(NamedTuple):
    """One length of a screw: length, cross-section, modulus of elasticity."""

    length_mm: float
    area_mm2: float
    modulus_mpa: float


def bolt_resilience(sections: tuple[Section, ...]) -> float:
    """Elastic resilience δ_S of a screw, in mm/N.

    Parameters
    ----------
    sections : tuple
        its lengths from head to nut, each a ``Section``; ``bolt_sections`` gives those of
        VDI 2230

    Returns
    -------
    float
        δ_S = Σ l_i / (E_i A_i)

    Valid range
    -----------
    At least one section; lengths finite and 0 or above, areas and moduli finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range, or there is no section.

    Source
    ------
    VDI 2230-1:2003, section 5.1.1; springs in series.

    Example
    -------
    1/2-13, grip 2 in, steel of 30e6 psi: Shigley's Mechanical Engineering Design, 9th ed.,
    table 8-12, p. 437, prints k_b = 2.57 Mlbf/in. The screw is 2.5 in long and has thread
    over 2 d + 1/4 in, so 1.25 in of shank and 0.75 in of thread (0.1419 in²) are in the
    grip; head and nut do not give.

    >>> modulus = 30e6 * 0.00689476
    >>> shank = Section(1.25 * 25.4, 0.19635 * 25.4**2, modulus)
    >>> thread = Section(0.75 * 25.4, 0.1419 * 25.4**2, modulus)
    >>> 1 / bolt_resilience((shank, thread)) / 0.175127 / 1e6
    2.57
    """
    if not sections:
        raise OutOfRange("sections", 0, 1, float("inf"), _VDI)
    for length_mm, area_mm2, modulus_mpa in sections:
        limits.not_negative(_VDI, length_mm=length_mm)
        limits.positive(_VDI, area_mm2=area_mm2, modulus_mpa=modulus_mpa)
    return sum(section.length_mm / section.modulus_mpa / section.area_mm2 for section in sections)


def bolt_sections(
    d_mm: float,
    pitch_mm: float,
    shank_length_mm: float,
    shank_mm: float,
    free_thread_mm: float,
    modulus_mpa: float,
    thread_modulus_mpa: float,
    head: Head = "hexagon",
    joint: Joint = "through",
) -> tuple[Section, ...]:
    """Sections of a screw with one shank: head, shank, free thread, engaged thread, nut.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]
    shank_length_mm : float
        l_1, shank between head and thread; 0 if the thread reaches the head [mm]
    shank_mm : float
        d_1, diameter of the shank: d, or that of a reduced one [mm]
    free_thread_mm : float
        l_Gew, loaded thread outside nut or hole [mm]
    modulus_mpa : float
        E_S, modulus of elasticity of the screw [MPa]
    thread_modulus_mpa : float
        E_M, modulus of elasticity of the nut, or of the part with the tapped hole [MPa]
    head : str
        "hexagon" or "socket"
    joint : str
        "through" with a nut, "tapped" with a thread in the last part

    Returns
    -------
    tuple
        Head 0.5 d (socket 0.4 d) on π/4 d²; shank; free thread and 0.5 d of engaged thread
        on π/4 d3²; nut 0.4 d, or tapped hole 0.33 d, on π/4 d²

    Valid range
    -----------
    l_1 and l_Gew finite and 0 or above, the others finite and above 0, P < d / 1.226869.
    A unified thread is taken with the metric root, which is 0.036 P thinner than its own.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.
    NotUnderstood
        If head or joint is none of the two.

    Source
    ------
    VDI 2230-1:2003, section 5.1.1, substitution lengths, from memory. Editions before
    2001 take 0.4 d for every head, from memory.

    Example
    -------
    M10 with 20 mm of shank and 15 mm of free thread, l / d by the source: 0.5 + 2 + 1.5 +
    0.5 + 0.4 = 4.9.

    >>> sections = bolt_sections(10, 1.5, 20, 10, 15, 205000, 205000)
    >>> sum(section.length_mm for section in sections) / 10
    4.9
    """
    limits.known("joint", joint, JOINTS)
    limits.known("head", head, tuple(_HEAD_LENGTH))
    limits.positive(_VDI, shank_mm=shank_mm, modulus_mpa=modulus_mpa)
    limits.positive(_VDI, thread_modulus_mpa=thread_modulus_mpa)
    limits.not_negative(_VDI, shank_length_mm=shank_length_mm, free_thread_mm=free_thread_mm)
    root_mm2 = _circle(root_diameter(d_mm, pitch_mm))
    nominal_mm2 = _circle(d_mm)
    return (
        Section(_HEAD_LENGTH[head] * d_mm, nominal_mm2, modulus_mpa),
        Section(shank_length_mm, _circle(shank_mm), modulus_mpa),
        Section(free_thread_mm, root_mm2, modulus_mpa),
        Section(_ENGAGED_LENGTH * d_mm, root_mm2, modulus_mpa),
        Section(_NUT_LENGTH[joint] * d_mm, nominal_mm2, thread_modulus_mpa),
    )


def stretch(preload_n: float, bolt_mm_per_n: float) -> float:
    """Elastic stretch of a screw under its preload, in mm.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    bolt_mm_per_n : float
        δ_S, resilience of the screw [mm/N]

    Returns
    -------
    float
        f = F δ_S

    Valid range
    -----------
    F finite and 0 or above, δ_S finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Hooke's law.

    Example
    -------
    7/8-9, 5 in, 10 000 lbf, 30e6 psi, 0.46 in²: an engineering reference page prints
    0.0036 in; the formula gives 0.00362 in.

    >>> per_lbf = 5 / (30e6 * 0.46)
    >>> stretch(10000 * 4.4482216, per_lbf * 25.4 / 4.4482216) / 25.4
    0.0036
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    if not 0 < bolt_mm_per_n < 1:
        raise OutOfRange("bolt_mm_per_n", bolt_mm_per_n, 0.0, 1.0, _VDI)
    return preload_n * bolt_mm_per_n


def _circle(diameter_mm: float) -> float:
    """Area of a circle, in mm2."""
    return pi / 4 * diameter_mm**2
