"""Family `spec`: a line against the joint's record that it names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.lookup import plain
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.mechanics.scatter import with_tool
from torquebook.notation import Angle, Slacken, Torque, Wait
from torquebook.rules.basis import say
from torquebook.rules.basis.case import Case
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from torquebook.bands import Band
    from torquebook.notation import Stage
    from torquebook.plans.model import PlanLine
    from torquebook.rules.basis.fastener import Fastener

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
    state it; of the order the first pass, and none where it is only said for groups, or goes
    by where the bolts lie.
    Values in other units are alike within 0.5 %. It is a stop where no torque that the wrench
    may give by the line is one that it may give by the spec.
    """
    spec = case.spec.line if case.spec else None
    if case.spec is None or spec is None:
        return
    fit = case.fitter.fit(spec)
    for column, differs in _DIFFERS.items():
        stated = case.line.text(column) and spec.text(column)
        if not stated or column in case.fastener.troubles or not differs(case, spec, fit):
            continue
        torques = _torques(case.line, spec) if column == "tighten" else None
        yield Remark(
            f"{case.line.text(column)}; {case.line.text('spec')} says {spec.text(column)}",
            column,
            instead=spec.text(column),
            severity=Severity.STOP if torques and _apart(case, spec, *torques) else Severity.ASK,
            numbers=_numbers(*torques) if torques else {},
            source=case.spec.source,
        )


def _threads(case: Case, _: PlanLine, theirs: Fastener) -> bool:
    mine = set(case.fastener.threads)
    return bool(mine and theirs.threads) and mine.isdisjoint(theirs.threads)


def _classes(case: Case, _: PlanLine, theirs: Fastener) -> bool:
    mine = case.fastener.strength
    return mine is not None and theirs.strength is not None and mine.name != theirs.strength.name


def _frictions(case: Case, _: PlanLine, theirs: Fastener) -> bool:
    mine, other = case.friction, theirs.friction
    if other is None:
        return False
    return (mine.mu_thread, mine.mu_head) != (other.mu_thread, other.mu_head)


def _nuts(case: Case, spec: PlanLine, theirs: Fastener) -> bool:
    both = ((case.fastener, case.line), (theirs, spec))
    return len({plain(fit.nut.name if fit.nut else line.text("nut")) for fit, line in both}) > 1


def _counts(case: Case, spec: PlanLine, _: Fastener) -> bool:
    return None not in {case.line.count, spec.count} and case.line.count != spec.count


def _orders(case: Case, spec: PlanLine, _: Fastener) -> bool:
    """Return whether the first pass is another one."""
    theirs = Case(spec, case.fitter, case.fitter.wrench(spec)).passes
    return bool(case.passes and theirs) and case.passes[0] != theirs[0]


def _stages(case: Case, spec: PlanLine, _: Fastener) -> bool:
    mine, theirs = case.line.stages, spec.stages
    if not mine or not theirs:
        return False
    return len(mine) != len(theirs) or not all(map(_alike, mine, theirs))


_DIFFERS: dict[str, Callable[[Case, PlanLine, Fastener], bool]] = {
    "thread": _threads,
    "class": _classes,
    "friction": _frictions,
    "nut": _nuts,
    "count": _counts,
    "order": _orders,
    "tighten": _stages,
}


def _torques(line: PlanLine, spec: PlanLine) -> tuple[Torque, Torque] | None:
    """Return the highest torque of the line and that of its spec; None where one has none."""
    every = [[one for one in two.stages if isinstance(one, Torque)] for two in (line, spec)]
    if not all(every):
        return None
    mine, theirs = (max(torques, key=lambda one: one.band.nominal) for torques in every)
    return mine, theirs


def _numbers(mine: Torque, theirs: Torque) -> dict[str, float]:
    return {"torque_nm": mine.band.nominal, "spec_nm": theirs.band.nominal}


def _apart(case: Case, spec: PlanLine, mine: Torque, theirs: Torque) -> bool:
    """Return whether no torque that the line may give is one that the spec may give."""
    wrench = case.fitter.wrench(spec)
    here = with_tool(mine.band, case.wrench.deviation(mine.band.nominal))
    there = with_tool(theirs.band, wrench.deviation(theirs.band.nominal))
    return here.low > there.high or here.high < there.low


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
