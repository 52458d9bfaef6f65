"""Family `order`: in which order the positions of a joint are tightened."""

from __future__ import annotations

from cmath import exp, pi
from collections import Counter
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

# Good patterns never pull more than one bolt's worth to a side (inference; published orders of
# 4 to 16 positions). Rows, tightened from the centre outward, begin with no run round a circle.
MOST_PULL, RUN = 1.05, 3
# Below this number a circle has only one order.
LEAST_CIRCLE = 4


def _passes(case: Case) -> tuple[tuple[int, ...], ...]:
    order = case.line.order
    return order if isinstance(order, tuple) else ()


def _positions(case: Case) -> int:
    """Return how many positions the joint has: by its count, else by its order."""
    order = _passes(case)
    return case.line.count or max((max(one) for one in order if one), default=0)


def _numbers(positions: list[int]) -> str:
    return ", ".join(map(str, positions))


@rule(
    "position-missed",
    Severity.STOP,
    source="common practice",
    fires="M10 10.9 60 N.m count=6 order=1-4-2-5-3",
    passes="M10 10.9 60 N.m count=6 order=1-4-2-5-3-6",
    needs=("order",),
)
def position_missed(case: Case) -> Iterator[Remark]:
    """Does every pass of the order reach every position?

    Why
    ---
    A bolt that is not in the order is not tightened.

    Mend
    ----
    Put the missing position where the pattern has it.

    Known gaps
    ----------
    Without a count the highest number in the order is taken for it.
    """
    total = _positions(case)
    for one in _passes(case):
        missed = sorted(set(range(1, total + 1)) - set(one))
        if missed and len(set(one)) < total:
            yield Remark(
                f"the order reaches {len(set(one))} of {total} positions; "
                f"{_numbers(missed[:10])} is missing",
                "order",
                numbers={"count": float(total), "reached": float(len(set(one)))},
            )


@rule(
    "position-twice",
    Severity.ASK,
    source="common practice",
    fires="M10 10.9 60 N.m order=1-4-2-5-3-6-2",
    passes="M10 10.9 60 N.m order=1-4-2-5-3-6",
    needs=("order",),
)
def position_twice(case: Case) -> Iterator[Remark]:
    """Does any pass reach a position twice?

    Why
    ---
    A number that stands twice mostly stands where another one belongs.

    Mend
    ----
    Look the order up again; write a second pass as a pass of its own, after a slash.

    Known gaps
    ----------
    None.
    """
    for one in _passes(case):
        twice = sorted(number for number, times in Counter(one).items() if times > 1)
        if twice:
            yield Remark(f"{_numbers(twice)} stands twice in one pass", "order")


@rule(
    "count-differs",
    Severity.ASK,
    source="common practice",
    fires="M10 10.9 60 N.m count=6 order=1-5-3-7-2-6-4-8",
    passes="M10 10.9 60 N.m count=8 order=1-5-3-7-2-6-4-8",
    needs=("order", "count"),
)
def count_differs(case: Case) -> Iterator[Remark]:
    """Does the order speak of positions that the joint does not have?

    Why
    ---
    The order belongs to another joint, or the count is wrong and too few bolts are on
    the bench.

    Mend
    ----
    Count the bolts, then write the order for that number.

    Known gaps
    ----------
    Too few positions are reported by position-missed.
    """
    count = case.line.count
    highest = max((max(one) for one in _passes(case) if one), default=0)
    if count is not None and highest > count:
        yield Remark(
            f"the order goes up to position {highest}, the joint has {count}",
            "order",
            numbers={"count": float(count), "highest": float(highest)},
        )


@rule(
    "round-the-circle",
    Severity.ASK,
    source="ASME PCC-1, appendix F, as described by flange-trade pages; metric: inference",
    fires="M10 10.9 60 N.m count=6 order=1-2-3-4-5-6",
    passes="M10 10.9 60 N.m count=6 order='1-4-2-5-3-6 / 1-2-3-4-5-6'",
    needs=("order",),
)
def round_the_circle(case: Case) -> Iterator[Remark]:
    """Does the first pass go round the circle?

    Why
    ---
    Tightened one after the other, the first side closes the joint crooked and the last
    bolts straighten it: preloads differ, and a disc or a gasket is pinched.

    Mend
    ----
    Cross over: 1-4-2-5-3-6 for six. Round the circle is right for a last pass.

    Known gaps
    ----------
    If the numbers are the order of tightening rather than positions, the list is right
    and should say so. Rows and free layouts are not judged.
    """
    for one in _passes(case)[:1]:
        number = len(one)
        if number < LEAST_CIRCLE or sorted(one) != list(range(1, number + 1)):
            return
        steps = [(after - before) % number for before, after in pairwise(one[:RUN])]
        if set(steps) in ({1}, {number - 1}) and _pull(one) > MOST_PULL:
            yield Remark(
                f"the first pass goes round the circle: {'-'.join(map(str, one))}; "
                "right only if these are the numbers of tightening, not of the positions",
                "order",
                numbers={"pull": _pull(one)},
                instead="-".join(map(str, cross_over(number))),
            )


def _pull(order: tuple[int, ...]) -> float:
    """Return the largest sum of the unit vectors of the positions tightened so far."""
    spots = [exp(2j * pi * (position - 1) / len(order)) for position in order]
    return max(map(abs, accumulate(spots)))


def cross_over(number: int) -> tuple[int, ...]:
    """Return an order of a circle's positions that keeps the pull balanced.

    Each step takes the free position whose unit vector best balances the sum so far, the
    lowest number first: for 4 positions 1-3-2-4, for 6 positions 1-4-2-5-3-6.
    """
    spots = [exp(2j * pi * index / number) for index in range(number)]
    left, order, total = list(range(number)), [], 0j
    while left:
        best = min(left, key=lambda index: (round(abs(total + spots[index]), 9), index))
        left.remove(best)
        order.append(best + 1)
        total += spots[best]
    return tuple(order)


FAMILY = (position_missed, position_twice, count_differs, round_the_circle)
