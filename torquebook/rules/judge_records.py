"""Judge a joint's or a job's record: as a plan's lines, and as a whole."""

from __future__ import annotations

import os.path
import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from torquebook.catalogue.library import hold
from torquebook.catalogue.plaintext import read_text
from torquebook.catalogue.strict import load
from torquebook.errors import Unreadable
from torquebook.findings import Severity
from torquebook.plans.model import Plan
from torquebook.records.job import JobRecord
from torquebook.records.joint import JointRecord
from torquebook.rules.basis.fastener import Fitter
from torquebook.rules.basis.records import JobCase, JointCase
from torquebook.rules.judge import LineAnswer, Verdict, ask, judge_lines

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Held, Library
    from torquebook.findings import Finding
    from torquebook.plans.model import PlanLine

_KIND = re.compile(r"^(?:\{.*)?[\"']?kind[\"']?\s*:", re.MULTILINE)  # not that of a plan's line
_YAML = (".yaml", ".yml")


def judged(
    held: Held[JointRecord] | Held[JobRecord],
    book: Book,
    library: Library,
    fitter: Fitter | None = None,
) -> Verdict:
    """Ask every rule of a record.

    Parameters
    ----------
    held : Held
        A job is judged with all its joints as one list.
    book : Book
    library : Library
        Where a job's joints are looked up.
    fitter : Fitter, optional
        What has read other records against the same book.

    Returns
    -------
    Verdict
        With an answer for each joint, whose findings stand in the joint's own file; the lines
        of a job are numbered as its own steps are.

    Raises
    ------
    RuleFault
        If a rule fails.
    Unreadable
        If the record of a joint has a fault.
    """
    if isinstance(held.record, JointRecord):
        case = JointCase(held, book, library)
        return _verdict(held, (case,), (case.line,), fitter or Fitter(book))
    job = JobCase(held, book, library)
    cases = tuple(JointCase(joint, book, library) for _, joint in job.tightened)
    numbers = (job.at("steps", index).line for index, _ in job.tightened)
    lines = tuple(
        replace(case.line, number=number) for case, number in zip(cases, numbers, strict=True)
    )
    return replace(_verdict(held, cases, lines, fitter or Fitter(book)), own=ask(job, "job"))


def added(held: Held[JobRecord], book: Book, library: Library) -> tuple[Finding, ...]:
    """Return what a job's rules and its joints as one list say beside the joints by themselves.

    What a rule says of a joint by itself is not said again where the list makes it no more serious:
    it only adds lines to compare with, which are those of another file.

    The arguments and errors are those of :func:`judged`.
    """
    found = judged(held, book, library).findings
    joints = JobCase(held, book, library).tightened
    alone = [f for _, joint in joints for f in judged(joint, book, library).findings]
    known = {
        (f.rule, f.place, severity)
        for f in alone
        for severity in Severity
        if severity >= f.severity
    }
    return tuple(f for f in found if (f.rule, f.place, f.severity) not in known)


def _verdict(
    held: Held[JointRecord] | Held[JobRecord],
    cases: Sequence[JointCase],
    lines: Sequence[PlanLine],
    fitter: Fitter,
) -> Verdict:
    answers = judge_lines(tuple(lines), fitter)
    whole = [_with_own(answer, case) for answer, case in zip(answers, cases, strict=True)]
    source = held.record.source
    name = held.id if "/" in held.id else str(held.path)  # as it was asked for
    plan = Plan(name, tuple(lines), (), (), held.record.title, source.provenance)
    return Verdict(plan, tuple(whole))


def _with_own(answer: LineAnswer, case: JointCase) -> LineAnswer:
    """Add to a line's findings what the rules say of its record as a whole."""
    found = [*answer.findings, *ask(case, "joint")]
    return replace(answer, findings=tuple(sorted(found, key=lambda finding: finding.order)))


def record_of(text: str, library: Library) -> Held[JointRecord] | Held[JobRecord] | None:
    """Return the joint or job that an argument names, None if it is something else.

    Parameters
    ----------
    text : str
        A YAML file with a ``kind`` at its top; or the id of a joint or job, such as
        ``joints/brigade/flywheel``.
    library : Library

    Raises
    ------
    Unreadable
        If the record has a fault, or is of another kind.
    NotUnderstood
        If the id is of no record.
    """
    path = Path(text)
    if text.lower().endswith(_YAML):
        kind = _kind_in(path)
        if kind is None:
            return None
        if kind == "job":
            return hold(path, JobRecord, path.stem)
        return hold(path, JointRecord, path.stem)
    shelf, _, name = text.partition("/")
    if not name or shelf not in {"joints", "jobs"} or os.path.exists(text):  # noqa: PTH110 - may be no path at all
        return None
    if shelf == "joints":
        return library.one(shelf, JointRecord, text)
    return library.one(shelf, JobRecord, text)


def _kind_in(path: Path) -> Any:
    """Return what a YAML file says is its kind, None if it is no record.

    A file that cannot be read is left to the readers of plans, who know more encodings.
    """
    try:
        text = read_text(path)
        data = load(text, str(path))[0] if _KIND.search(text) else None
    except Unreadable:
        return None
    return data.get("kind") if isinstance(data, dict) and "lines" not in data else None
