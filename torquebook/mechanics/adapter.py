"""What to set on a torque wrench with an adapter (crow's foot, open-end extension)."""

from __future__ import annotations

from math import cos, radians

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits

_NO_SOURCE = ""  # no manual prints these ranges: a lever has a length
_TO_THE_HAND = "a longer one, turned back so far, reaches to the hand or past it"
_STRAIGHT_BACK_DEG = 180.0


def wrench_setting(
    torque_nm: float, wrench_length_mm: float, extension_mm: float, angle_deg: float = 0.0
) -> float:
    """Torque to set on the wrench for a torque wanted at the fastener, in N·m.

    Parameters
    ----------
    torque_nm : float
        M, torque wanted at the fastener [N·m]
    wrench_length_mm : float
        L, from the middle of the grip to the wrench's square drive [mm]
    extension_mm : float
        E, from the square drive to the fastener [mm]
    angle_deg : float
        theta, between adapter and wrench: 0 straight on, 90 square, 180 back along it [°]

    Returns
    -------
    float
        M · L / (L + E cos theta); at 90° the adapter changes nothing

    Valid range
    -----------
    M finite and 0 or above, L finite and above 0, E finite and 0 or above, theta from 0 to
    180, and L + E cos theta above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    TM 9-2350-277-40&P, p. 44. The cosine is common practice.

    Example
    -------
    40 lbf·ft wanted, wrench 12 in, adapter 4 in: the manual prints 30 lbf·ft. One unit of
    torque and one of length cancel.

    >>> wrench_setting(40, 12, 4)
    30.0
    """
    limits.not_negative(_NO_SOURCE, torque_nm=torque_nm)
    return torque_nm / _lever(wrench_length_mm, extension_mm, angle_deg)


def torque_at_bolt(
    torque_nm: float, wrench_length_mm: float, extension_mm: float, angle_deg: float = 0.0
) -> float:
    """Torque that arrives at the fastener for a torque set on the wrench, in N·m.

    Parameters
    ----------
    torque_nm : float
        M, torque set on the wrench [N·m]
    wrench_length_mm : float
        L, from the middle of the grip to the wrench's square drive [mm]
    extension_mm : float
        E, from the square drive to the fastener [mm]
    angle_deg : float
        theta, between adapter and wrench: 0 straight on, 90 square, 180 back along it [°]

    Returns
    -------
    float
        M · (L + E cos theta) / L; at 90° the adapter changes nothing

    Valid range
    -----------
    M finite and 0 or above, L finite and above 0, E finite and 0 or above, theta from 0 to
    180, and L + E cos theta above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    TM 9-254, fig. 45. The cosine is common practice.

    Example
    -------
    60 lbf·in set, wrench 12 in, extension 2 in: the manual prints 70 lbf·in. One unit of
    torque and one of length cancel.

    >>> torque_at_bolt(60, 12, 2)
    70.0
    """
    limits.not_negative(_NO_SOURCE, torque_nm=torque_nm)
    return torque_nm * _lever(wrench_length_mm, extension_mm, angle_deg)


def _lever(wrench_length_mm: float, extension_mm: float, angle_deg: float) -> float:
    """Torque at the fastener per torque at the drive: 1 + E cos theta / L."""
    limits.positive(_NO_SOURCE, wrench_length_mm=wrench_length_mm)
    limits.not_negative(_NO_SOURCE, extension_mm=extension_mm)
    if not 0 <= angle_deg <= _STRAIGHT_BACK_DEG:
        raise OutOfRange("angle_deg", angle_deg, 0.0, _STRAIGHT_BACK_DEG, _NO_SOURCE)
    along = cos(radians(angle_deg))
    lever = 1 + extension_mm * along / wrench_length_mm
    if lever <= 0:
        raise OutOfRange("extension_mm", extension_mm, 0.0, wrench_length_mm / -along, _TO_THE_HAND)
    return lever
