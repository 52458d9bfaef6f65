"""Clamp that is lost when rough faces, threads and paint settle after tightening.

The amounts of VDI 2230-1 by roughness are known here from memory only, so every amount is
an argument.
"""

from __future__ import annotations

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits

_VDI = "VDI 2230-1:2003, embedding"
_STIFFEST = 1e-12  # mm per N, far beyond any fastener


def settling(thread_mm: float, seat_mm: float, interface_mm: float, interfaces: float) -> float:
    """Settling of a whole joint, from its amounts, in mm.

    Parameters
    ----------
    thread_mm : float
        settling in the thread [mm]
    seat_mm : float
        settling under head and nut together [mm]
    interface_mm : float
        settling of one interface between clamped parts; with paint, its thickness too [mm]
    interfaces : float
        interfaces between clamped parts, bearing areas not counted [1]

    Returns
    -------
    float
        f_Z, the sum

    Valid range
    -----------
    Finite and 0 or above.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, embedding: the amounts of thread, bearing areas and interfaces add up.
    Amounts from memory, 2 to 4 µm each, gate nothing.

    Example
    -------
    3 µm in the thread, 6 µm under head and nut, two interfaces of 2 µm: 13 µm.

    >>> settling(0.003, 0.006, 0.002, 2)
    0.013
    """
    limits.not_negative(_VDI, thread_mm=thread_mm, seat_mm=seat_mm)
    limits.not_negative(_VDI, interface_mm=interface_mm, interfaces=interfaces)
    return thread_mm + seat_mm + interface_mm * interfaces


def settling_loss(settling_mm: float, bolt_mm_per_n: float, parts_mm_per_n: float) -> float:
    """Preload that a joint loses by settling, in N.

    Parameters
    ----------
    settling_mm : float
        f_Z, settling of the joint [mm]
    bolt_mm_per_n : float
        δ_S, elastic resilience of the bolt [mm/N]
    parts_mm_per_n : float
        δ_P, elastic resilience of the clamped parts, 0 for rigid ones [mm/N]

    Returns
    -------
    float
        F_Z = f_Z / (δ_S + δ_P)

    Valid range
    -----------
    f_Z finite and 0 or above, δ_S from 1e-12 and δ_P from 0 to below 1 mm/N.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, embedding.

    Example
    -------
    11 µm on 2e-6 + 0.2e-6 mm/N: 11e-3 / 2.2e-6 N.

    >>> settling_loss(0.011, 2.0e-6, 0.2e-6)
    5000.0
    """
    limits.not_negative(_VDI, settling_mm=settling_mm)
    return settling_mm / _give(bolt_mm_per_n, parts_mm_per_n)


def preload_left(
    preload_n: float, settling_mm: float, bolt_mm_per_n: float, parts_mm_per_n: float
) -> float:
    """Preload that is left when a joint has settled, in N.

    Parameters
    ----------
    preload_n : float
        F, preload after tightening [N]
    settling_mm : float
        f_Z, settling of the joint [mm]
    bolt_mm_per_n : float
        δ_S, elastic resilience of the bolt [mm/N]
    parts_mm_per_n : float
        δ_P, elastic resilience of the clamped parts, 0 for rigid ones [mm/N]

    Returns
    -------
    float
        F − F_Z; 0 where settling takes all

    Valid range
    -----------
    F finite and 0 or above; otherwise as ``settling_loss``.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, embedding.

    Example
    -------
    20 kN, of which 5 kN are lost: a quarter.

    >>> preload_left(20000, 0.011, 2.0e-6, 0.2e-6)
    15000.0
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    return max(preload_n - settling_loss(settling_mm, bolt_mm_per_n, parts_mm_per_n), 0.0)


def most_settling(
    preload_n: float, loss_share: float, bolt_mm_per_n: float, parts_mm_per_n: float
) -> float:
    """Settling that costs a share of the preload, in mm.

    Parameters
    ----------
    preload_n : float
        F, preload after tightening [N]
    loss_share : float
        share of the preload that may be lost [1]
    bolt_mm_per_n : float
        δ_S, elastic resilience of the bolt [mm/N]
    parts_mm_per_n : float
        δ_P, elastic resilience of the clamped parts, 0 for rigid ones [mm/N]

    Returns
    -------
    float
        f_Z = loss_share · F (δ_S + δ_P): a paint film thicker than this costs more

    Valid range
    -----------
    F finite and 0 or above, loss_share from 0 to 1; resiliences as ``settling_loss``.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, embedding, solved for f_Z.

    Example
    -------
    A quarter of 20 kN on 2.2e-6 mm/N is 11 µm.

    >>> most_settling(20000, 0.25, 2.0e-6, 0.2e-6)
    0.011
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    if not 0 <= loss_share <= 1:
        raise OutOfRange("loss_share", loss_share, 0.0, 1.0, _VDI)
    return loss_share * preload_n * _give(bolt_mm_per_n, parts_mm_per_n)


def _give(bolt_mm_per_n: float, parts_mm_per_n: float) -> float:
    """Resilience of bolt and parts together."""
    if not _STIFFEST <= bolt_mm_per_n < 1:
        raise OutOfRange("bolt_mm_per_n", bolt_mm_per_n, _STIFFEST, 1.0, _VDI)
    if not 0 <= parts_mm_per_n < 1:
        raise OutOfRange("parts_mm_per_n", parts_mm_per_n, 0.0, 1.0, _VDI)
    return bolt_mm_per_n + parts_mm_per_n
