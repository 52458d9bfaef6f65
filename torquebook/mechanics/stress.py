"""Tension and torsion together while a screw is tightened, and the preload that they allow.

Before 2001 VDI 2230-1 takes the torsion as elastic (section modulus π d0³ / 16), from then
on as levelled out by yielding (π d0³ / 12). An edition is always an argument.
"""

from __future__ import annotations

from math import pi, sqrt
from typing import Literal, NamedTuple

from torquebook.errors import NotUnderstood, OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.preload import thread_torque

Edition = Literal["1986", "2003"]

_TORSION_FACTOR = {"1986": 2.0, "2003": 1.5}
_MM_PER_M = 1000.0
_VDI = "VDI 2230-1"


class Stress(NamedTuple):
    """Stresses in the stress cross-section, in MPa."""

    tension_mpa: float
    torsion_mpa: float
    combined_mpa: float


def combined_stress(
    preload_n: float,
    pitch_mm: float,
    d2_mm: float,
    d0_mm: float,
    mu_thread: float,
    edition: Edition = "2003",
) -> Stress:
    """Tension, torsion and their von Mises sum at a preload, in MPa.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    d0_mm : float
        d0, diameter of the stress cross-section: of the thread (``thread.stress_diameter``),
        or of the shank where that is thinner [mm]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]
    edition : str
        "2003" for VDI 2230-1 from 2001 on, "1986" for the editions before

    Returns
    -------
    Stress
        σ = 4 F / (π d0²); τ = σ · f · d2/d0 · (P / (π d2) + 1.155 mu_G), f = 1.5 from 2001
        on and 2.0 before; √(σ² + 3 τ²)

    Valid range
    -----------
    F finite and 0 or above, lengths finite and above 0, mu_G from 0 to 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.
    NotUnderstood
        If the edition is none of the two.

    Source
    ------
    VDI 2230-1:2003, assembly preload; table of fine threads as reprinted in
    tests/published/vdi2230_fine.csv.

    Example
    -------
    M8x1, 8.8, mu 0.10: the table prints 20.7 kN at 0.9 · 640 MPa = 576 MPa; the formula
    gives 575.1 MPa, the printed preload is rounded.

    >>> combined_stress(20700, 1, 7.350, 7.062, 0.10).combined_mpa
    575.1
    """
    ratio = _torsion_per_tension(pitch_mm, d2_mm, d0_mm, mu_thread, edition)
    limits.not_negative(_VDI, preload_n=preload_n)
    tension = preload_n / (pi / 4 * d0_mm**2)
    return Stress(tension, tension * ratio, tension * sqrt(1 + 3 * ratio**2))


def assembly_preload(
    yield_mpa: float,
    pitch_mm: float,
    d2_mm: float,
    d0_mm: float,
    mu_thread: float,
    share: float = 0.9,
    edition: Edition = "2003",
) -> float:
    """Assembly preload at which tension and torsion use a share of the yield strength, in N.

    The torque for it comes from ``preload.torque_from_preload``.

    Parameters
    ----------
    yield_mpa : float
        R_p0.2 or R_eL, yield strength [MPa]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    d0_mm : float
        d0, diameter of the stress cross-section: of the thread (``thread.stress_diameter``),
        or of the shank where that is thinner [mm]
    mu_thread : float
        mu_G, coefficient of friction in the thread [1]
    share : float
        nu, share of the yield strength that is used [1]
    edition : str
        "2003" for VDI 2230-1 from 2001 on, "1986" for the editions before

    Returns
    -------
    float
        F = π/4 d0² · nu R_p0.2 / √(1 + 3 [f · d2/d0 · (P / (π d2) + 1.155 mu_G)]²), f = 1.5
        from 2001 on and 2.0 before

    Valid range
    -----------
    R_p0.2 and lengths finite and above 0, mu_G from 0 to 1, 0 < nu ≤ 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.
    NotUnderstood
        If the edition is none of the two.

    Source
    ------
    VDI 2230-1:2003, assembly preload; table of fine threads as reprinted in
    tests/published/vdi2230_fine.csv.

    Example
    -------
    M8x1, 8.8, mu 0.10: the table prints 20.7 kN; the formula gives 20.73 kN.

    >>> assembly_preload(640, 1, 7.350, 7.062, 0.10) / 1000
    20.73
    """
    ratio = _torsion_per_tension(pitch_mm, d2_mm, d0_mm, mu_thread, edition)
    limits.positive(_VDI, yield_mpa=yield_mpa)
    if not 0 < share <= 1:
        raise OutOfRange("share", share, 0.0, 1.0, _VDI)
    return pi / 4 * d0_mm**2 * share * yield_mpa / sqrt(1 + 3 * ratio**2)


def _torsion_per_tension(
    pitch_mm: float, d2_mm: float, d0_mm: float, mu_thread: float, edition: str
) -> float:
    """Torsional stress per tensile stress."""
    if edition not in _TORSION_FACTOR:
        raise NotUnderstood(edition, "no such edition of VDI 2230-1", tuple(_TORSION_FACTOR))
    limits.positive(_VDI, d0_mm=d0_mm)
    arm_mm = thread_torque(1.0, pitch_mm, d2_mm, mu_thread) * _MM_PER_M
    return _TORSION_FACTOR[edition] * 2 * arm_mm / d0_mm
