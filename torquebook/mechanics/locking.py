"""Drag of locking nuts, the torque that loosens a tight bolt, and the window of an audit."""

from __future__ import annotations

from typing import Literal

from torquebook.bands import Band
from torquebook.mechanics import limits
from torquebook.mechanics.preload import torque_from_preload

DragRule = Literal["added", "third"]

_RULES = ("added", "third")
_AC = "AC 43.13-1B, chapter 7"
_TB = "TB 43-0218"
_AUDIT = "a bolt maker's retightening window"


def torque_with_drag(torque_nm: float, drag_nm: float, drag_rule: DragRule = "added") -> float:
    """Torque to set for a self-locking nut, its drag counted by the source's rule, in N·m.

    Parameters
    ----------
    torque_nm : float
        M, torque that the table gives for a nut without drag [N·m]
    drag_nm : float
        prevailing torque, measured before the nut seats [N·m]
    drag_rule : str
        "added": drag always comes on top (AC 43.13-1B, TM 1-1500-204-23-6); "third": only
        when it is a third of the table's torque or more (TB 43-0218)

    Returns
    -------
    float
        M + drag, or M alone where the rule leaves a small drag out

    Valid range
    -----------
    Finite and 0 or above.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.
    NotUnderstood
        If the rule is none of the two.

    Source
    ------
    AC 43.13-1B (1998), chapter 7; TM 1-1500-204-23-6; TB 43-0218. The sources
    contradict each other, so the rule is an argument.

    Example
    -------
    Invented: 30 N·m by the table, 9 N·m of drag, which is less than a third.

    >>> torque_with_drag(30, 9, "added"), torque_with_drag(30, 9, "third")
    (39, 30)
    """
    limits.known("rule of drag", drag_rule, _RULES)
    source = _AC if drag_rule == "added" else _TB
    limits.not_negative(source, torque_nm=torque_nm, drag_nm=drag_nm)
    counted = drag_rule == "added" or 3 * drag_nm >= torque_nm
    return torque_nm + drag_nm if counted else torque_nm


def breakaway_torque(
    preload_n: float,
    pitch_mm: float,
    d2_mm: float,
    mu_thread: float,
    mu_head: float,
    bearing_mm: float,
) -> float:
    """Torque that turns a tight bolt loose, in N·m; below 0, it comes loose of itself.

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    pitch_mm : float
        P, pitch [mm]
    d2_mm : float
        d2, pitch diameter [mm]
    mu_thread : float
        mu_G, coefficient of friction in the thread, at rest [1]
    mu_head : float
        mu_K, coefficient of friction under the head, at rest [1]
    bearing_mm : float
        D_Km, effective diameter for friction under the head [mm]

    Returns
    -------
    float
        M_L = F (−0.159 P + 0.577 d2 mu_G + D_Km / 2 · mu_K); drag of a locking nut and
        adhesive come on top

    Valid range
    -----------
    F finite and 0 or above, lengths finite and above 0, mu_G and mu_K from 0 to 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230-1:2003, tightening torque, with the slope of the thread turned round.

    Example
    -------
    M8x1, 8.8, mu 0.10: the fine-thread table prints 20.7 kN and 22.8 N·m. The slope takes
    20.7 kN · 1 mm / 2π = 3.29 N·m, once to tighten and once to loosen: 22.8 − 6.6 = 16.2.

    >>> breakaway_torque(20700, 1, 7.350, 0.10, 0.10, 10.315)
    16.2
    """
    slope_nm = torque_from_preload(preload_n, pitch_mm, d2_mm, 0.0, 0.0, bearing_mm)
    tighten = torque_from_preload(preload_n, pitch_mm, d2_mm, mu_thread, mu_head, bearing_mm)
    return tighten - 2 * slope_nm


def audit_window(torque: Band, window: Band) -> Band:
    """Torque at which a tight bolt may turn on when it is retightened, in N·m.

    Parameters
    ----------
    torque : Band
        M, torque that the joint was tightened with, in N·m
    window : Band
        retightening torque over installation torque; 0.85 to 1.30 by a bolt maker

    Returns
    -------
    Band
        Least, nominal and greatest retightening torque of a joint that was tightened right.

    Valid range
    -----------
    Both bands in ascending order, the torque 0 or above, the window above 0.

    Raises
    ------
    OutOfRange
        If an end of a band lies outside the valid range.
    TorquebookError
        If a band is not in ascending order.

    Source
    ------
    A bolt maker's figure for the window, page not at hand: it belongs to the caller. For
    joints that have not settled, rusted or been glued.

    Example
    -------
    A joint tightened to 100 N·m turns on at 85 to 130 N·m.

    >>> audit_window(Band.exact(100.0), Band(0.85, 1.0, 1.30))
    Band(low=85.0, nominal=100.0, high=130.0)
    """
    limits.not_negative(_AUDIT, torque_nm=torque.low)
    limits.positive(_AUDIT, window=window.low)
    Band.checked(*torque)
    Band.checked(*window)
    return Band(torque.low * window.low, torque.nominal * window.nominal, torque.high * window.high)


def installed_torque(torque: Band, window: Band) -> Band:
    """Torque that a joint was tightened with, judged by its retightening torque, in N·m.

    Parameters
    ----------
    torque : Band
        M, torque at which the bolt turned on, in N·m
    window : Band
        retightening torque over installation torque; 0.85 to 1.30 by a bolt maker

    Returns
    -------
    Band
        Least, nominal and greatest installation torque that explain the reading.

    Valid range
    -----------
    Both bands in ascending order, the torque 0 or above, the window above 0.

    Raises
    ------
    OutOfRange
        If an end of a band lies outside the valid range.
    TorquebookError
        If a band is not in ascending order.

    Source
    ------
    As ``audit_window``, read backwards.

    Example
    -------
    130 N·m on the retightening wrench: anything from 100 to 152.9 N·m before.

    >>> installed_torque(Band.exact(130.0), Band(0.85, 1.0, 1.30))
    Band(low=100.0, nominal=130.0, high=152.9)
    """
    limits.not_negative(_AUDIT, torque_nm=torque.low)
    limits.positive(_AUDIT, window=window.low)
    Band.checked(*torque)
    Band.checked(*window)
    return Band(torque.low / window.high, torque.nominal / window.nominal, torque.high / window.low)
