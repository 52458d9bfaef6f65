"""Resilience of a whole joint, for the rules: screw and parts, with a usual geometry."""

from __future__ import annotations

from typing import NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.cone import Joint, Layer, cone_slope, parts_resilience
from torquebook.mechanics.resilience import Head, bolt_resilience, bolt_sections

_RUN_OUT_MM = 6.0
_VDI = "VDI 2230-1:2003, resilience of the joint"


class Resilience(NamedTuple):
    """Resilience of the screw (δ_S) and of the clamped parts (δ_P), in mm/N."""

    bolt_mm_per_n: float
    parts_mm_per_n: float


def usual_free_thread(d_mm: float, clamp_length_mm: float) -> float:
    """Thread that is loaded outside the nut, where only the clamp length is known, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    clamp_length_mm : float
        l_K, clamp length [mm]

    Returns
    -------
    float
        d + 6 mm, or the whole clamp length where that is less

    Valid range
    -----------
    Both finite and above 0; screws up to 125 mm long.

    Raises
    ------
    OutOfRange
        If a value is not finite and above 0.

    Source
    ------
    Inference: the thread is 2 d + 6 mm long (ISO 888, screws up to 125 mm, from memory)
    and reaches about 1 d beyond the parts, into nut or hole (common practice). A screw
    with thread up to the head, or a stretch bolt with a reduced shank, is not like this.

    Example
    -------
    1/2-13, grip 2 in: Shigley, 9th ed., table 8-12, takes 2 d + 1/4 in of thread and a
    screw 2.5 in long, so 19.05 mm of thread are in the grip. The metric 6 mm in place of
    6.35 mm gives 18.7 mm.

    >>> usual_free_thread(12.7, 50.8)
    18.7
    """
    limits.positive(_VDI, d_mm=d_mm, clamp_length_mm=clamp_length_mm)
    return min(d_mm + _RUN_OUT_MM, clamp_length_mm)


def joint_resilience(
    d_mm: float,
    pitch_mm: float,
    clamp_length_mm: float,
    free_thread_mm: float,
    shank_mm: float,
    outer_mm: float,
    inner_mm: float,
    parts_outer_mm: float,
    modulus_mpa: float,
    parts_modulus_mpa: float,
    head: Head = "hexagon",
    joint: Joint = "through",
) -> Resilience:
    """Resilience of screw and parts of a plain joint: one shank, parts of one material.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]
    clamp_length_mm : float
        l_K, clamp length [mm]
    free_thread_mm : float
        l_Gew, loaded thread outside nut or hole (``usual_free_thread`` if unknown) [mm]
    shank_mm : float
        d_1, diameter of the shank: d, or that of a reduced one [mm]
    outer_mm : float
        d_W, outer diameter of the bearing area [mm]
    inner_mm : float
        d_h, diameter of the hole [mm]
    parts_outer_mm : float
        D_A, outer diameter of the clamped parts; of a plate, twice the way to its edge [mm]
    modulus_mpa : float
        E_S, modulus of elasticity of the screw, and of its nut [MPa]
    parts_modulus_mpa : float
        E_P, modulus of elasticity of the clamped parts [MPa]
    head : str
        "hexagon" or "socket"
    joint : str
        "through" with a nut, "tapped" with a thread in the last part

    Returns
    -------
    Resilience
        δ_S of ``bolt_sections``; δ_P of ``cone.parts_resilience`` at the slope of
        ``cone.cone_slope``, a plain sleeve where D_A ≤ d_W

    Valid range
    -----------
    All finite and above 0; l_Gew ≤ l_K; d_h below d_W and below D_A; P < d / 1.226869.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.
    NotUnderstood
        If head or joint is none of the two.

    Source
    ------
    VDI 2230-1:2003, sections 5.1.1 and 5.1.2, coefficients from memory.

    Example
    -------
    A plain sleeve of 20 by 10 mm, 100 mm long, E = 100 GPa: A = 235.6 mm², so by Hooke
    100 / (235.6 · 100 000) = 4.244e-6 mm/N.

    >>> joint = joint_resilience(8, 1.25, 100, 14, 8, 20, 10, 20, 205000, 100000)
    >>> joint.parts_mm_per_n * 1e6
    4.244
    """
    limits.positive(_VDI, clamp_length_mm=clamp_length_mm, parts_modulus_mpa=parts_modulus_mpa)
    if not 0 <= free_thread_mm <= clamp_length_mm:
        raise OutOfRange("free_thread_mm", free_thread_mm, 0.0, clamp_length_mm, _VDI)
    sections = bolt_sections(
        d_mm,
        pitch_mm,
        clamp_length_mm - free_thread_mm,
        shank_mm,
        free_thread_mm,
        modulus_mpa,
        modulus_mpa if joint == "through" else parts_modulus_mpa,
        head,
        joint,
    )
    slope = 0.0
    if parts_outer_mm > outer_mm:
        slope = cone_slope(clamp_length_mm, outer_mm, parts_outer_mm, joint)
    parts = (Layer(clamp_length_mm, parts_modulus_mpa, parts_outer_mm),)
    return Resilience(
        bolt_resilience(sections), parts_resilience(parts, outer_mm, inner_mm, slope, joint)
    )
