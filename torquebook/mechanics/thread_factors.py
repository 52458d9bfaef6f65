"""What a thread's strength depends on beside its area: material, wall, bending, chamfers.

The coefficients of Alexander's factors (C1, C2, C3) are from memory; the printed tables of
engagement in ``tests/published/engagement.csv`` hold what comes of them.
"""

from __future__ import annotations

from typing import NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.mating import Pair, external_shear_area, internal_shear_area

_VDI = "VDI 2230-1:2003, 5.5.5"
_ALEXANDER = "Alexander, SAE 770420"
_MOST_SHEAR_RATIO = 1.5
_THINNEST, _THICK = 1.4, 1.9  # across flats per diameter, where the dilation formula holds
_BOTH_BEND = 0.897
_SOFT_HOLE, _SOFT_BOLT = 0.4, 2.2  # strength ratios at which the bending curves end


class Bending(NamedTuple):
    """How far bending of the threads changes their strength."""

    external: float  # C2
    internal: float  # C3


def shear_strength(tensile_strength_mpa: float, shear_ratio: float) -> float:
    """Shear strength of a thread's material, in MPa.

    Parameters
    ----------
    tensile_strength_mpa : float
        R_m, tensile strength [MPa]
    shear_ratio : float
        τ_B / R_m. From memory of VDI 2230-1: steel 0.60 to 0.65, austenitic steel 0.72 to
        0.80, grey iron 0.9 to 1.1, ductile iron 0.9, aluminium 0.70 [1]

    Returns
    -------
    float
        τ_B = R_m · (τ_B / R_m)

    Valid range
    -----------
    R_m finite and above 0, ratio above 0 and below 1.5.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, 5.5.5. The ratio 0.7 of aluminium as printed in a course text with
    VDI 2230 and DIN 8140 as its sources (tests/published/engagement.csv).

    Example
    -------
    Aluminium of 250 to 270 MPa: the course text prints 0.7 R_m = 180 MPa, the middle of
    175 and 189 rounded.

    >>> shear_strength(260, 0.7)
    182.0
    """
    limits.positive(_VDI, tensile_strength_mpa=tensile_strength_mpa)
    limits.below(_VDI, _MOST_SHEAR_RATIO, shear_ratio=shear_ratio)
    return tensile_strength_mpa * shear_ratio


def effective_engagement(engaged_mm: float, pitch_mm: float, lost_pitches: float) -> float:
    """Length over which full threads engage, in mm.

    Parameters
    ----------
    engaged_mm : float
        m, length from the first to the last thread in contact, chamfers included [mm]
    pitch_mm : float
        P, pitch [mm]
    lost_pitches : float
        pitches that chamfers and incomplete threads take: 0.8 or 2 are both in use, from
        memory of VDI 2230-1 [1]

    Returns
    -------
    float
        m_eff = m − lost · P; 0 where the loss takes all

    Valid range
    -----------
    m and lost pitches finite and 0 or above, P finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Common practice: incomplete threads carry nothing.

    Example
    -------
    M10, 15 mm engaged, one pitch lost: 15 − 1.5.

    >>> effective_engagement(15, 1.5, 1)
    13.5
    """
    limits.not_negative(_VDI, engaged_mm=engaged_mm, lost_pitches=lost_pitches)
    limits.positive(_VDI, pitch_mm=pitch_mm)
    return max(engaged_mm - lost_pitches * pitch_mm, 0.0)


def dilation_factor(across_mm: float, d_mm: float) -> float:
    """Factor C1 by which a nut's dilation weakens both threads.

    Parameters
    ----------
    across_mm : float
        s, width across flats of the nut, or the outer diameter of a boss [mm]
    d_mm : float
        d, nominal diameter [mm]

    Returns
    -------
    float
        C1 = 3.8 s/d − (s/d)² − 2.61; 1 from s/d = 1.9 on, where the curve reaches 1

    Valid range
    -----------
    d finite and above 0; s/d of 1.4 or above: for thinner walls the source says nothing.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Alexander, SAE 770420 (1977), and VDI 2230-1:2003, 5.5.5; coefficients from memory.

    Example
    -------
    M10 with 16 mm across flats: 3.8 · 1.6 − 2.56 − 2.61.

    >>> dilation_factor(16, 10)
    0.91
    """
    limits.positive(_ALEXANDER, d_mm=d_mm, across_mm=across_mm)
    ratio = across_mm / d_mm
    if ratio < _THINNEST:
        raise OutOfRange("across_mm", across_mm, _THINNEST * d_mm, _THICK * d_mm, _ALEXANDER)
    return 1.0 if ratio >= _THICK else 3.8 * ratio - ratio**2 - 2.61


def strength_ratio(pair: Pair, external_shear_mpa: float, internal_shear_mpa: float) -> float:
    """Strength of the internal thread per strength of the external one.

    Parameters
    ----------
    pair : Pair
        the two threads
    external_shear_mpa : float
        τ_B of the external thread's material [MPa]
    internal_shear_mpa : float
        τ_B of the internal thread's material [MPa]

    Returns
    -------
    float
        R_S = A_SN τ_BN / (A_SG τ_BG); the engaged length cancels

    Valid range
    -----------
    Strengths finite and above 0; threads that overlap.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Alexander, SAE 770420 (1977), and VDI 2230-1:2003, 5.5.5.

    Example
    -------
    Equal strengths on the basic M8 profile: 7/8 · 8 mm over 3/4 · 6.647 mm.

    >>> from torquebook.mechanics.mating import basic_pair
    >>> strength_ratio(basic_pair(8, 1.25), 400, 400)
    1.404
    """
    limits.positive(_ALEXANDER, external_shear_mpa=external_shear_mpa)
    limits.positive(_ALEXANDER, internal_shear_mpa=internal_shear_mpa)
    external = external_shear_area(pair, 1.0) * external_shear_mpa
    return internal_shear_area(pair, 1.0) * internal_shear_mpa / external


def bending_factors(ratio: float) -> Bending:
    """Factors C2 and C3 by which bending changes the strength of the two threads.

    Parameters
    ----------
    ratio : float
        R_S, strength of the internal thread per strength of the external one [1]

    Returns
    -------
    Bending
        C2 = 5.594 − 13.682 R_S + 14.107 R_S² − 6.057 R_S³ + 0.9353 R_S⁴ for 1 < R_S < 2.2,
        C3 = 0.728 + 1.769 R_S − 2.896 R_S² + 1.296 R_S³ for 0.4 < R_S < 1; else each is
        0.897 on its weak side. Past the ends of the curves (R_S ≥ 2.2 and ≤ 0.4) our
        choice is 1: their gain of 19 % and 6 % is not counted on.

    Valid range
    -----------
    R_S finite and above 0.

    Raises
    ------
    OutOfRange
        If R_S is not finite and above 0.

    Source
    ------
    Alexander, SAE 770420 (1977), and VDI 2230-1:2003, 5.5.5; coefficients from memory.

    Example
    -------
    Threads of equal strength both bend: 0.897, where the two curves meet.

    >>> tuple(bending_factors(1))
    (0.897, 0.897)
    """
    limits.positive(_ALEXANDER, ratio=ratio)
    external = internal = _BOTH_BEND
    if ratio >= _SOFT_BOLT:
        external = 1.0
    elif ratio > 1:
        external = 5.594 - 13.682 * ratio + 14.107 * ratio**2 - 6.057 * ratio**3 + 0.9353 * ratio**4
    elif ratio <= _SOFT_HOLE:
        internal = 1.0
    elif ratio < 1:
        internal = 0.728 + 1.769 * ratio - 2.896 * ratio**2 + 1.296 * ratio**3
    return Bending(external, internal)
