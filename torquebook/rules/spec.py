"""Family `spec`: a line against the joint's record that it names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.lookup import plain
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.mechanics.scatter import with_tool
from torquebook.notation import Angle, Slacken, Torque, Wait
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.bands import Band
    from torquebook.notation import Stage
    from torquebook.plans.model import PlanLine
    from torquebook.rules.basis.case import Case

# Sheets print converted values to two or three figures.
ROUNDING = 0.005


@rule(
    "spec-unknown",
    Severity.ASK,
    source="the records of joints in the book and in the user's folders",
    fires="M10x1.25 10.9 30 N.m + 60 deg kind=stretch spec=joints/brigade/flywhel",
    passes="M10x1.25 10.9 30 N.m + 60 deg kind=stretch spec=joints/brigade/flywheel",
)
def spec_unknown(case: Case) -> Iterator[Remark]:
    """Is there a record of the spec that the line names?

    Why
    ---
    A line that names a spec is held against it; where there is none, nothing was compared,
    and the list would look as if it had been.

    Mend
    ----
    Name a joint's record by its id (`torquebook judge joints/...` takes the same one), or
    keep one in a folder of your own.

    Known gaps
    ----------
    None.
    """
    trouble = case.spec.trouble if case.spec else None
    if isinstance(trouble, NotUnderstood):
        yield Remark(str(trouble), "spec", instead=say.nearest(trouble))
    elif trouble is not None:
        yield Remark(f"the spec has a fault: {trouble}", "spec")


@rule(
    "spec-differs",
    Severity.STOP,
    source="the record that the line names",
    fires="M8 8.8 24 lbf.ft spec=joints/brigade/clutch-cover",
    passes="M8 8.8 10 N.m, 17.7 lbf.ft spec=joints/brigade/clutch-cover",
)
def spec_differs(case: Case) -> Iterator[Remark]:
    """Does the line say what its spec says?

    Why
    ---
    The spec is the nearest thing to the maker's word, and it outranks what tables and
    computation say; a value that was copied wrong is wrong however well it would suit.

    Mend
    ----
    Write what the spec says; or, if the joint is another one, name its spec.

    Known gaps
    ----------
    Compared are thread, class, count, tighten, order, friction and nut, each only where both
    state it. Values in other units are alike within 0.5 %. It is a stop where no torque
    that the wrench may give by the line is one that it may give by the spec.
    """
    spec = case.spec.line if case.spec else None
    if case.spec is None or spec is None:
        return
    for remark in (*_fasteners(case, spec), *_numbers(case, spec), *_tighten(case, spec)):
        said = f"{remark.message} by {case.line.text('spec')}"
        yield Remark(
            said,
            remark.column,
            numbers=remark.numbers,
            instead=remark.instead or spec.text(remark.column),
            severity=Severity.ASK if remark.severity is None else remark.severity,
            source=case.spec.source,
        )


def _other(case: Case, spec: PlanLine, column: str) -> Remark:
    return Remark(f"{case.line.text(column)} here, {spec.text(column)}", column)


def _fasteners(case: Case, spec: PlanLine) -> Iterator[Remark]:
    """Yield what differs in thread, class, friction and nut."""
    mine, theirs = case.fastener, case.fitter.fit(spec)
    both = ((mine, case.line), (theirs, spec))
    if mine.threads and theirs.threads and not set(mine.threads) & set(theirs.threads):
        yield _other(case, spec, "thread")
    if mine.strength and theirs.strength and mine.strength.name != theirs.strength.name:
        yield _other(case, spec, "class")
    if _both(case, spec, "friction") and mine.friction and theirs.friction:
        one, other = mine.friction, theirs.friction
        if (one.mu_thread, one.mu_head) != (other.mu_thread, other.mu_head):
            yield _other(case, spec, "friction")
    if _both(case, spec, "nut"):
        names = {plain(fit.nut.name if fit.nut else line.text("nut")) for fit, line in both}
        if len(names) > 1:
            yield _other(case, spec, "nut")


def _both(case: Case, spec: PlanLine, column: str) -> bool:
    return bool(case.line.text(column) and spec.text(column)) and (
        column not in case.fastener.troubles
    )


def _numbers(case: Case, spec: PlanLine) -> Iterator[Remark]:
    """Yield what differs in count and order."""
    if case.line.count and spec.count and case.line.count != spec.count:
        yield _other(case, spec, "count")
    mine, theirs = case.line.order, spec.order
    if isinstance(mine, tuple) and isinstance(theirs, tuple):
        if mine[0] != theirs[0]:
            yield _other(case, spec, "order")
    elif isinstance(mine, str) and isinstance(theirs, str) and plain(mine) != plain(theirs):
        yield _other(case, spec, "order")


def _tighten(case: Case, spec: PlanLine) -> Iterator[Remark]:
    """Yield what differs in the stages."""
    mine, theirs = case.line.stages, spec.stages
    if not mine or not theirs:
        return
    text = f"{case.line.text('tighten')} here, {spec.text('tighten')}"
    if len(mine) == len(theirs) and all(map(_alike, mine, theirs)):
        return
    one, other = _highest(mine), _highest(theirs)
    apart = one is not None and other is not None and _apart(case, spec, one, other)
    numbers = {}
    if one is not None and other is not None:
        numbers = {"torque_nm": one.band.nominal, "spec_nm": other.band.nominal}
    severity = Severity.STOP if apart else Severity.ASK
    yield Remark(text, "tighten", numbers=numbers, severity=severity)


def _highest(stages: tuple[Stage, ...]) -> Torque | None:
    torques = [stage for stage in stages if isinstance(stage, Torque)]
    return max(torques, key=lambda stage: stage.band.nominal, default=None)


def _apart(case: Case, spec: PlanLine, one: Torque, other: Torque) -> bool:
    """Return whether no torque that the line may give is one that the spec may give."""
    theirs = case.fitter.wrench(spec)
    mine = with_tool(one.band, case.wrench.deviation(one.band.nominal))
    right = with_tool(other.band, theirs.deviation(other.band.nominal))
    return mine.low > right.high or mine.high < right.low


def _alike(mine: Stage, theirs: Stage) -> bool:
    """Return whether a stage is the spec's, or lies within what the spec allows."""
    if isinstance(mine, Torque | Angle) and type(mine) is type(theirs):
        return _within(mine.band, theirs.band)
    if isinstance(mine, Slacken) and isinstance(theirs, Slacken):
        return mine.by_deg == theirs.by_deg
    if isinstance(mine, Wait) and isinstance(theirs, Wait):
        return mine.minutes == theirs.minutes
    return False


def _within(mine: Band, theirs: Band) -> bool:
    return theirs.low * (1 - ROUNDING) <= mine.low and mine.high <= theirs.high * (1 + ROUNDING)


FAMILY = (spec_unknown, spec_differs)
