"""What is printed of a job that is worked out; all text leaves here safe to show."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from string import ascii_uppercase
from typing import TYPE_CHECKING, Final

from torquebook.findings import Severity
from torquebook.render.cautions import CAUTION
from torquebook.render.sheet.joints import joint_card
from torquebook.render.sheet.model import Blank, GateCard, Later, Loosening, Sheet
from torquebook.render.sheet.orders import loosening_text
from torquebook.render.sheet.words import Words, limits

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.findings import Finding
    from torquebook.jobs.model import WorkedGate, WorkedJob, WorkedJoint
    from torquebook.render.sheet.model import JointCard

INVENTED: Final = "invented"
_READING: Final = (
    (
        "Drawings",
        "numbered in the order of tightening, as the boxes and other orders are; mark: position 1.",
    ),
    ("Gates", "thick frames; go on only when what they ask for holds."),
)
_SEVERAL: Final = 3  # so many joints that look at the same are told once


def sheet_of(job: WorkedJob, *, plain: bool = False) -> Sheet:
    """Return what is printed of a job.

    Parameters
    ----------
    job : WorkedJob
    plain : bool
        Whether to keep to ASCII.
    """
    words = Words(plain=plain)
    record = job.held.record
    note = words.source(record.source)
    steps = _steps(job)
    cards, shared = _lettered(_cards(job, words))
    alerts = [finding for finding in job.findings if finding.severity < Severity.NOTE]
    return Sheet(
        title=words.said(record.title),
        name=words.said(record.name),
        invented=_invented(job),
        note=note,
        alerts=tuple(words.alert(one, _step(one, steps)) for one in alerts),
        loosening=tuple(
            Loosening(
                words.said(joint.held.record.name),
                words.said(loosening_text(order, joint)), words.said(entry.note or "")
            )
            for entry, joint, order in job.removal
        ),
        reading=(*_READING, *((f"Look {letter}", text) for letter, text in shared)),
        cards=cards,
        later=tuple(
            Later(joint.number, words.said(joint.held.record.name), words.said(check.what),
                  words.said(check.after))
            for joint in job.joints
            for check in joint.held.record.rechecks
        ),
        assumed=tuple(_assumed(job, words)),
        cautions=(words.said(CAUTION), *_notes(job, steps, words)),
        sources=words.sources,
    )  # fmt: skip


def _cards(job: WorkedJob, words: Words) -> tuple[GateCard | JointCard, ...]:
    joints = {joint.number: joint for joint in job.joints}
    return tuple(
        joint_card(joints[step.number], beside(joints[step.number], job.findings), job.unit, words)
        if step.number in joints
        else _gate_card(step, words)  # type: ignore[arg-type]  # what is no joint is a gate
        for step in job.steps
    )


def _lettered(
    cards: tuple[GateCard | JointCard, ...],
) -> tuple[tuple[GateCard | JointCard, ...], tuple[tuple[str, str], ...]]:
    """Return the cards with a letter for what several of them look at, and what it stands for."""
    every = Counter(card.reuse.looks for card in cards if not card.is_gate)
    shared = [looks for looks, times in every.items() if looks and times >= _SEVERAL]
    letters = dict(zip(shared, ascii_uppercase, strict=False))
    return tuple(
        card
        if card.is_gate
        else replace(card, reuse=replace(card.reuse, letter=letters.get(card.reuse.looks, "")))
        for card in cards
    ), tuple((letter, f"{'; '.join(looks)}.") for looks, letter in letters.items())


def beside(joint: WorkedJoint, every: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return what has to be settled before a joint is tightened."""
    own = list(joint.answer.findings)
    name = joint.held.record.name
    own += [finding for finding in every if finding.joint == name and finding not in own]
    return tuple(finding for finding in own if finding.severity < Severity.NOTE)


def _gate_card(gate: WorkedGate, words: Words) -> GateCard:
    said = gate.gate
    measure = said.measure
    return GateCard(
        number=gate.number,
        name=words.said(said.name),
        question=words.said(said.question or ""),
        reading=None
        if measure is None
        else Blank(
            words.said(measure.what),
            words.unit(measure.unit),
            limits(measure.low, measure.high, words.unit(measure.unit)),
        ),
        tool=words.said(said.tool or ""),
        blocks=said.blocks,
        why=words.said(said.why),
    )


def _steps(job: WorkedJob) -> dict[str, int]:
    """Return the first step of each joint's name."""
    return {joint.held.record.name: joint.number for joint in reversed(job.joints)}


def _step(finding: Finding, steps: dict[str, int]) -> int:
    return steps.get(finding.joint, 0)


def _invented(job: WorkedJob) -> str:
    """Return what is invented of a job, in words."""
    own = job.held.record.source.kind == INVENTED
    steps = [one.number for one in job.joints if one.held.record.source.kind == INVENTED]
    if own and len(steps) == len(job.joints):
        return "Invented demo data: tighten nothing by this sheet."
    if own or steps:
        named = ["the gates and their limits"] if own and job.gates else ["the job"] if own else []
        named += [f"steps {', '.join(map(str, steps))}"] if steps else []
        return f"Invented demo data in {' and '.join(named)}: tighten nothing by these."
    return ""


def _assumed(job: WorkedJob, words: Words) -> Iterator[str]:
    """Yield what the figures and verdicts rest on that the records do not state."""
    found: dict[str, list[int]] = {}
    for joint in job.joints:
        # On the verdict of what is renewed anyhow nothing hangs.
        remarks = () if joint.reuse.verdict == "renew" else joint.reuse.remarks
        for text in dict.fromkeys((*joint.answer.assumed, *remarks)):
            found.setdefault(words.said(text), []).append(joint.number)
    for text, steps in found.items():
        yield f"{text}: step{'s' if len(steps) > 1 else ''} {', '.join(map(str, steps))}"


def _notes(job: WorkedJob, steps: dict[str, int], words: Words) -> Iterator[str]:
    """Yield what the validator notes without asking for anything."""
    for finding in job.findings:
        if finding.severity is Severity.NOTE:
            where = f"Step {_step(finding, steps)}, " if _step(finding, steps) else ""
            yield words.said(f"{where}{finding.joint or finding.rule}: {finding.message}.")
