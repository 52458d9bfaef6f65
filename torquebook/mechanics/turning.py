"""Angles of tightening: degrees, turns, flats of a hexagon, and the way along the thread.

An angle below 0 slackens. Any finite angle is valid.
"""

from __future__ import annotations

from torquebook.mechanics import limits

_DEG_PER_TURN = 360.0
_DEG_PER_FLAT = 60.0
_DEFINITION = "definition of the turn, the hexagon and the lead"


def degrees_from_turns(turns: float) -> float:
    """Angle of some turns, in degrees.

    Parameters
    ----------
    turns : float
        turns [1]

    Returns
    -------
    float
        360 · turns

    Valid range
    -----------
    Finite.

    Raises
    ------
    OutOfRange
        If the value is not finite.

    Source
    ------
    Definition of the turn.

    Example
    -------
    Connecting-rod cap nuts, 1/6 turn (TM 9-2320-366-34-4, p. 20-49), is one flat, 60°.

    >>> degrees_from_turns(1 / 6)
    60.0
    """
    limits.finite(_DEFINITION, turns=turns)
    return turns * _DEG_PER_TURN


def turns_from_degrees(angle_deg: float) -> float:
    """Angle counted in turns.

    Parameters
    ----------
    angle_deg : float
        angle [°]

    Returns
    -------
    float
        angle / 360

    Valid range
    -----------
    Finite.

    Raises
    ------
    OutOfRange
        If the value is not finite.

    Source
    ------
    Definition of the turn.

    Example
    -------
    One flat, 60°, is 1/6 turn.

    >>> turns_from_degrees(60)
    0.1667
    """
    limits.finite(_DEFINITION, angle_deg=angle_deg)
    return angle_deg / _DEG_PER_TURN


def degrees_from_flats(flats: float) -> float:
    """Angle of some flats of a hexagon, in degrees.

    Parameters
    ----------
    flats : float
        flats of a hexagon [1]

    Returns
    -------
    float
        60 · flats

    Valid range
    -----------
    Finite.

    Raises
    ------
    OutOfRange
        If the value is not finite.

    Source
    ------
    Definition of the regular hexagon.

    Example
    -------
    One and a half flats are a quarter turn.

    >>> degrees_from_flats(1.5)
    90.0
    """
    limits.finite(_DEFINITION, flats=flats)
    return flats * _DEG_PER_FLAT


def flats_from_degrees(angle_deg: float) -> float:
    """Angle counted in flats of a hexagon.

    Parameters
    ----------
    angle_deg : float
        angle [°]

    Returns
    -------
    float
        angle / 60

    Valid range
    -----------
    Finite.

    Raises
    ------
    OutOfRange
        If the value is not finite.

    Source
    ------
    Definition of the regular hexagon.

    Example
    -------
    A quarter turn is one and a half flats.

    >>> flats_from_degrees(90)
    1.5
    """
    limits.finite(_DEFINITION, angle_deg=angle_deg)
    return angle_deg / _DEG_PER_FLAT


def advance_mm(angle_deg: float, pitch_mm: float) -> float:
    """Way of a single-start thread along its axis in an angle, in mm.

    Parameters
    ----------
    angle_deg : float
        angle [°]
    pitch_mm : float
        P, pitch [mm]

    Returns
    -------
    float
        P · angle / 360

    Valid range
    -----------
    Angle finite, P finite and above 0.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    Definition of the lead.

    Example
    -------
    M10 (P = 1.5 mm), 60°: a sixth of the pitch.

    >>> advance_mm(60, 1.5)
    0.25
    """
    limits.positive(_DEFINITION, pitch_mm=pitch_mm)
    return pitch_mm * turns_from_degrees(angle_deg)
