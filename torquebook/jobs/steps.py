"""The steps of a run: a worked-out job, one check or one bolt at a time.

Each step has an id that stays the same while the job does, and says in ``asks`` what its
record asked for; so a journal that was made before an edit shows what no longer fits.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from torquebook import notation
from torquebook.findings import Severity
from torquebook.jobs.model import WorkedJoint, WorkedPass
from torquebook.numerals import limits_text, number_text
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.jobs.model import WorkedGate, WorkedJob, WorkedStage
    from torquebook.units import Quantity

Kind = Literal["gate", "ready", "bolt", "wait", "finish", "mark", "sign"]

SIGN: Final = "sign"
"""The id of the last step of every run."""
_MARK: Final = re.compile(r"\bmark", re.IGNORECASE)


class Limits(NamedTuple):
    """A reading that is due: what is read, in which unit, and between which limits.

    Parameters
    ----------
    what : str
    unit : str
        ``mm``, ``N.m``, ``deg``, ``N``, ``bar``, ``%``, ``degC`` or another unit of torque.
    low, high : float or None
        In that unit; None where there is no limit on that side.
    """

    what: str
    unit: str
    low: float | None
    high: float | None

    @property
    def span(self) -> str:
        """The limits in words: ``0.05 to 0.15``, ``at most 0.1``, ``at least 23``."""
        return limits_text(self.low, self.high)

    @property
    def shown(self) -> str:
        """The limits in words, with their unit."""
        return with_unit(self.span, self.unit)


class Recheck(NamedTuple):
    """What is looked at again after the job.

    Parameters
    ----------
    id : str
        The joint's id in the run, and what is due.
    name : str
        The joint's name.
    what, after : str
    """

    id: str
    name: str
    what: str
    after: str


@dataclass(frozen=True)
class RunStep:
    """One step of a run.

    Parameters
    ----------
    id : str
        ``joints/brigade/flywheel/pass-1/stage-1/position-3``, ``gate/dowels``, ``sign``.
    kind : str
    number : int
        Its gate's or joint's place in the job, from 1; that of the last for the sign-off.
    name : str
        The joint's or the gate's name.
    asks : str
        What the record asks for, whatever the unit and the wrench.
    spot : str
        ``stage 2 of 2, bolt 5 of 8, position 3``; empty where a step is not one of many.
    says : tuple of str
        What there is to read, a paragraph each.
    big : str
        What to show large: a number, or a word; empty where there is nothing.
    unit : str
        The unit of ``big``, plain.
    hint : tuple of str
        What goes with the number: the wrench, and the torque where the scale has another unit.
    setting : tuple
        The wrench's name and what it is set to; None where none is set.
    limits : Limits or None
        Of the reading that is due, or that may be typed.
    must : bool
        Whether the step asks for a reading before it is done.
    blocks : bool
        Whether nothing goes on before it has passed.
    opens : tuple of Recheck
        What is to be looked at again once it is done.
    """

    id: str
    kind: Kind
    number: int
    name: str
    asks: str
    spot: str = ""
    says: tuple[str, ...] = ()
    big: str = ""
    unit: str = ""
    hint: tuple[str, ...] = ()
    setting: tuple[str, Quantity] | None = None
    limits: Limits | None = None
    must: bool = False
    blocks: bool = False
    opens: tuple[Recheck, ...] = ()

    @property
    def title(self) -> str:
        """Its name and its spot in one line."""
        return f"{self.name}, {self.spot}" if self.spot else self.name


def steps_of(job: WorkedJob) -> tuple[RunStep, ...]:
    """Return the steps of a job in working order, the sign-off last."""
    met: Counter[str] = Counter()
    steps: list[RunStep] = []
    for part in job.steps:
        base = part.held.id if isinstance(part, WorkedJoint) else f"gate/{part.gate.name}"
        met[base] += 1
        ident = base if met[base] == 1 else f"{base}~{met[base]}"
        if isinstance(part, WorkedJoint):
            steps += _joint(part, ident)
        else:
            steps.append(_gate(part, ident))
    name = job.held.record.name
    return (*steps, RunStep(SIGN, "sign", len(job.steps), name, "the name of who signs it off"))


def fingerprint(job: WorkedJob) -> str:
    """Return a hash of the job's record and its joints' records, as they stand in their files."""
    held = {(job.held.id, job.held.text)} | {
        (joint.held.id, joint.held.text) for joint in job.joints
    }
    text = "\0".join(f"{ident}\n{words}" for ident, words in sorted(held))
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _gate(worked: WorkedGate, ident: str) -> RunStep:
    gate, number = worked.gate, worked.number
    tool = (f"with: {gate.tool}",) if gate.tool else ()
    blocks = "nothing goes on before this has passed" if gate.blocks else "it may be put off"
    says = (gate.why, blocks)
    if gate.measure is None:
        question = gate.question or ""
        return RunStep(
            ident, "gate", number, gate.name, question, says=(question, *tool, *says),
            blocks=gate.blocks,
        )  # fmt: skip
    measure = gate.measure
    limits = Limits(measure.what, measure.unit, measure.low, measure.high)
    return RunStep(
        ident,
        "gate",
        number,
        gate.name,
        f"{measure.what}: {limits.span} {measure.unit}",
        says=(measure.what, *tool, *says),
        big=limits.span,
        unit=measure.unit,
        limits=limits,
        must=True,
        blocks=gate.blocks,
    )


def _joint(joint: WorkedJoint, ident: str) -> list[RunStep]:
    record = joint.held.record
    steps = _ready(joint, ident)
    steps += _tightening(joint, ident)
    steps += _finish(joint, ident)
    rechecks = tuple(
        Recheck(f"{ident}: {one.what} after {one.after}", record.name, one.what, one.after)
        for one in record.rechecks
    )
    marks = [f"{one.what} after {one.after}" for one in record.rechecks if _MARK.search(one.what)]
    if marks:
        says = ("a line of paint across each head and onto the part", *marks)
        step = RunStep(f"{ident}/mark", "mark", joint.number, record.name, "a mark", says=says)
        steps.append(replace(step, spot="mark it"))
    steps[-1] = replace(steps[-1], opens=rechecks)
    return steps


def _ready(joint: WorkedJoint, ident: str) -> list[RunStep]:
    """Return the step before the first bolt; none where there is nothing to say."""
    record = joint.held.record
    findings = [
        f"{one.severity.word.upper()}: {one.message}"
        for one in joint.answer.findings
        if one.severity is not Severity.NOTE
    ]
    always = ["new fasteners, each time"] if record.reuse and record.reuse.always_new else []
    supplies = [f"at hand: {', '.join(record.supplies)}"] if record.supplies else []
    snug = [f"first {record.snug}"] if record.snug else []
    asks = [*always, *record.conditions, *snug, *supplies]
    says = (*findings, *asks, *([record.note] if record.note else []))
    if not says:
        return []
    step = RunStep(
        f"{ident}/ready", "ready", joint.number, record.name, "; ".join(asks),
        spot=f"before its {_bolts(record.count)}", says=says,
    )  # fmt: skip
    return [step]


def _tightening(joint: WorkedJoint, ident: str) -> list[RunStep]:
    """Return a step for each bolt at each stage of each pass, and for each time of waiting."""
    by_number = {one.number: one for one in joint.stages}
    last = _finishing(joint)
    waits = [one for one in joint.stages if isinstance(one.stage, notation.Wait)]
    steps = []
    for at, one_pass in enumerate(_passes(joint), 1):
        for number in one_pass.stages:
            while waits and waits[0].number <= number:
                steps.append(_wait(joint, ident, waits.pop(0)))
            if not isinstance(by_number[number].stage, notation.Wait):
                steps += _bolts_of(joint, ident, at, by_number[number], one_pass, last=last)
    return steps + [_wait(joint, ident, one) for one in waits]


def _passes(joint: WorkedJoint) -> tuple[WorkedPass, ...]:
    """Return the passes; one a stage for a joint of one bolt, which has none."""
    return joint.passes or tuple(WorkedPass((one.number,), (1,)) for one in joint.stages)


def _finishing(joint: WorkedJoint) -> WorkedStage | None:
    """Return the stage after which the torque is read: the last angle, where it has a window."""
    angles = [one for one in joint.stages if isinstance(one.stage, notation.Angle)]
    return angles[-1] if angles and angles[-1].window else None


def _bolts_of(
    joint: WorkedJoint,
    ident: str,
    at: int,
    stage: WorkedStage,
    one_pass: WorkedPass,
    *,
    last: WorkedStage | None,
) -> Iterator[RunStep]:
    """Yield a step for each bolt of one stage of one pass."""
    record = joint.held.record
    asks = notation.write((stage.stage,), plain=True)
    big, unit, hint = _number(stage)
    group = f", {one_pass.group}" if one_pass.group else ""
    count = len(joint.stages)
    turn = f"stage {stage.number} of {count}"
    if len(joint.passes) > len({number for one in joint.passes for number in one.stages}):
        turn += f", pass {at} of {len(joint.passes)}"  # a stage that is gone over more than once
    setting = (stage.wrench, stage.setting) if stage.setting else None
    limits = _window(*stage.window) if stage is last and stage.window else None
    for nth, position in enumerate(one_pass.order, 1):
        spot = f"{turn}{group}, bolt {nth} of {len(one_pass.order)}, position {position}"
        yield RunStep(
            f"{ident}/pass-{at}/stage-{stage.number}/position-{position}",
            "bolt",
            joint.number,
            record.name,
            asks,
            spot=spot,
            big=big,
            unit=unit,
            hint=hint,
            setting=setting,
            limits=limits,
        )


def _number(stage: WorkedStage) -> tuple[str, str, tuple[str, ...]]:
    """Return what to show large, its unit, and what goes with it.

    The number that the wrench is set to is the large one: it is the one that the hand needs,
    and no other unit can be mistaken for that of the scale.
    """
    if stage.setting:
        big, unit = number_text(stage.setting.value), stage.setting.unit
        hint = [f"set on {stage.wrench}"]
        if f"{big} {unit}" != stage.shown.replace("·", "."):
            aim = f", {stage.aim}" if stage.aim else ""
            hint.append(f"the job says {stage.shown}{aim}")
        return big, unit, tuple(hint)
    if isinstance(stage.stage, notation.Torque):
        big, _, unit = stage.shown.rpartition(" ")
        return big, unit.replace("·", "."), ("none of the wrenches can be set to this",)
    return stage.shown, "", ()


def _window(low: Quantity, high: Quantity) -> Limits:
    return Limits("torque at the end of the angle", low.unit, low.value, high.value)


def _wait(joint: WorkedJoint, ident: str, stage: WorkedStage) -> RunStep:
    return RunStep(
        f"{ident}/stage-{stage.number}",
        "wait",
        joint.number,
        joint.held.record.name,
        notation.write((stage.stage,), plain=True),
        spot=f"stage {stage.number} of {len(joint.stages)}",
        big=stage.shown,
    )


def _finish(joint: WorkedJoint, ident: str) -> list[RunStep]:
    """Return the reading after the last angle; none where no window is known."""
    last = _finishing(joint)
    if last is None or last.window is None:
        return []
    limits = _window(*last.window)
    name = joint.held.record.name
    says = ("what the wrench showed at the end of the angle, on the bolt that is furthest off",)
    step = RunStep(
        f"{ident}/finish", "finish", joint.number, name, f"torque after {_plain(last)}",
        spot="finishing torque", says=says, limits=limits, must=True,
        big=limits.span, unit=limits.unit,
    )  # fmt: skip
    return [step]


def _plain(stage: WorkedStage) -> str:
    return notation.write((stage.stage,), plain=True)


def _bolts(count: int) -> str:
    return "bolt" if count == 1 else f"{count} bolts"
