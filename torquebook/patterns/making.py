"""Make orders: crosswise over a circle, from the centre outward, balanced over any layout."""

from __future__ import annotations

import math
from itertools import zip_longest
from typing import TYPE_CHECKING

from torquebook.errors import TorquebookError
from torquebook.patterns.layout import circle_spots
from torquebook.patterns.measures import arms

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from torquebook.patterns.layout import Spot

_DIGITS = 9  # arms that differ by less are alike


def round_the_circle(count: int) -> tuple[int, ...]:
    """Return the positions one after the other, for a last pass that is to go round."""
    return tuple(range(1, count + 1))


def cross_over(count: int) -> tuple[int, ...]:
    """Return an order of a circle's positions that keeps the pull balanced.

    Each position is followed by the one opposite; the pairs go over the half circle as a
    circle of half as many goes. This gives every published order of 4 to 16 positions. An odd
    number has no opposites: then each step balances those before it as well as it can.

    Raises
    ------
    TorquebookError
        If there is no position.
    """
    if count % 2 or count < 1:
        return balanced(circle_spots(count) if count > 0 else ())
    half = count // 2
    return tuple(position for first in cross_over(half) for position in (first, first + half))


def balanced(spots: Sequence[Spot]) -> tuple[int, ...]:
    """Return an order over any layout that keeps the pull balanced.

    Each step takes the free position whose arm best balances the sum so far; of those that
    do alike the one in the widest gap, then the one farthest from the last, then the lowest
    number.

    Raises
    ------
    TorquebookError
        If there is no position, or two lie on one spot.
    """
    return _ordered(spots, lambda total, arm: (round(abs(total + arm), _DIGITS),))


def centre_out(spots: Sequence[Spot]) -> tuple[int, ...]:
    """Return an order from the centre outward, from side to side, as for rows.

    Loosening goes the other way: the same order from its end.

    Raises
    ------
    TorquebookError
        As :func:`balanced`.
    """
    return _ordered(
        spots, lambda total, arm: (round(abs(arm), _DIGITS), round(abs(total + arm), _DIGITS))
    )


def _ordered(
    spots: Sequence[Spot], cost: Callable[[complex, complex], tuple[float, ...]]
) -> tuple[int, ...]:
    """Return the positions in the order in which each costs least beside those before it."""
    if not spots:
        raise TorquebookError("no positions; name one or more")
    if len(set(spots)) < len(spots):
        raise TorquebookError("two positions on one spot; give each its own place")
    every = arms(spots)
    gaps = [math.inf] * len(every)
    left, total = list(range(len(every))), 0j
    order: list[int] = []
    while left:
        last = every[order[-1] - 1] if order else 0j
        best = min(
            left,
            key=lambda index: (
                *cost(total, every[index]),
                -gaps[index],
                -round(abs(every[index] - last), _DIGITS),
                index,
            ),
        )
        left.remove(best)
        order.append(best + 1)
        total += every[best]
        for index in left:
            gaps[index] = min(gaps[index], round(abs(every[index] - every[best]), _DIGITS))
    return tuple(order)


def interleaved(orders: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Return the orders of several groups in one: the first of each, then the second of each."""
    turns = zip_longest(*orders)
    return tuple(position for turn in turns for position in turn if position is not None)
