"""A job as the steps of a run: one screen each, every bolt of every stage its own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

from torquebook import notation, units
from torquebook.jobs.model import WorkedGate

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.jobs.model import WorkedJob, WorkedJoint, WorkedStage
    from torquebook.records.job import Gate

Kind = Literal["gate", "before", "bolt", "finish"]
YES_OR_NO: Final = "yes or no"


@dataclass(frozen=True)
class Reading:
    """What has to be read at a step, and its limits; one of them may be missing."""

    what: str
    unit: str
    low: float | None
    high: float | None


@dataclass(frozen=True)
class RunStep:
    """One step of a run.

    Parameters
    ----------
    id : str
        Names the step in a journal: alike in every run of the job as it stands.
    number : int
        Of the job's gate or joint, from 1.
    kind : str
        ``gate``; ``before`` for what a joint asks for before its bolts; ``bolt``; or ``finish``
        for the torque that the wrench shows at the end of an angle.
    title : str
        The gate's or the joint's name.
    big : str
        What is read from afar: a setting, an angle; empty where there is none.
    lines : tuple of str
        All else that is shown.
    reading : Reading or None
        What is typed in; None where nothing is.
    asks : str
        A question that is answered by yes or no; empty for none.
    blocks : bool
        Whether the work stops where a reading lies out of its limits.
    """

    id: str
    number: int
    kind: Kind
    title: str
    big: str = ""
    lines: tuple[str, ...] = ()
    reading: Reading | None = None
    asks: str = ""
    blocks: bool = False


def steps_of(job: WorkedJob) -> tuple[RunStep, ...]:
    """Return the steps of a job in working order.

    Parameters
    ----------
    job : WorkedJob
    """
    found: list[RunStep] = []
    for step in job.steps:
        if isinstance(step, WorkedGate):
            found.append(_gate(step.number, step.gate))
        else:
            found += _joint(step)
    return tuple(found)


def _gate(number: int, gate: Gate) -> RunStep:
    measure, reading, big = gate.measure, None, ""
    lines = [gate.question or "", gate.why]
    if measure is not None:
        reading = Reading(measure.what, measure.unit, measure.low, measure.high)
        lines[0], big = measure.what, limits_text(reading)
    lines += [f"with: {gate.tool}"] if gate.tool else []
    asks, blocks = gate.question or "", gate.blocks
    return RunStep(
        f"{number}/gate", number, "gate", gate.name, big, tuple(lines), reading, asks, blocks
    )


def limits_text(reading: Reading) -> str:
    """Return the limits of a reading with their unit."""
    low, high = (f"{end:g}" if end is not None else "" for end in (reading.low, reading.high))
    if low and high:
        return f"{low} to {high} {reading.unit}"
    return f"at most {high} {reading.unit}" if high else f"at least {low} {reading.unit}"


def _joint(joint: WorkedJoint) -> Iterator[RunStep]:
    record, number = joint.held.record, joint.number
    before = list(record.conditions)
    before += [f"snug: {record.snug}"] if record.snug else []
    before += [f"have ready: {', '.join(record.supplies)}"] if record.supplies else []
    before.append(f"what came out: {joint.reuse.verdict}")
    yield RunStep(f"{number}/before", number, "before", record.name, "", tuple(before))
    for index, passed in enumerate(joint.passes, 1):
        for at in passed.stages:
            stage = joint.stages[at - 1]
            for turn, position in enumerate(passed.order, 1):
                of = f"bolt {turn} of {len(passed.order)}, position {position}"
                group = f", {passed.group}" if passed.group else ""
                name = f"{number}/pass {index}/stage {at}/position {position}"
                yield _bolt(name, joint, stage, f"{of}{group}")
    if not joint.passes:
        for stage in joint.stages:
            yield _bolt(f"{number}/stage {stage.number}", joint, stage, "")
    window = joint.stages[-1].window if joint.stages else None
    if window is not None:
        low, high = window
        reading = Reading("the least torque that it showed", low.unit, low.value, high.value)
        lines = ("what the wrench showed at the end of the angle, the least of the bolts",)
        yield RunStep(f"{number}/finish", number, "finish", record.name, "", lines, reading)


def _bolt(name: str, joint: WorkedJoint, stage: WorkedStage, of: str) -> RunStep:
    said = f"stage {stage.number} of {len(joint.stages)}" if len(joint.stages) > 1 else ""
    lines = [", ".join(part for part in (of, said) if part)]
    big = stage.shown
    if stage.setting is not None:
        big = units.write(stage.setting)
        lines.append(f"{stage.shown} wanted, {stage.wrench} set to {big}")
    elif isinstance(stage.stage, notation.Torque):
        lines.append("no wrench at hand covers it")
    if stage.window is not None:
        low, high = stage.window
        ends = f"{units.write(low)} to {units.write(high)}"
        lines.append(f"the wrench should then show {ends}")
    said_lines = tuple(line for line in lines if line)
    return RunStep(name, joint.number, "bolt", joint.held.record.name, big, said_lines)
