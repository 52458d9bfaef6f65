"""The answer of ``judge``: findings first, then each line's figures, then what they rest on."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.catalogue.places import specs_root
from torquebook.findings import Severity
from torquebook.render.cautions import CAUTION, demo_wrenches
from torquebook.render.data import band
from torquebook.render.found import counted
from torquebook.render.lines import lines_table, numbers

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from torquebook.findings import Finding, Place
    from torquebook.plans.model import Plan
    from torquebook.render.paper import Paper
    from torquebook.rules.judge import LineAnswer, Verdict

_INDENT: Final = 6
_MISSING: Final = ("no ", " stated")


class Judged(NamedTuple):
    """The answer: the verdicts on the plans that could be read, of so many that were named."""

    verdicts: tuple[Verdict, ...]
    named: int


def text(answer: Judged, paper: Paper) -> None:
    """Write each plan's verdict, and what holds for all of them once."""
    for verdict in answer.verdicts:
        _verdict(verdict, paper)
    paper.gap()
    if invented := invented_wrenches(a for verdict in answer.verdicts for a in verdict.answers):
        paper.text(demo_wrenches(", ".join(invented), len(invented)))
    if any(verdict.findings for verdict in answer.verdicts):
        paper.text("What a rule asks, and why: torquebook why RULE")
    paper.text(CAUTION)


def invented_wrenches(answers: Iterable[LineAnswer]) -> list[str]:
    """Return the wrenches of the demo book that lines name, each once."""
    return list(dict.fromkeys(a.invented_wrench for a in answers if a.invented_wrench))


def _verdict(verdict: Verdict, paper: Paper) -> None:
    plan = verdict.plan
    paper.heading(f"{plan.name}: {counted(verdict.counts, len(verdict.answers), 'line')}")
    for said in (plan.title, plan.provenance and f"provenance: {plan.provenance}"):
        if said:
            paper.text(said, 2, 4)
    for remark in remarks(plan):
        paper.text(remark, 2, 4)
    for group in gathered(verdict.findings):
        _entry(group, plan, paper)
    if verdict.answers:
        paper.heading("Lines")
        lines_table(verdict.answers, paper)
        _basis(verdict.answers, paper)


def remarks(plan: Plan) -> list[str]:
    """Return what the reader of the plan had to decide, and the columns that nobody knows."""
    unknown = ", ".join(plan.unknown_columns)
    return [*plan.notes, *([f"columns kept but not judged: {unknown}"] if unknown else [])]


def gathered(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Return findings worst first, each by itself, but the notes of one rule together."""
    groups: dict[tuple[str, int], list[Finding]] = {}
    for index, finding in enumerate(findings):
        alone = 0 if finding.severity is Severity.NOTE else index + 1
        groups.setdefault((finding.rule, alone), []).append(finding)
    return list(groups.values())


def _entry(group: list[Finding], plan: Plan, paper: Paper) -> None:
    """Write one finding, or one note that several lines share."""
    first, *others = group
    word = f"{first.severity.word.upper():<{_INDENT}}"
    paper.gap()
    if others:
        among, one = _shared(group, plan)
        paper.text(f"{word}{among}", hang=_INDENT)
        paper.text(f"{one}: {first.message}", _INDENT)
    else:
        joint = f": {first.joint}" if first.joint else ""
        at = place(first.place) if first.place.file == plan.name else _elsewhere(first.place)
        paper.text(f"{word}{at}{joint}", hang=_INDENT)
        paper.text(first.message, _INDENT)
    if first.instead and all(finding.instead == first.instead for finding in others):
        paper.text(f"instead: {first.instead}", _INDENT, _INDENT + 2)
    paper.text(f"rule: {first.rule}", _INDENT)


def _shared(group: list[Finding], plan: Plan) -> tuple[str, str]:
    """Return where the findings of a group stand, and where the first of them does."""
    first = group[0]
    if all(finding.place.file == plan.name for finding in group):
        lines = numbers(finding.place.line for finding in group)
        return f"lines {lines}", f"line {first.place.line}"
    return ", ".join(dict.fromkeys(finding.joint for finding in group)), first.joint


def place(where: Place) -> str:
    """Return a place below its plan's heading: the cell, else line and column."""
    if where.cell:
        return f"line {where.line}, cell {where.cell}"
    return f"line {where.line}, column {where.column}"


def _elsewhere(where: Place) -> str:
    """Return a place in another file: as seen from here, or within our own records."""
    path = Path(where.file)
    for root in (Path.cwd(), specs_root()):
        if path.is_relative_to(root):
            return str(replace(where, file=str(path.relative_to(root))))
    return str(where)


def _basis(answers: Sequence[LineAnswer], paper: Paper) -> None:
    """Write what was assumed, and what could not be judged, with the lines."""
    assumed: dict[str, list[int]] = {}
    unjudged: dict[str, list[int]] = {}
    unsaid: dict[str, list[int]] = {}
    for answer in answers:
        for note in answer.assumed:
            assumed.setdefault(note, []).append(answer.line.number)
        for reason in answer.unjudged:
            what = reason.removeprefix(_MISSING[0]).removesuffix(_MISSING[1])
            known = reason == f"{_MISSING[0]}{what}{_MISSING[1]}"
            shelf, key = (unsaid, what) if known else (unjudged, reason)
            shelf.setdefault(key, []).append(answer.line.number)
    if assumed:
        paper.heading("Assumed, where a line does not say")
        for note, lines in assumed.items():
            paper.text(f"{note}{_among(': {}', lines, answers)}", 2, 4)
    if unjudged or unsaid:
        paper.heading("Not judged")
        for reason, lines in unjudged.items():
            paper.text(f"{reason}{_among(': {}', lines, answers)}", 2, 4)
        if unsaid:
            missing = (f"{what}{_among(' ({})', lines, answers)}" for what, lines in unsaid.items())
            paper.text(f"rules that need what is not stated: {', '.join(missing)}", 2, 4)


def _among(form: str, lines: list[int], answers: Sequence[LineAnswer]) -> str:
    """Return line numbers in words, in a form; nothing where the plan is one line."""
    if len(answers) == 1:
        return ""
    if len(lines) == len(answers):
        return form.format("all lines")
    if len(lines) == 1:
        return form.format(f"line {lines[0]}")
    return form.format(f"lines {numbers(lines)}")


def data(answer: Judged) -> dict[str, Any] | list[dict[str, Any]]:
    """Return one plan's verdict as an object, a list where several plans were named."""
    found = [_data(verdict) for verdict in answer.verdicts]
    return found if answer.named > 1 else found[0]


def _data(verdict: Verdict) -> dict[str, Any]:
    return {
        "plan": verdict.plan.name,
        "unknown_columns": list(verdict.plan.unknown_columns),
        "lines": [line_data(answer) for answer in verdict.answers],
        "findings": [finding_data(finding) for finding in verdict.own],
        "invented_wrenches": invented_wrenches(verdict.answers),
        "summary": {severity.word: count for severity, count in verdict.counts.items()},
    }


def _at_end(answer: LineAnswer) -> dict[str, Any] | None:
    """Return what an angle makes of the bolt, None without one or where it is not known."""
    turned = answer.turned
    if turned is None:
        return None
    return {
        "preload_n": band(turned.preload_n),
        "utilisation": band(turned.proof_share),
        "yield_share": band(turned.yield_share),
        "torque_nm": band(turned.torque_nm),
        "permanent_mm": band(turned.permanent_mm),
        "strain_share": band(turned.strain_share),
    }


def line_data(answer: LineAnswer) -> dict[str, Any]:
    """Return the answer to one line as plain values."""
    return {
        "line": answer.line.number,
        "joint": answer.line.text("joint"),
        "preload_n": band(answer.preload_n),
        "utilisation": band(answer.utilisation),
        "by_angle": answer.by_angle,
        "at_end": _at_end(answer),
        "assumed": list(answer.assumed),
        "unjudged": {reason: list(rules) for reason, rules in answer.unjudged.items()},
        "findings": [finding_data(finding) for finding in answer.findings],
    }


def finding_data(finding: Finding) -> dict[str, Any]:
    """Return a finding as plain values."""
    return {
        "rule": finding.rule,
        "severity": finding.severity.word,
        "place": str(finding.place),
        "message": finding.message,
        "numbers": dict(finding.numbers),
        "instead": finding.instead,
        "source": finding.source,
    }
