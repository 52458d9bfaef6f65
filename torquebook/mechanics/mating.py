"""The two threads that mate: their diameters, and the areas that shear when one strips.

The external thread shears along the internal minor diameter D1, the internal thread along
the external major diameter d. Both have 60° flanks, so a tooth widens by 2 / √3 per radius.
"""

from __future__ import annotations

from math import ceil, log2, pi, sqrt
from typing import NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.thread import minor_diameter, pitch_diameter

_SHEAR = "VDI 2230-1:2003, 5.5.5"
_TOLERANCES = "ISO 965-1, formulas of the tolerances"
_UM_PER_MM = 1000.0
_SMALL_PITCH_MM = 1.0  # below, the minor diameter's tolerance has a formula of its own
_RANGE_MM = 1.4  # one end of a range of diameters; the others follow by doubling
_COIL = 3 / 4 * sqrt(3)  # 1.299038


class Pair(NamedTuple):
    """Diameters of an external thread and of the internal thread it sits in, in mm."""

    pitch_mm: float
    d_mm: float  # major diameter of the external thread
    d2_mm: float  # pitch diameter of the external thread
    internal_d2_mm: float  # pitch diameter of the internal thread, D2
    internal_d1_mm: float  # minor diameter of the internal thread, D1


def basic_pair(d_mm: float, pitch_mm: float) -> Pair:
    """Two threads of the basic profile, without tolerances, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    Pair
        d, d2 = D2 and D1 of the basic profile

    Valid range
    -----------
    0 < P < d / 1.226869.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 724, table of basic dimensions, as reprinted in tests/published/iso_threads.csv.

    Example
    -------
    M8: the table prints d2 = 7.188 and D1 = 6.647 mm.

    >>> basic_pair(8, 1.25)[2:]
    (7.188, 7.188, 6.647)
    """
    d2_mm = pitch_diameter(d_mm, pitch_mm)
    return Pair(pitch_mm, d_mm, d2_mm, d2_mm, minor_diameter(d_mm, pitch_mm))


def least_pair(d_mm: float, pitch_mm: float) -> Pair:
    """Least favourable threads that 6g and 6H allow: thin bolt, wide hole, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    Pair
        d_min and d2_min of 6g, D2_max and D1_max of 6H. In µm: es = 15 + 11 P;
        T_d = 180 P^(2/3) − 3.15 / √P; T_d2 = 90 P^0.4 D^0.1 with D the geometric mean of
        the range of diameters (… 5.6, 11.2, 22.4 …); T_D2 = 1.32 T_d2; T_D1 = 230 P^0.7,
        below a pitch of 1 mm 433 P − 190 P^1.22

    Valid range
    -----------
    0 < P < d / 1.226869, and the two threads must still overlap.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 965-1, formulas of fundamental deviations and tolerances, from memory. The
    standard rounds to preferred numbers: the tables of ASME B1.13M-1995 (same limits) in
    tests/published/thread_limits.csv agree within 10 µm.

    Example
    -------
    M10: the tables print d 9.732, d2 8.862, D2 9.206 and D1 8.676 mm; the formulas give
    3, 2, −8 and 6 µm more.

    >>> least_pair(10, 1.5)[1:]
    (9.7, 8.9, 9.2, 8.7)
    """
    basic = basic_pair(d_mm, pitch_mm)
    allowance = 15 + 11 * pitch_mm
    major = 180 * pitch_mm ** (2 / 3) - 3.15 / sqrt(pitch_mm)
    flank = 90 * pitch_mm**0.4 * _range_mean(d_mm) ** 0.1
    if pitch_mm < _SMALL_PITCH_MM:
        minor = 433 * pitch_mm - 190 * pitch_mm**1.22
    else:
        minor = 230 * pitch_mm**0.7
    pair = Pair(
        pitch_mm,
        d_mm - (allowance + major) / _UM_PER_MM,
        basic.d2_mm - (allowance + flank) / _UM_PER_MM,
        basic.internal_d2_mm + 1.32 * flank / _UM_PER_MM,
        basic.internal_d1_mm + minor / _UM_PER_MM,
    )
    _check(pair, _TOLERANCES)
    return pair


def coil_hole_diameter(d_mm: float, pitch_mm: float) -> float:
    """Major diameter of the tapped hole that a coil insert sits in, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter of the bolt [mm]
    pitch_mm : float
        P, pitch of both threads [mm]

    Returns
    -------
    float
        D = d + 1.299038 P. With it, ``basic_pair`` and ``least_pair`` give the thread by
        which the insert carries in the parent.

    Valid range
    -----------
    0 < P < d / 1.226869.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    Derived from the basic profile of ISO 68-1: the wire is 7/8 P wide at d, where it is
    the tooth of the internal thread, and narrows outwards by 60° flanks to a crest of
    P/8, as the same profile has: 2 · (7/8 − 1/8) P / 2 · √3 = 1.299 P.

    Example
    -------
    M8: between 7/8 · 1.25 = 1.094 mm and 1.25 / 8 = 0.156 mm of width lie 0.812 mm of
    height at 60°, on both sides of the bolt.

    >>> coil_hole_diameter(8, 1.25)
    9.624
    """
    basic_pair(d_mm, pitch_mm)
    return d_mm + _COIL * pitch_mm


def external_shear_area(pair: Pair, engagement_mm: float) -> float:
    """Area by which the external thread shears off, in mm².

    Parameters
    ----------
    pair : Pair
        the two threads
    engagement_mm : float
        m_eff, length over which full threads engage [mm]

    Returns
    -------
    float
        A_SG = π · m_eff / P · D1 · (P/2 + (d2 − D1) / √3)

    Valid range
    -----------
    m_eff finite and 0 or above; threads that overlap.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, 5.5.5, after Alexander (SAE 770420, 1977).

    Example
    -------
    M8 of basic profile over 8 mm: the tooth is 3/4 P wide at D1 = 6.647 mm, so that
    π · 6.647 · 8 · 3/4 shear.

    >>> external_shear_area(basic_pair(8, 1.25), 8)
    125.3
    """
    _check(pair, _SHEAR)
    limits.not_negative(_SHEAR, engagement_mm=engagement_mm)
    return pi * engagement_mm / pair.pitch_mm * pair.internal_d1_mm * _external_width(pair)


def internal_shear_area(pair: Pair, engagement_mm: float) -> float:
    """Area by which the internal thread shears off, in mm².

    Parameters
    ----------
    pair : Pair
        the two threads
    engagement_mm : float
        m_eff, length over which full threads engage [mm]

    Returns
    -------
    float
        A_SN = π · m_eff / P · d · (P/2 + (d − D2) / √3)

    Valid range
    -----------
    m_eff finite and 0 or above; threads that overlap.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, 5.5.5, after Alexander (SAE 770420, 1977).

    Example
    -------
    M10x1.5, d = 9.968 and D2 = 9.206 mm: a handbook's example (DOI
    10.1201/9781482273786-99) prints 21.6 mm for 69 600 N at 130 MPa, which is 535.4 mm².
    The formula gives 536.6, the printed length is rounded up from 21.55.

    >>> internal_shear_area(Pair(1.5, 9.968, 8.862, 9.206, 8.676), 21.6)
    536.6
    """
    _check(pair, _SHEAR)
    limits.not_negative(_SHEAR, engagement_mm=engagement_mm)
    return pi * engagement_mm / pair.pitch_mm * pair.d_mm * _internal_width(pair)


def _range_mean(d_mm: float) -> float:
    """Geometric mean of the range of diameters that shares a tolerance, each twice the last."""
    return _RANGE_MM * 2 ** (ceil(log2(d_mm / _RANGE_MM)) - 0.5)


def _external_width(pair: Pair) -> float:
    return pair.pitch_mm / 2 + (pair.d2_mm - pair.internal_d1_mm) / sqrt(3)


def _internal_width(pair: Pair) -> float:
    return pair.pitch_mm / 2 + (pair.d_mm - pair.internal_d2_mm) / sqrt(3)


def _check(pair: Pair, source: str) -> None:
    """Raise OutOfRange for two threads that do not overlap."""
    limits.positive(source, pitch_mm=pair.pitch_mm, d_mm=pair.d_mm, d2_mm=pair.d2_mm)
    limits.positive(source, internal_d2_mm=pair.internal_d2_mm)
    limits.below(source, pair.d_mm, internal_d1_mm=pair.internal_d1_mm)
    sharp = sqrt(3) / 2 * pair.pitch_mm  # from half a pitch wide to none
    if not _external_width(pair) > 0:
        low = pair.internal_d1_mm - sharp
        raise OutOfRange("d2_mm", pair.d2_mm, low, pair.d_mm, source)
    if not _internal_width(pair) > 0:
        high = pair.d_mm + sharp
        raise OutOfRange("internal_d2_mm", pair.internal_d2_mm, pair.internal_d1_mm, high, source)
