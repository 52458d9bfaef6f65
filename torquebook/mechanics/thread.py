"""Diameters and stress areas of 60° screw threads, ISO metric and unified.

The profile's height is H = √3/2 · P. Unified sizes are passed in millimetres.
"""

from __future__ import annotations

from math import pi, sqrt

from torquebook.mechanics import limits

_H = sqrt(3) / 2  # height of the fundamental triangle, per pitch
_PITCH_DEPTH = 3 / 4 * _H  # d − d2 = 0.649519 P
_MINOR_DEPTH = 5 / 4 * _H  # d − D1 = 1.082532 P
_ROOT_DEPTH = 17 / 12 * _H  # d − d3 = 1.226869 P
_ROOT_DEPTH_UNIFIED = 11 / 8 * _H  # D − minor diameter of UNR = 1.190785 P
_STRESS_DEPTH_UNIFIED = 0.9743  # in pitches

_ISO_724 = "ISO 724, profile of ISO 68-1"
_ISO_898 = "ISO 898-1, nominal stress area"
_ASME = "ASME B1.1"


def pitch_diameter(d_mm: float, pitch_mm: float) -> float:
    """Pitch diameter d2 (D2) of an ISO metric or unified thread, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    float
        d2 = d − 0.649519 P

    Valid range
    -----------
    0 < P < d / 1.226869, so that the root lies above 0.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 724, table of basic dimensions; ASME B1.1 has the same profile. As reprinted in
    tests/published/iso_threads.csv.

    Example
    -------
    M8: the table prints 7.188 mm, rounded to three decimals.

    >>> pitch_diameter(8, 1.25)
    7.188
    """
    _profile(_ISO_724, d_mm, pitch_mm)
    return d_mm - _PITCH_DEPTH * pitch_mm


def minor_diameter(d_mm: float, pitch_mm: float) -> float:
    """Minor diameter D1 of the internal thread, ISO metric or unified, basic, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    float
        D1 = d − 1.082532 P

    Valid range
    -----------
    0 < P < d / 1.226869, so that the root lies above 0.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 724, table of basic dimensions; ASME B1.1 has the same profile. As reprinted in
    tests/published/iso_threads.csv.

    Example
    -------
    M8: the table prints 6.647 mm, rounded to three decimals.

    >>> minor_diameter(8, 1.25)
    6.647
    """
    _profile(_ISO_724, d_mm, pitch_mm)
    return d_mm - _MINOR_DEPTH * pitch_mm


def root_diameter(d_mm: float, pitch_mm: float) -> float:
    """Root diameter d3 of the ISO metric external thread with rounded root, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    float
        d3 = d − 1.226869 P

    Valid range
    -----------
    0 < P < d / 1.226869, so that the root lies above 0.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 898-1, nominal stress area: d3 = d1 − H/6. Values as reprinted in
    tests/published/iso_threads.csv.

    Example
    -------
    M8: the table prints 6.466 mm, rounded to three decimals.

    >>> root_diameter(8, 1.25)
    6.466
    """
    _profile(_ISO_898, d_mm, pitch_mm)
    return d_mm - _ROOT_DEPTH * pitch_mm


def root_diameter_unified(d_mm: float, pitch_mm: float) -> float:
    """Root diameter of the unified external thread with rounded root (UNR), in mm.

    Parameters
    ----------
    d_mm : float
        D, nominal diameter [mm]
    pitch_mm : float
        P = 25.4 mm / n, pitch [mm]

    Returns
    -------
    float
        D − 1.190785 P

    Valid range
    -----------
    0 < P < D / 1.226869, as for the metric thread.

    Raises
    ------
    OutOfRange
        If D is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ASME B1.1, minor diameter of the UNR external thread, as reprinted in
    tests/published/asme_threads.csv.

    Example
    -------
    1/4-20 UNC: the table prints 0.1905 in, rounded to four decimals.

    >>> root_diameter_unified(6.35, 1.27) / 25.4
    0.1905
    """
    _profile(_ASME, d_mm, pitch_mm)
    return d_mm - _ROOT_DEPTH_UNIFIED * pitch_mm


def stress_diameter(d_mm: float, pitch_mm: float) -> float:
    """Diameter d0 of the ISO stress cross-section, in mm.

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    float
        d0 = (d2 + d3) / 2

    Valid range
    -----------
    0 < P < d / 1.226869, so that the root lies above 0.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 898-1, nominal stress area; VDI 2230-1:2003 writes it d0 (d_S).

    Example
    -------
    M8: the tables print d2 = 7.188 and d3 = 6.466 mm, whose mean is 6.827 mm.

    >>> stress_diameter(8, 1.25)
    6.827
    """
    return (pitch_diameter(d_mm, pitch_mm) + root_diameter(d_mm, pitch_mm)) / 2


def stress_area(d_mm: float, pitch_mm: float) -> float:
    """Nominal stress area of an ISO metric thread, in mm².

    Parameters
    ----------
    d_mm : float
        d, nominal diameter [mm]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    float
        A_s = π/4 · ((d2 + d3) / 2)²

    Valid range
    -----------
    0 < P < d / 1.226869, so that the root lies above 0.

    Raises
    ------
    OutOfRange
        If d is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ISO 898-1, 1999 and 2009/2013, nominal stress area, as reprinted in
    tests/published/iso898_1_loads.csv.

    Example
    -------
    M10: the table prints 58.0 mm²; the formula gives 57.99, the table is rounded.

    >>> stress_area(10, 1.5)
    57.99
    """
    return pi / 4 * stress_diameter(d_mm, pitch_mm) ** 2


def stress_area_unified(d_mm: float, pitch_mm: float) -> float:
    """Tensile stress area of a unified thread, in mm².

    Parameters
    ----------
    d_mm : float
        D, nominal diameter [mm]
    pitch_mm : float
        P = 25.4 mm / n, pitch [mm]

    Returns
    -------
    float
        A_t = 0.7854 (D − 0.9743 P)²

    Valid range
    -----------
    0 < P < D / 1.226869, as for the metric thread.

    Raises
    ------
    OutOfRange
        If D is not finite and above 0, or P lies outside the valid range.

    Source
    ------
    ASME B1.1, tensile stress area, as reprinted in tests/published/asme_threads.csv.

    Example
    -------
    1/4-20 UNC: the table prints 0.0318 in², rounded to four decimals.

    >>> stress_area_unified(6.35, 1.27) / 25.4**2
    0.0318
    """
    _profile(_ASME, d_mm, pitch_mm)
    return pi / 4 * (d_mm - _STRESS_DEPTH_UNIFIED * pitch_mm) ** 2


def _profile(source: str, d_mm: float, pitch_mm: float) -> None:
    """Raise OutOfRange for a thread whose root would not lie above 0."""
    limits.positive(source, d_mm=d_mm)
    limits.below(source, d_mm / _ROOT_DEPTH, pitch_mm=pitch_mm)
