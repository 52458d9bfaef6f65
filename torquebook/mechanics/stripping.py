"""What fails first when a screwed joint is pulled apart: the bolt, its thread, or the hole's.

Alexander's model (SAE 770420, 1977), which VDI 2230-1:2003, 5.5.5, and ISO/TR 16224 use:
shear area × shear strength, less what a thin nut loses by dilating (C1) and what bending of
the threads changes (C2, C3, ``thread_factors``).
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits
from torquebook.mechanics.mating import Pair, external_shear_area, internal_shear_area
from torquebook.mechanics.thread_factors import bending_factors, strength_ratio

Part = Literal["bolt", "external thread", "internal thread"]

_VDI = "VDI 2230-1:2003, 5.5.5"
_ALEXANDER = "Alexander, SAE 770420"


class Failure(NamedTuple):
    """Loads at which the parts of a joint fail, in N, and which comes first."""

    bolt_n: float
    external_n: float
    internal_n: float
    first: Part


class Engagement(NamedTuple):
    """Lengths of full thread that a load needs, in mm."""

    external_mm: float
    internal_mm: float

    @property
    def needed_mm(self) -> float:
        """The longer of the two."""
        return max(self)


def failure_loads(
    pair: Pair,
    engagement_mm: float,
    breaking_load_n: float,
    external_shear_mpa: float,
    internal_shear_mpa: float,
    dilation: float = 1.0,
) -> Failure:
    """First part to fail when a joint is pulled apart, and the loads of all three, in N.

    Parameters
    ----------
    pair : Pair
        the two threads; for a coil insert, the thread of its hole
    engagement_mm : float
        m_eff, length over which full threads engage [mm]
    breaking_load_n : float
        F_m, load at which the bolt breaks (``strength.tensile_load``) [N]
    external_shear_mpa : float
        τ_B of the external thread's material [MPa]
    internal_shear_mpa : float
        τ_B of the internal thread's material [MPa]
    dilation : float
        C1, of ``dilation_factor``; 1 in a thick wall [1]

    Returns
    -------
    Failure
        F_m; A_SG τ_BG C1 C2; A_SN τ_BN C1 C3. At equal loads the bolt counts as first.

    Valid range
    -----------
    m_eff finite and 0 or above, loads and strengths finite and above 0, C1 above 0 and at
    most 1; threads that overlap.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Alexander, SAE 770420 (1977), VDI 2230-1:2003, 5.5.5, and ISO/TR 16224.

    Example
    -------
    M10x1.5, 69 600 N, aluminium of 130 MPa: a handbook (DOI 10.1201/9781482273786-99)
    prints 21.6 mm of engagement as the length at which thread and bolt are even. At 21
    mm the hole strips first.

    >>> pair = Pair(1.5, 9.968, 8.862, 9.206, 8.676)
    >>> failure_loads(pair, 21.6, 69600, 720, 130).first
    'bolt'
    >>> failure_loads(pair, 21.0, 69600, 720, 130).first
    'internal thread'
    """
    limits.not_negative(_VDI, engagement_mm=engagement_mm)
    limits.positive(_VDI, breaking_load_n=breaking_load_n)
    per_mm = _loads_per_mm(pair, external_shear_mpa, internal_shear_mpa, dilation)
    external, internal = (engagement_mm * load for load in per_mm)
    first: Part = "external thread" if external < internal else "internal thread"
    if breaking_load_n <= min(external, internal):
        first = "bolt"
    return Failure(breaking_load_n, external, internal, first)


def needed_engagement(
    pair: Pair,
    load_n: float,
    external_shear_mpa: float,
    internal_shear_mpa: float,
    dilation: float = 1.0,
) -> Engagement:
    """Lengths of full thread at which the two threads strip at a load, in mm.

    Parameters
    ----------
    pair : Pair
        the two threads; for a coil insert, the thread of its hole
    load_n : float
        F, load to carry: the bolt's breaking load, or the preload [N]
    external_shear_mpa : float
        τ_B of the external thread's material [MPa]
    internal_shear_mpa : float
        τ_B of the internal thread's material [MPa]
    dilation : float
        C1, of ``dilation_factor``; 1 in a thick wall [1]

    Returns
    -------
    Engagement
        m_eff at which the external thread strips, and at which the internal one does;
        chamfers come on top (``effective_engagement``).

    Valid range
    -----------
    F finite and 0 or above, strengths finite and above 0, C1 above 0 and at most 1;
    threads that overlap.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Alexander, SAE 770420 (1977), and VDI 2230-1:2003, 5.5.5.

    Example
    -------
    M10x1.5, 12.9 at most (69 600 N), aluminium of 130 MPa: a handbook (DOI
    10.1201/9781482273786-99) prints 21.6 mm; the formula gives 21.55, rounded up in
    print.

    >>> pair = Pair(1.5, 9.968, 8.862, 9.206, 8.676)
    >>> needed_engagement(pair, 69600, 720, 130).internal_mm
    21.55
    """
    limits.not_negative(_VDI, load_n=load_n)
    per_mm = _loads_per_mm(pair, external_shear_mpa, internal_shear_mpa, dilation)
    return Engagement(*(load_n / load for load in per_mm))


def _loads_per_mm(
    pair: Pair, external_shear_mpa: float, internal_shear_mpa: float, dilation: float
) -> tuple[float, float]:
    """External and internal stripping load per mm of full thread."""
    if not 0 < dilation <= 1:
        raise OutOfRange("dilation", dilation, 0.0, 1.0, _ALEXANDER)
    bending = bending_factors(strength_ratio(pair, external_shear_mpa, internal_shear_mpa))
    return (
        external_shear_area(pair, dilation) * external_shear_mpa * bending.external,
        internal_shear_area(pair, dilation) * internal_shear_mpa * bending.internal,
    )
