"""The ring on which a head or nut rests."""

from __future__ import annotations

from torquebook.mechanics import limits

_VDI = "VDI 2230-1:2003"
_HANDBOOK = "Machinery's Handbook, 31st ed., p. 1662"


def bearing_diameter(outer_mm: float, inner_mm: float) -> float:
    """Effective diameter for friction under the head, as the mean diameter, in mm.

    Parameters
    ----------
    outer_mm : float
        d_w, outer diameter of the bearing area [mm]
    inner_mm : float
        d_h, inner diameter of the bearing area, mostly the hole [mm]

    Returns
    -------
    float
        D_Km = (d_w + d_h) / 2

    Valid range
    -----------
    0 < d_h < d_w.

    Raises
    ------
    OutOfRange
        If d_w is not finite and above 0, or d_h lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, effective diameter of the bearing area; the printed fine-thread table
    rests on it (d_w ISO 4014 minimum, d_h ISO 273 medium).

    Example
    -------
    M8: the standards print d_w = 11.63 mm and d_h = 9 mm, whose mean is 10.315 mm.

    >>> bearing_diameter(11.63, 9)
    10.315
    """
    limits.positive(_VDI, outer_mm=outer_mm)
    limits.below(_VDI, outer_mm, inner_mm=inner_mm)
    return (outer_mm + inner_mm) / 2


def bearing_diameter_ring(outer_mm: float, inner_mm: float) -> float:
    """Effective diameter for friction under the head, at even pressure on a ring, in mm.

    Parameters
    ----------
    outer_mm : float
        D_o, outer diameter of the bearing area [mm]
    inner_mm : float
        D_i, inner diameter of the bearing area [mm]

    Returns
    -------
    float
        D_w = 2/3 · (D_o³ − D_i³) / (D_o² − D_i²)

    Valid range
    -----------
    0 < D_i < D_o.

    Raises
    ------
    OutOfRange
        If D_o is not finite and above 0, or D_i lies outside the valid range.

    Source
    ------
    Machinery's Handbook, 31st ed., p. 1662, with the nut factors of table 3.

    Example
    -------
    Even pressure on a ring twice as wide as its hole: 2/3 · (8 − 1) / (4 − 1) = 14/9.

    >>> bearing_diameter_ring(2, 1)
    1.5556
    """
    limits.positive(_HANDBOOK, outer_mm=outer_mm)
    limits.below(_HANDBOOK, outer_mm, inner_mm=inner_mm)
    # (D_o³ − D_i³) / (D_o² − D_i²) with the factor D_o − D_i taken out of both
    return 2 / 3 * (outer_mm + inner_mm - outer_mm * inner_mm / (outer_mm + inner_mm))
