"""Bands through formulas: no formula knows about scatter, ``spread`` brings it in.

``spread`` takes the worst case; ``quadrature`` has the other way to combine scatter.
"""

from __future__ import annotations

from itertools import product
from math import inf
from typing import TYPE_CHECKING

from torquebook.bands import Band
from torquebook.errors import OutOfRange
from torquebook.mechanics import limits

if TYPE_CHECKING:
    from collections.abc import Callable

_VDI = "VDI 2230-1:2003"
_VDI_1986 = "VDI 2230:1986, scatter of tightening methods"


def spread(formula: Callable[..., float], **bands: Band) -> Band:
    """Band of a formula's result, from its corners and its nominal value.

    Exact for a formula that rises or falls in each argument throughout the bands, as all
    formulas here do.

    Parameters
    ----------
    formula : callable
        a function of floats
    bands : Band
        its arguments by name; what is known exactly goes in by ``functools.partial``

    Returns
    -------
    Band
        Smallest corner, value at the nominals, largest corner.

    Valid range
    -----------
    Each band in ascending order, within the formula's own range.

    Raises
    ------
    TorquebookError
        If a band is not in ascending order.
    OutOfRange
        If the formula raises it at a corner.

    Source
    ------
    Common practice: worst case by corners (interval arithmetic of a monotone function).

    Example
    -------
    0.190 in, 1275 lbf, K from 0.10 to 0.30: Mechanical Fastening, Joining and Assembly,
    p. 85, prints 24.2, 48.5 and 72.7 lbf·in for K = 0.10, 0.20 and 0.30; the formula
    gives 24.2, 48.45 and 72.7, the book is rounded.

    >>> def torque_lbf_in(k):
    ...     return k * 0.190 * 1275
    >>> spread(torque_lbf_in, k=Band(0.10, 0.20, 0.30))
    Band(low=24.2, nominal=48.45, high=72.7)
    """
    ordered = {name: Band.checked(*band) for name, band in bands.items()}
    nominal = formula(**{name: band.nominal for name, band in ordered.items()})
    ends = [dict.fromkeys((band.low, band.high)) for band in ordered.values()]
    corners = [formula(**dict(zip(ordered, corner, strict=True))) for corner in product(*ends)]
    return Band.checked(min(nominal, *corners), nominal, max(nominal, *corners))


def with_method(preload: Band, scatter: float) -> Band:
    """Band of the preload, no narrower than the method of tightening is known to scatter.

    A friction or a tool that a list states as exact makes no exact preload.

    Parameters
    ----------
    preload : Band
        F, preload, by friction and tool
    scatter : float
        published scatter of the method, ± share of the nominal preload [1]

    Returns
    -------
    Band
        The preload band, widened where nominal · (1 ± scatter) lies outside it.

    Valid range
    -----------
    0 ≤ scatter < 1; the preload band in ascending order, 0 or above.

    Raises
    ------
    OutOfRange
        If the scatter lies outside the valid range, or the preload is negative.
    TorquebookError
        If the band is not in ascending order.

    Source
    ------
    VDI 2230:1986, scatter of tightening methods, as reprinted in
    tests/published/friction_and_scatter.csv.

    Example
    -------
    Torque wrench, friction estimated: the table prints at worst ±28 %.

    >>> with_method(Band(36000.0, 40000.0, 44000.0), 0.28)
    Band(low=28800.0, nominal=40000.0, high=51200.0)
    """
    limits.not_negative(_VDI_1986, preload_n=preload.low)
    if not 0 <= scatter < 1:
        raise OutOfRange("scatter", scatter, 0.0, 1.0, _VDI_1986)
    given, known = Band.checked(*preload), Band.around(preload.nominal, scatter)
    return Band(min(given.low, known.low), given.nominal, max(given.high, known.high))


def with_tool(torque: Band, deviation: float) -> Band:
    """Band of the torque that a tool of known deviation delivers.

    Parameters
    ----------
    torque : Band
        M, the torque as specified
    deviation : float
        permissible deviation of the tool, as a share of the torque [1]

    Returns
    -------
    Band
        The torque band, widened by the deviation at both ends.

    Valid range
    -----------
    0 ≤ deviation < 1; the torque band in ascending order, 0 or above.

    Raises
    ------
    OutOfRange
        If the deviation lies outside the valid range, or the torque is negative.
    TorquebookError
        If the band is not in ascending order.

    Source
    ------
    Common practice: the deviation counts in proportion to the torque set, as ISO 6789
    states it.

    Example
    -------
    An invented wrench of ±4 % at 100 N·m gives 96 to 104 N·m.

    >>> with_tool(Band.exact(100.0), 0.04)
    Band(low=96.0, nominal=100.0, high=104.0)
    """
    limits.not_negative(_VDI, torque_nm=torque.low)
    if not 0 <= deviation < 1:
        raise OutOfRange("deviation", deviation, 0.0, 1.0, _VDI)
    return Band.checked(torque.low * (1 - deviation), torque.nominal, torque.high * (1 + deviation))


def tightening_factor(preload: Band) -> float:
    """Tightening factor alpha_A, the greatest over the least preload.

    Parameters
    ----------
    preload : Band
        F, preload

    Returns
    -------
    float
        alpha_A = F_max / F_min

    Valid range
    -----------
    F_min ≤ F_max, both finite and above 0.

    Raises
    ------
    OutOfRange
        If an end of the band is not finite and above 0.
    TorquebookError
        If the band is not in ascending order.

    Source
    ------
    VDI 2230-1, tightening factor.

    Example
    -------
    M12, 8.8, mu 0.14: instructions after VDI 2230:2015 print 41.9 and 23.3 kN for
    alpha_A = 1.8.

    >>> tightening_factor(Band.between(23.3, 41.9))
    1.80
    """
    limits.positive(_VDI, preload_n=preload.low)
    limits.positive(_VDI, preload_n=preload.high)
    Band.checked(*preload)
    return preload.high / preload.low


def least_preload(preload_n: float, alpha_a: float) -> float:
    """Least preload to count on, from the greatest and the tightening factor, in N.

    Parameters
    ----------
    preload_n : float
        F_M max, greatest assembly preload [N]
    alpha_a : float
        alpha_A, tightening factor [1]

    Returns
    -------
    float
        F_M min = F_M max / alpha_A

    Valid range
    -----------
    F finite and 0 or above, alpha_A finite and 1 or above.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    VDI 2230:2015 as used in a fastener supplier's instructions.

    Example
    -------
    M12, 8.8, mu 0.14, alpha_A = 1.8: the instructions print 41.9 and 23.3 kN.

    >>> least_preload(41900, 1.8) / 1000
    23.3
    """
    limits.not_negative(_VDI, preload_n=preload_n)
    if not 1 <= alpha_a < inf:
        raise OutOfRange("alpha_a", alpha_a, 1.0, inf, _VDI)
    return preload_n / alpha_a
