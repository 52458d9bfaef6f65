"""Scatter combined in quadrature, beside the corners of ``scatter.spread``.

The corners are the worst case. The half-widths in quadrature are what is likely where the
causes are independent. An answer that shows a band names its way.
"""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, NamedTuple

from torquebook.bands import Band
from torquebook.mechanics.scatter import spread

if TYPE_CHECKING:
    from collections.abc import Callable


class Combined(NamedTuple):
    """One result with its scatter combined in both ways."""

    corners: Band
    root_sum_square: Band


def root_sum_square(formula: Callable[..., float], **bands: Band) -> Band:
    """Band of a formula's result, the half-widths of its arguments' effects in quadrature.

    Parameters
    ----------
    formula : callable
        a function of floats
    bands : Band
        its arguments by name; what is known exactly goes in by ``functools.partial``

    Returns
    -------
    Band
        The value at the nominals, less and plus the root of the sum of the squares of what
        each argument alone takes off and adds. Argument by argument, each side on its own.

    Valid range
    -----------
    Each band in ascending order, within the formula's own range.

    Raises
    ------
    TorquebookError
        If a band is not in ascending order.
    OutOfRange
        If the formula raises it at an end of a band.

    Source
    ------
    Common practice: root-sum-square of independent causes, at the confidence that the
    bands of the arguments have.

    Example
    -------
    A sum of two lengths, ±3 and ±4 about 50 each: ±5.

    >>> def length(one, other):
    ...     return one + other
    >>> root_sum_square(length, one=Band(47, 50.0, 53), other=Band(46, 50.0, 54))
    Band(low=95.0, nominal=100.0, high=105.0)
    """
    ordered = {name: Band.checked(*band) for name, band in bands.items()}
    at = {name: band.nominal for name, band in ordered.items()}
    nominal = formula(**at)
    steps = [
        (formula(**at | {name: band.low}) - nominal, formula(**at | {name: band.high}) - nominal)
        for name, band in ordered.items()
    ]
    down = hypot(*(min(0.0, *step) for step in steps))
    up = hypot(*(max(0.0, *step) for step in steps))
    return Band.checked(nominal - down, nominal, nominal + up)


def both_ways(formula: Callable[..., float], **bands: Band) -> Combined:
    """Band of a formula's result by the corners and by root-sum-square.

    Parameters
    ----------
    formula : callable
        a function of floats
    bands : Band
        its arguments by name; what is known exactly goes in by ``functools.partial``

    Returns
    -------
    Combined
        ``spread`` and ``root_sum_square``, the second kept within the first.

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
    As ``spread`` and ``root_sum_square``.

    Example
    -------
    A sum of two lengths, ±3 and ±4 about 50 each: ±7 at worst, ±5 in quadrature.

    >>> def length(one, other):
    ...     return one + other
    >>> both_ways(length, one=Band(47, 50.0, 53), other=Band(46, 50.0, 54))[1]
    Band(low=95.0, nominal=100.0, high=105.0)
    """
    corners = spread(formula, **bands)
    quadrature = root_sum_square(formula, **bands)
    low = max(quadrature.low, corners.low)
    return Combined(corners, Band(low, corners.nominal, min(quadrature.high, corners.high)))
