"""Torque and preload of a joint, elastic, and the nut factor.

The thread has 60° flanks, so friction there acts at d2 / 2 / cos 30°.
"""

from __future__ import annotations

from math import pi, sqrt

from torquebook.mechanics import limits

_COS_30 = sqrt(3) / 2
_MM_PER_M = 1000.0
_VDI = "VDI 2230-1:2003"
_HANDBOOK = "Machinery's Handbook, 31st ed., p. 1662"
_NUT_FACTOR = "T = K D P, Mechanical Fastening, Joining and Assembly, p. 85"


def thread_torque(preload_n: float, pitch_mm: float, d2_mm: float, mu_thread: float) -> float:
    """Share of the tightening torque that acts in the thread, in N·m.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]

    Returns
    -------
    float
        M_G = F (P / 2π + d2 / (2 cos 30°) · mu_G) = F (0.159 P + 0.577 d2 mu_G)

    Valid range
    -----------
    F finite and 0 or above, P and d2 finite and above 0, mu_G from 0 to 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, thread torque.

    Example
    -------
    M8x1, 8.8, mu 0.10: the fine-thread table prints 20.7 kN and 22.8 N·m, of which
    20 700 N · 0.10 · 10.315 mm / 2 = 10.68 N·m is friction under the head. That leaves
    12.12 N·m; the formula gives 12.08 N·m, the printed preload is rounded.

    >>> thread_torque(20700, 1, 7.350, 0.10)
    12.08
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    return preload_n * _thread_arm(pitch_mm, d2_mm, mu_thread) / _MM_PER_M


def torque_from_preload(
    preload_n: float,
    pitch_mm: float,
    d2_mm: float,
    mu_thread: float,
    mu_head: float,
    bearing_mm: float,
) -> float:
    """Tightening torque that gives a preload, in N·m.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]
    mu_head : float
        mu_K, coefficient of friction under the head [1]
    bearing_mm : float
        D_Km, effective diameter for friction under the head [mm]

    Returns
    -------
    float
        M = F (0.159 P + 0.577 d2 mu_G + D_Km / 2 · mu_K)

    Valid range
    -----------
    F finite and 0 or above, lengths finite and above 0, mu_G and mu_K from 0 to 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, tightening torque; table of fine threads as reprinted in
    tests/published/vdi2230_fine.csv.

    Example
    -------
    M8x1, 8.8, mu 0.10: the table prints 20.7 kN and 22.8 N·m; the formula gives 22.76
    N·m, the printed preload is rounded.

    >>> torque_from_preload(20700, 1, 7.350, 0.10, 0.10, 10.315)
    22.76
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    return preload_n * _arm(pitch_mm, d2_mm, mu_thread, mu_head, bearing_mm) / _MM_PER_M


def preload_from_torque(
    torque_nm: float,
    pitch_mm: float,
    d2_mm: float,
    mu_thread: float,
    mu_head: float,
    bearing_mm: float,
) -> float:
    """Preload that a tightening torque gives, in N.

    Parameters
    ----------
    torque_nm : float
        M, tightening torque [N·m]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]
    mu_head : float
        mu_K, coefficient of friction under the head [1]
    bearing_mm : float
        D_Km, effective diameter for friction under the head [mm]

    Returns
    -------
    float
        F = M / (0.159 P + 0.577 d2 mu_G + D_Km / 2 · mu_K)

    Valid range
    -----------
    M finite and 0 or above, lengths finite and above 0, mu_G and mu_K from 0 to 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, tightening torque; table of fine threads as reprinted in
    tests/published/vdi2230_fine.csv.

    Example
    -------
    M8x1, 8.8, mu 0.10: the table prints 22.8 N·m and 20.7 kN; the formula gives 20.74
    kN, the printed torque is rounded.

    >>> preload_from_torque(22.8, 1, 7.350, 0.10, 0.10, 10.315) / 1000
    20.74
    """
    limits.not_negative(_VDI, torque_nm=torque_nm)
    return torque_nm * _MM_PER_M / _arm(pitch_mm, d2_mm, mu_thread, mu_head, bearing_mm)


def nut_factor(
    d_mm: float,
    pitch_mm: float,
    d2_mm: float,
    mu_thread: float,
    mu_head: float,
    bearing_mm: float,
) -> float:
    """Nut factor K, so that M = K d F.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    mu_thread : float
        mu_s (mu_G), coefficient of friction in the thread [1]
    mu_head : float
        mu_w (mu_K), coefficient of friction under the head [1]
    bearing_mm : float
        D_w (D_Km), effective diameter for friction under the head [mm]

    Returns
    -------
    float
        K = (P/π + mu_s d2 / cos 30° + mu_w D_w) / (2 d)

    Valid range
    -----------
    Lengths finite and above 0, mu_s and mu_w from 0 to 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Machinery's Handbook, 31st ed., p. 1662, as reprinted in
    tests/published/friction_and_scatter.csv (table 3 is a mean of sizes M4 to M36).

    Example
    -------
    M10, mu 0.15 in thread and under the head: table 3 prints K = 0.199 as a mean of all
    sizes; this size alone gives 0.201.

    >>> nut_factor(10, 1.5, 9.026, 0.15, 0.15, 13.24)
    0.201
    """
    limits.positive(_HANDBOOK, d_mm=d_mm)
    return _arm(pitch_mm, d2_mm, mu_thread, mu_head, bearing_mm) / d_mm


def torque_from_nut_factor(preload_n: float, d_mm: float, k: float) -> float:
    """Tightening torque that gives a preload, by the nut factor, in N·m.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    d_mm : float
        d, nominal diameter [mm]
    k : float
        K, nut factor [1]

    Returns
    -------
    float
        M = K d F

    Valid range
    -----------
    F finite and 0 or above, d and K finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Mechanical Fastening, Joining and Assembly, p. 85.

    Example
    -------
    0.190 in, 1275 lbf, K = 0.20: the book prints 48.5 lbf·in; the formula gives 48.45,
    the book is rounded. 1 lbf = 4.4482216 N, 1 lbf·in = 0.11298483 N·m.

    >>> torque_from_nut_factor(1275 * 4.4482216, 0.190 * 25.4, 0.20) / 0.11298483
    48.45
    """
    limits.not_negative(_NUT_FACTOR, preload_n=preload_n)
    limits.positive(_NUT_FACTOR, d_mm=d_mm, k=k)
    return k * d_mm * preload_n / _MM_PER_M


def preload_from_nut_factor(torque_nm: float, d_mm: float, k: float) -> float:
    """Preload that a tightening torque gives, by the nut factor, in N.

    Parameters
    ----------
    torque_nm : float
        M, tightening torque [N·m]
    d_mm : float
        d, nominal diameter [mm]
    k : float
        K, nut factor [1]

    Returns
    -------
    float
        F = M / (K d)

    Valid range
    -----------
    M finite and 0 or above, d and K finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Mechanical Fastening, Joining and Assembly, p. 85.

    Example
    -------
    0.190 in, 48.5 lbf·in, K = 0.20: the book prints 1275 lbf; the formula gives 1276.3,
    the printed torque is rounded.

    >>> preload_from_nut_factor(48.5 * 0.11298483, 0.190 * 25.4, 0.20) / 4.4482216
    1276.3
    """
    limits.not_negative(_NUT_FACTOR, torque_nm=torque_nm)
    limits.positive(_NUT_FACTOR, d_mm=d_mm, k=k)
    return torque_nm * _MM_PER_M / (k * d_mm)


def _thread_arm(pitch_mm: float, d2_mm: float, mu_thread: float) -> float:
    """Torque in the thread per preload, in mm."""
    limits.positive(_VDI, pitch_mm=pitch_mm, d2_mm=d2_mm)
    limits.friction(_VDI, mu_thread=mu_thread)
    return pitch_mm / (2 * pi) + d2_mm / (2 * _COS_30) * mu_thread


def _arm(
    pitch_mm: float, d2_mm: float, mu_thread: float, mu_head: float, bearing_mm: float
) -> float:
    """Tightening torque per preload, in mm."""
    limits.positive(_VDI, bearing_mm=bearing_mm)
    limits.friction(_VDI, mu_head=mu_head)
    return _thread_arm(pitch_mm, d2_mm, mu_thread) + bearing_mm / 2 * mu_head
