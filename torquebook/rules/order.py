"""Family `order`: in which order the positions of a joint are tightened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.patterns.making import cross_over
from torquebook.patterns.measures import faults, goes_round, pull
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.rules.basis.case import Case


def _positions(case: Case) -> int:
    """Return how many positions the joint has: by its count, else by its order."""
    order = case.passes
    return case.line.count or max((max(one) for one in order if one), default=0)


def _numbers(positions: Sequence[int]) -> str:
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
    for one in case.passes:
        missed = faults(one, range(1, total + 1)).missed
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
    for one in case.passes:
        twice = faults(one, one).twice
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
    highest = max((max(one) for one in case.passes if one), default=0)
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
    for one in case.passes[:1]:
        if goes_round(one):
            yield Remark(
                f"the first pass goes round the circle: {'-'.join(map(str, one))}; "
                "right only if these are the numbers of tightening, not of the positions",
                "order",
                numbers={"pull": pull(one)},
                instead="-".join(map(str, cross_over(len(one)))),
            )


FAMILY = (position_missed, position_twice, count_differs, round_the_circle)
