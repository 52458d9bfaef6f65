"""Resilience of the clamped parts: cones that spread from the bearing areas, and sleeves.

The pressure spreads from the bearing area as a cone of slope tan φ until it meets the
outer surface of the parts, and runs on as a sleeve. With a nut there is a cone from
either side and they meet half way; with a tapped hole there is one, from the head.
"""

from __future__ import annotations

from itertools import pairwise
from math import copysign, inf, log, log1p, pi
from typing import TYPE_CHECKING, Literal, NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits

if TYPE_CHECKING:
    from collections.abc import Iterator

Joint = Literal["through", "tapped"]

JOINTS = ("through", "tapped")
_VDI = "VDI 2230-1:2003, resilience of concentrically clamped parts"


class Layer(NamedTuple):
    """One of the clamped parts: thickness, modulus of elasticity, outer diameter."""

    thickness_mm: float
    modulus_mpa: float
    outer_mm: float


def cone_slope(
    clamp_length_mm: float, outer_mm: float, parts_outer_mm: float, joint: Joint = "through"
) -> float:
    """Slope tan φ of the substitution cone in the clamped parts.

    Parameters
    ----------
    clamp_length_mm : float
        l_K, clamp length [mm]
    outer_mm : float
        d_W, outer diameter of the bearing area [mm]
    parts_outer_mm : float
        D_A, outer diameter of the clamped parts; of a plate, twice the way to its edge [mm]
    joint : str
        "through" with a nut, "tapped" with a thread in the last part

    Returns
    -------
    float
        tan φ = 0.362 + 0.032 ln(β_L / 2) + 0.153 ln y with a nut,
        tan φ = 0.348 + 0.013 ln β_L + 0.193 ln y in a tapped hole;
        β_L = l_K / d_W, y = D_A / d_W

    Valid range
    -----------
    Lengths finite and above 0, D_A ≥ d_W, and l_K not so short that the slope vanishes.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.
    NotUnderstood
        If the joint is none of the two.

    Source
    ------
    VDI 2230-1:2003 and 2015, section 5.1.2, substitution deformation cone; coefficients
    from memory. The editions before 2001 use a substitution area instead.

    Example
    -------
    At β_L = 2 and y = 1 both logarithms of the first formula are 0.

    >>> cone_slope(clamp_length_mm=40, outer_mm=20, parts_outer_mm=20)
    0.362
    """
    limits.known("joint", joint, JOINTS)
    limits.positive(_VDI, clamp_length_mm=clamp_length_mm, outer_mm=outer_mm)
    if not outer_mm <= parts_outer_mm < inf:
        raise OutOfRange("parts_outer_mm", parts_outer_mm, outer_mm, inf, _VDI)
    beta = clamp_length_mm / outer_mm
    spread = log(parts_outer_mm / outer_mm)
    if joint == "through":
        slope = 0.362 + 0.032 * log(beta / 2) + 0.153 * spread
    else:
        slope = 0.348 + 0.013 * log(beta) + 0.193 * spread
    limits.positive(_VDI, slope=slope)
    return slope


def parts_resilience(
    layers: tuple[Layer, ...],
    outer_mm: float,
    inner_mm: float,
    slope: float,
    joint: Joint = "through",
) -> float:
    """Elastic resilience δ_P of the clamped parts, in mm/N.

    Parameters
    ----------
    layers : tuple
        the clamped parts from the head on, each a ``Layer``; with a tapped hole without
        the part that has the thread
    outer_mm : float
        d_W, outer diameter of the bearing area [mm]
    inner_mm : float
        d_h, diameter of the hole [mm]
    slope : float
        tan φ, slope of the cone (``cone_slope``, or tan 30° for the frusta of handbooks) [1]
    joint : str
        "through" with a nut, "tapped" with a thread in the last part

    Returns
    -------
    float
        δ_P = ∫ dz / (E π/4 (D² − d_h²)), D = d_W + 2 z tan φ up to the part's outer
        diameter; z is the way from the nearest bearing area

    Valid range
    -----------
    d_h above 0 and below d_W and below every part's outer diameter; thickness and modulus
    above 0; tan φ finite and 0 (a plain sleeve) or above.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range, or there is no layer.
    NotUnderstood
        If the joint is none of the two.

    Source
    ------
    VDI 2230-1:2003, section 5.1.2, cone and sleeve, integrated layer by layer. With
    d_W = 1.5 d, d_h = d and tan 30° it is the frustum of Shigley's Mechanical Engineering
    Design, 9th ed., section 8-5.

    Example
    -------
    1/2-13, grip 2 in, steel of 30e6 psi: Shigley, 9th ed., table 8-12, p. 437, prints
    k_m = 12.69 Mlbf/in. 1 psi = 0.00689476 MPa, 1 lbf/in = 0.175127 N/mm.

    >>> plate = Layer(thickness_mm=2 * 25.4, modulus_mpa=30e6 * 0.00689476, outer_mm=1000)
    >>> delta = parts_resilience((plate,), outer_mm=0.75 * 25.4, inner_mm=12.7, slope=3**-0.5)
    >>> 1 / delta / 0.175127 / 1e6
    12.69
    """
    limits.known("joint", joint, JOINTS)
    limits.positive(_VDI, outer_mm=outer_mm)
    limits.below(_VDI, outer_mm, inner_mm=inner_mm)
    limits.not_negative(_VDI, slope=slope)
    if not layers:
        raise OutOfRange("layers", 0, 1, inf, _VDI)
    return sum(
        _between(near_mm, far_mm, layer, outer_mm, inner_mm, slope)
        for near_mm, far_mm, layer in _pieces(layers, joint)
    )


def _pieces(layers: tuple[Layer, ...], joint: str) -> Iterator[tuple[float, float, Layer]]:
    """Cut the layers where the cones meet; give each piece's way from its bearing area."""
    for layer in layers:
        limits.positive(_VDI, thickness_mm=layer.thickness_mm, modulus_mpa=layer.modulus_mpa)
    whole = sum(layer.thickness_mm for layer in layers)
    middle = whole / 2 if joint == "through" else whole
    start = 0.0
    for layer in layers:
        end = start + layer.thickness_mm
        cuts = [start, middle, end] if start < middle < end else [start, end]
        for low, high in pairwise(cuts):
            if high <= middle or joint == "tapped":
                yield low, high, layer
            else:
                yield max(whole - high, 0.0), whole - low, layer
        start = end


def _between(
    near_mm: float, far_mm: float, layer: Layer, outer_mm: float, inner_mm: float, slope: float
) -> float:
    """Resilience of one part between two ways from the bearing area: cone, then sleeve."""
    limits.positive(_VDI, parts_outer_mm=layer.outer_mm)
    limits.below(_VDI, layer.outer_mm, inner_mm=inner_mm)
    room_mm = layer.outer_mm - outer_mm
    meets_mm = room_mm / (2 * slope) if slope else copysign(inf, room_mm)
    turn_mm = min(max(meets_mm, near_mm), far_mm)
    first_mm, last_mm = outer_mm + 2 * slope * near_mm, outer_mm + 2 * slope * turn_mm
    sleeve_mm = min(last_mm, layer.outer_mm)
    cone = _frustum(first_mm, last_mm, turn_mm - near_mm, inner_mm)
    sleeve = 4 * (far_mm - turn_mm) / (sleeve_mm**2 - inner_mm**2)
    return (cone + sleeve) / (pi * layer.modulus_mpa)


def _frustum(first_mm: float, last_mm: float, height_mm: float, inner_mm: float) -> float:
    """π E δ of a hollow frustum, in 1/mm; a hollow cylinder where the ends are alike."""
    growth = last_mm - first_mm
    if growth <= 0:
        return 4 * height_mm / (first_mm**2 - inner_mm**2)
    ratio = 2 * inner_mm * growth / ((last_mm + inner_mm) * (first_mm - inner_mm))
    return 2 * height_mm / (inner_mm * growth) * log1p(ratio)
