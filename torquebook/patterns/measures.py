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

    Arms are taken from the middle of all positions and in shares of the longest, so that a
    bolt at the rim counts 1 and one in the middle nothing. On a circle that is the sum of
    unit vectors of flange practice. On rows and free coordinates it weighs a bolt by how far
    out it lies: what tilts a part is the force times its arm, not the direction alone.

    Parameters
    ----------
    order : sequence of int
        Some or all of the positions, from 1 up.
    spots : sequence of (float, float), optional
        Where all of them lie; on a circle if not given.

    Returns
    -------
    float
        1 for a good order of a circle, 1.41 to 3.86 for 4 to 12 positions one after the
        other (our own arithmetic).
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


class Checked(NamedTuple):
    """What a check found of one pass.

    Parameters
    ----------
    faults : Faults
    pull : float or None
        Over the positions of the pass; None where faults leave nothing to measure.
    round : bool
        Whether it goes round the circle.
    first : bool
        Whether it is the first pass, which closes the joint.
    """

    faults: Faults
    pull: float | None
    round: bool
    first: bool

    @property
    def complete(self) -> bool:
        """Whether it reaches every position once."""
        return self.faults == ((), (), ())

    @property
    def even(self) -> bool:
        """Whether it closes the joint evenly; a later pass may go as it likes."""
        return not self.first or (self.pull is not None and self.pull <= MOST_PULL)


def check(
    passes: Sequence[Sequence[int]], spots: Sequence[Spot], group: Sequence[int] = ()
) -> tuple[Checked, ...]:
    """Check the passes over a joint's positions, or over those of one group of it.

    A pass round the circle is right as a later one; as the first it is uneven.

    Parameters
    ----------
    passes : sequence of sequence of int
        Positions from 1 up, in the order of tightening.
    spots : sequence of (float, float)
        Where all positions of the joint lie.
    group : sequence of int
        The positions of the group; all if not given. A group is measured from its own
        middle: which bolts it has is the maker's choice, only their order is checked.
    """
    positions = tuple(group) or tuple(range(1, len(spots) + 1))
    own = [spots[position - 1] for position in positions]
    found = []
    for number, order in enumerate(passes):
        wrong = faults(order, positions)
        far, about = None, False
        if wrong == ((), (), ()):
            within = [positions.index(position) + 1 for position in order]
            far, about = pull(within, own), goes_round(within)
        found.append(Checked(wrong, far, about, first=number == 0))
    return tuple(found)
