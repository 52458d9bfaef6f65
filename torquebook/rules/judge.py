"""Judge a plan: every rule on every line, worst finding first."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice
from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.basis.case import Case
from torquebook.rules.basis.fastener import Fitter
from torquebook.rules.basis.needs import unmet
from torquebook.rules.basis.peers import Peers
from torquebook.rules.engine import said
from torquebook.rules.registry import rules_about

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.bands import Band
    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding
    from torquebook.mechanics.yield_bands import TightenedBand
    from torquebook.plans.model import Plan, PlanLine
    from torquebook.rules.basis.records import JobCase, JointCase
    from torquebook.rules.engine import About, Rule


# Lines of a stream that are judged as one list.
WINDOW = 1000
# What the rules on lines need; many need the same.
_NEEDS = frozenset(need for rule in rules_about("line") for need in rule.needs)


@dataclass(frozen=True)
class LineAnswer:
    """What was found out of one line.

    Parameters
    ----------
    line : PlanLine
    preload_n, utilisation : Band or None
        At the highest torque stage; None where they cannot be known.
    by_angle : bool
        True if an angle follows the torque, so that the preload is that of the snug stage.
    turned : TightenedBand or None
        At the end of the angle; None without one, or where the stretch is not known.
    assumed : tuple of str
        What the figures rest on that the line does not state.
    unjudged : mapping of str to tuple of str
        By reason, the rules that could not be asked.
    findings : tuple of Finding
        Worst first.
    invented_wrench : str
        The wrench that the line names, where its record is invented; else empty.
    """

    line: PlanLine
    preload_n: Band | None
    utilisation: Band | None
    by_angle: bool
    turned: TightenedBand | None
    assumed: tuple[str, ...]
    unjudged: dict[str, tuple[str, ...]]
    findings: tuple[Finding, ...]
    invented_wrench: str = ""


@dataclass(frozen=True)
class Verdict:
    """The answers to all lines of a plan.

    Parameters
    ----------
    plan : Plan
    answers : tuple of LineAnswer
    own : tuple of Finding
        What was found in a job's own record, beside its joints.
    """

    plan: Plan
    answers: tuple[LineAnswer, ...]
    own: tuple[Finding, ...] = ()

    @property
    def findings(self) -> list[Finding]:
        """All findings, worst first, then by place."""
        return sorted(
            (*self.own, *(finding for answer in self.answers for finding in answer.findings)),
            key=lambda finding: finding.order,
        )

    @property
    def counts(self) -> dict[Severity, int]:
        """How many findings there are of each severity."""
        found = Counter(finding.severity for finding in self.findings)
        return {severity: found[severity] for severity in Severity}


def judge(plan: Plan, book: Book) -> Verdict:
    """Ask every rule of every line; the list's own level is that of the whole plan.

    Parameters
    ----------
    plan : Plan
    book : Book

    Returns
    -------
    Verdict

    Raises
    ------
    RuleFault
        If a rule fails; a broken rule must never look like a clean plan.
    """
    return Verdict(plan, tuple(judge_lines(plan.lines, Fitter(book))))


def judge_stream(lines: Iterable[PlanLine], book: Book) -> Iterator[LineAnswer]:
    """Ask every rule of every line of a plan of any length.

    Parameters
    ----------
    lines : iterable of PlanLine
    book : Book

    Yields
    ------
    LineAnswer
        In the order of the lines. What the lines of a list say of each other is looked for
        among ``WINDOW`` lines at a time.

    Raises
    ------
    RuleFault
        As :func:`judge`.
    """
    fitter, rest = Fitter(book), iter(lines)
    while window := tuple(islice(rest, WINDOW)):
        yield from judge_lines(window, fitter)


def judge_lines(lines: tuple[PlanLine, ...], fitter: Fitter) -> Iterator[LineAnswer]:
    """Ask every rule of some lines as one list; yield their answers in their order."""
    cases = [Case(line, fitter, fitter.wrench(line)) for line in lines]
    peers = Peers(cases)
    for case in cases:
        case.peers = peers
    return map(_answer, cases)


@lru_cache(maxsize=1024)
def _askable(lacking: frozenset[str]) -> tuple[tuple[Rule, ...], tuple[tuple[str, str], ...]]:
    """Return the rules that can be asked without some needs; of the others need and slug."""
    asked: list[Rule] = []
    left: list[tuple[str, str]] = []
    for rule in rules_about("line"):
        if need := next(filter(lacking.__contains__, rule.needs), ""):
            left.append((need, rule.slug))
        else:
            asked.append(rule)
    return tuple(asked), tuple(left)


def _answer(case: Case) -> LineAnswer:
    lacking = {need: reason for need in _NEEDS if (reason := unmet(case, need))}
    asked, left = _askable(frozenset(lacking))
    findings = [finding for rule in asked for finding in said(rule, case, case.line.place)]
    unjudged: dict[str, list[str]] = {}
    for need, slug in left:
        unjudged.setdefault(lacking[need], []).append(slug)
    return LineAnswer(
        line=case.line,
        preload_n=case.preload_n,
        utilisation=case.utilisation,
        by_angle=case.angle_deg is not None,
        turned=case.turned,
        assumed=case.assumed,
        unjudged={reason: tuple(slugs) for reason, slugs in unjudged.items()},
        findings=tuple(sorted(findings, key=lambda finding: finding.order)),
        invented_wrench=case.wrench.name if case.wrench.invented else "",
    )


def ask(record: JointCase | JobCase, about: About) -> tuple[Finding, ...]:
    """Ask of a record as a whole every rule that is about its kind.

    Raises
    ------
    RuleFault
        As :func:`judge`.
    """
    place = record.at()
    found = [finding for rule in rules_about(about) for finding in said(rule, record, place)]
    return tuple(sorted(found, key=lambda finding: finding.order))
