"""Pressure under a head, flange, washer or nut, and the ring that keeps it below a limit."""

from __future__ import annotations

from math import pi, sqrt

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits

_VDI = "VDI 2230-1:2003, surface pressure"
_VDI_WASHER = "VDI 2230-1:2015"
_MOST_SPREAD = 2 * sqrt(3)  # a washer that spreads at 60°


def bearing_area(outer_mm: float, inner_mm: float) -> float:
    """Area of the ring on which a head, flange, washer or nut rests, in mm².

    Parameters
    ----------
    outer_mm : float
        d_w, outer diameter of the bearing area [mm]
    inner_mm : float
        d_h, inner diameter of the bearing area: the hole, with its chamfer [mm]

    Returns
    -------
    float
        A = π/4 (d_w² − d_h²)

    Valid range
    -----------
    0 < d_h < d_w.

    Raises
    ------
    OutOfRange
        If d_w is not finite and above 0, or d_h lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, surface pressure.

    Example
    -------
    A ring of 5 mm outside and 3 mm inside is a disc of 4 mm: 4 π.

    >>> bearing_area(5, 3)
    12.566
    """
    limits.positive(_VDI, outer_mm=outer_mm)
    limits.below(_VDI, outer_mm, inner_mm=inner_mm)
    return pi / 4 * (outer_mm - inner_mm) * (outer_mm + inner_mm)


def bearing_pressure(preload_n: float, outer_mm: float, inner_mm: float) -> float:
    """Mean pressure under a head, flange, washer or nut, in MPa.

    Parameters
    ----------
    preload_n : float
        F, preload, with the working load where there is one [N]
    outer_mm : float
        d_w, outer diameter of the bearing area [mm]
    inner_mm : float
        d_h, inner diameter of the bearing area: the hole, with its chamfer [mm]

    Returns
    -------
    float
        p = F / A, to compare with the limiting pressure p_G of the softer side

    Valid range
    -----------
    F finite and 0 or above, 0 < d_h < d_w.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, surface pressure.

    Example
    -------
    M8x1, 8.8, mu 0.10: the fine-thread table prints 20.7 kN; d_w = 11.63 mm and d_h = 9
    mm leave 106.23 − 63.62 = 42.61 mm², so 485.8 MPa.

    >>> bearing_pressure(20700, 11.63, 9)
    485.8
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    return preload_n / bearing_area(outer_mm, inner_mm)


def needed_outer_diameter(preload_n: float, inner_mm: float, limit_mpa: float) -> float:
    """Outer diameter at which a ring under a preload just meets a limiting pressure, in mm.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    inner_mm : float
        d_h, inner diameter of the bearing area: the hole, with its chamfer [mm]
    limit_mpa : float
        p_G, limiting pressure of the material below [MPa]

    Returns
    -------
    float
        d_w = √(d_h² + 4 F / (π p_G)): a stiff washer of this diameter would do, a thin one
        only as far as ``spread_diameter`` says

    Valid range
    -----------
    F finite and 0 or above, d_h and p_G finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, surface pressure, solved for d_w; printed limits in
    tests/published/friction_and_scatter.csv.

    Example
    -------
    A disc's worth of 4 π mm² around a hole of 3 mm, one newton on each mm²: 5 mm.

    >>> needed_outer_diameter(12.56637, 3, 1)
    5.0
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    limits.positive(_VDI, inner_mm=inner_mm, limit_mpa=limit_mpa)
    return sqrt(inner_mm**2 + 4 * preload_n / (pi * limit_mpa))


def spread_diameter(
    outer_mm: float, washer_mm: float, thickness_mm: float, spread: float = 1.6
) -> float:
    """Outer diameter by which a washer passes the load on, in mm.

    Parameters
    ----------
    outer_mm : float
        d_w, outer diameter of the bearing area of head or nut on the washer [mm]
    washer_mm : float
        outer diameter of the washer [mm]
    thickness_mm : float
        h_S, thickness of the washer [mm]
    spread : float
        how much wider the load becomes per thickness; 1.6 from memory of VDI 2230-1 [1]

    Returns
    -------
    float
        d_Wa = d_w + 1.6 h_S, at most the washer's own diameter

    Valid range
    -----------
    Lengths finite and above 0, spread from 0 to 3.46.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2015, effective outer diameter under a washer, from memory.

    Example
    -------
    A head of 14.6 mm on a washer of 20 mm outside and 2 mm thick: 14.6 + 1.6 · 2.

    >>> spread_diameter(14.6, 20, 2)
    17.8
    """
    limits.positive(_VDI_WASHER, outer_mm=outer_mm, washer_mm=washer_mm)
    limits.positive(_VDI_WASHER, thickness_mm=thickness_mm)
    if not 0 <= spread <= _MOST_SPREAD:
        raise OutOfRange("spread", spread, 0.0, _MOST_SPREAD, _VDI_WASHER)
    return min(outer_mm + spread * thickness_mm, washer_mm)
