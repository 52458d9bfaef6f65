"""How well an order keeps a joint's pull balanced, and what is wrong with an order."""

from __future__ import annotations

from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.patterns.layout import circle_spots

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from torquebook.patterns.layout import Spot

MOST_PULL: Final = 1.05
"""Good patterns never pull more than one bolt's worth to a side (inference; the published
orders of 4 to 16 positions)."""
LEAST_CIRCLE: Final = 4
"""Below this number a circle has only one order."""
_RUN: Final = 3  # rows, tightened from the centre outward, begin with no run round a circle


class Faults(NamedTuple):
    """What is wrong with one pass: positions that it misses, has twice, or that do not exist."""

    missed: tuple[int, ...]
    twice: tuple[int, ...]
    unknown: tuple[int, ...]


def faults(order: Sequence[int], positions: Iterable[int]) -> Faults:
    """Return what is wrong with a pass that has to reach every position once."""
    wanted, reached = set(positions), set(order)
    return Faults(
        tuple(sorted(wanted - reached)),
        tuple(sorted(number for number in reached if order.count(number) > 1)),
        tuple(sorted(reached - wanted)),
    )


def arms(spots: Sequence[Spot]) -> tuple[complex, ...]:
    """Return each position's arm from the middle of all, the longest one of length 1.

    On a circle these are the unit vectors of the positions.
    """
    middle = sum((complex(*spot) for spot in spots), 0j) / len(spots)
    found = [complex(*spot) - middle for spot in spots]
    longest = max(map(abs, found)) or 1.0
    return tuple(arm / longest for arm in found)


def pull(order: Sequence[int], spots: Sequence[Spot] | None = None) -> float:
    """Return the most that the positions tightened so far ever pull to one side.

    Parameters
    ----------
    order : sequence of int
        Positions from 1 up.
    spots : sequence of (float, float), optional
        Where they lie; on a circle if not given.

    Returns
    -------
    float
        The largest sum of the arms of the positions tightened so far; a bolt at the rim
        counts 1. Our own arithmetic: 1 for a good order of a circle, 1.41 to 3.86 for 4 to
        12 positions one after the other.
    """
    every = arms(spots or circle_spots(max(order)))
    return max(map(abs, accumulate(every[position - 1] for position in order)))


def goes_round(order: Sequence[int]) -> bool:
    """Return whether a pass over a circle begins with neighbours, one after the other."""
    number = len(order)
    if number < LEAST_CIRCLE or sorted(order) != list(range(1, number + 1)):
        return False
    steps = {(after - before) % number for before, after in pairwise(order[:_RUN])}
    return steps in ({1}, {number - 1}) and pull(order) > MOST_PULL
