"""Judge a joint's or a job's record: as a plan's lines, and as a whole."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.catalogue.library import hold
from torquebook.catalogue.plaintext import read_text
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
    from torquebook.plans.model import PlanLine

_KIND = re.compile(r"^kind:\s*[\"']?(joint|job)\b", re.MULTILINE)
_YAML = (".yaml", ".yml")


def judged(held: Held[JointRecord] | Held[JobRecord], book: Book, library: Library) -> Verdict:
    """Ask every rule of a record.

    Parameters
    ----------
    held : Held
        A job is judged with all its joints as one list.
    book : Book
    library : Library
        Where a job's joints are looked up.

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
        return _verdict(held, (case,), (case.line,), book)
    job = JobCase(held, book, library)
    cases = tuple(JointCase(joint, book, library) for _, joint in job.tightened)
    numbers = (job.at("steps", index).line for index, _ in job.tightened)
    lines = tuple(
        replace(case.line, number=number) for case, number in zip(cases, numbers, strict=True)
    )
    return replace(_verdict(held, cases, lines, book), own=ask(job, "job"))


def _verdict(
    held: Held[JointRecord] | Held[JobRecord],
    cases: Sequence[JointCase],
    lines: Sequence[PlanLine],
    book: Book,
) -> Verdict:
    answers = judge_lines(tuple(lines), Fitter(book))
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
        A YAML file that says ``kind: joint`` or ``kind: job``; or the id of one, such as
        ``joints/brigade/flywheel``.
    library : Library

    Raises
    ------
    Unreadable
        If the record has a fault.
    NotUnderstood
        If the id is of no record.
    """
    path = Path(text)
    if text.lower().endswith(_YAML):
        found = _KIND.search(read_text(path)) if path.is_file() else None
        if found is None:
            return None
        if found[1] == "joint":
            return hold(path, JointRecord, path.stem)
        return hold(path, JobRecord, path.stem)
    shelf, _, name = text.partition("/")
    if not name or path.exists() or shelf not in {"joints", "jobs"}:
        return None
    if shelf == "joints":
        return library.one(shelf, JointRecord, text)
    return library.one(shelf, JobRecord, text)
