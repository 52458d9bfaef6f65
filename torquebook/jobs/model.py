"""A job worked out: every step with its figures, ready to be bought for, printed or run."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from torquebook.catalogue.library import Held
    from torquebook.catalogue.shelves import HeadSize, Thread, Wrench
    from torquebook.findings import Finding
    from torquebook.notation import Stage
    from torquebook.records.job import Gate, JobRecord, Removal
    from torquebook.records.joint import JointRecord
    from torquebook.reuse.model import ReuseAnswer
    from torquebook.rules.judge import LineAnswer
    from torquebook.units import Quantity


@dataclass(frozen=True)
class WorkedStage:
    """One stage of a joint, for my unit and my wrench.

    Parameters
    ----------
    number : int
        From 1, as ``passes`` counts them.
    stage : Stage
        As the record says it.
    shown : str
        In the job's unit, as a sheet prints it: ``60 N·m``, ``+60°``.
    wrench : str
        The wrench's name; empty for a stage that needs none, or where no wrench covers it.
    setting : Quantity or None
        What to set, in the unit of the wrench's scale.
    window : tuple of Quantity or None
        After an angle: the least and the most that the wrench should then show, in the job's
        unit.
    aim : str
        What of a printed range the setting is: ``the middle of the range``; empty for a single
        value.
    covered : bool
        False for a torque that none of the wrenches can be set to.
    """

    number: int
    stage: Stage
    shown: str
    wrench: str = ""
    setting: Quantity | None = None
    window: tuple[Quantity, Quantity] | None = None
    aim: str = ""
    covered: bool = True


@dataclass(frozen=True)
class WorkedPass:
    """One way over the positions: which stages, in which order, of which group."""

    stages: tuple[int, ...]
    order: tuple[int, ...]
    group: str = ""


@dataclass(frozen=True)
class WorkedGate:
    """One gate of the job, with its place in the working order from 1."""

    number: int
    gate: Gate


@dataclass(frozen=True)
class WorkedJoint:
    """One joint of the job.

    Parameters
    ----------
    number : int
        Its place in the working order, from 1; 0 for a joint that is only taken off.
    held : Held of JointRecord
    thread : Thread
    head : HeadSize or None
        The head that the record states; None without one, or where no table lists it.
    answer : LineAnswer
        What the validator says of it.
    stages : tuple of WorkedStage
    passes : tuple of WorkedPass
        Empty for one bolt.
    spots : tuple of tuple of float
        Where the positions lie, x to the right and y up [mm]; empty where that is not known.
    reuse : ReuseAnswer
    """

    number: int
    held: Held[JointRecord]
    thread: Thread
    head: HeadSize | None
    answer: LineAnswer
    stages: tuple[WorkedStage, ...]
    passes: tuple[WorkedPass, ...]
    spots: tuple[tuple[float, float], ...]
    reuse: ReuseAnswer


@dataclass(frozen=True)
class WorkedJob:
    """A job with all its steps.

    Parameters
    ----------
    held : Held of JobRecord
    removal : tuple of tuple
        The steps of taking apart: the record's entry, the joint, and the order of loosening.
    steps : tuple of WorkedGate and WorkedJoint
        In working order.
    findings : tuple of Finding
        What the validator says of the whole, worst first.
    unit : str
        Plain name of the unit that torques are shown in.
    wrenches : tuple of Wrench
        Those that were looked at: the ones named, else the user's own, else the demo book's.
    """

    held: Held[JobRecord]
    removal: tuple[tuple[Removal, WorkedJoint, tuple[int, ...]], ...]
    steps: tuple[WorkedGate | WorkedJoint, ...]
    findings: tuple[Finding, ...]
    unit: str = "N.m"
    wrenches: tuple[Wrench, ...] = ()

    @property
    def joints(self) -> tuple[WorkedJoint, ...]:
        """The joints in working order."""
        return tuple(step for step in self.steps if isinstance(step, WorkedJoint))

    @property
    def gates(self) -> tuple[WorkedGate, ...]:
        """The gates in working order."""
        return tuple(step for step in self.steps if isinstance(step, WorkedGate))
