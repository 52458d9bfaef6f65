"""What a job is tightened with: wrenches, sockets and keys, gauges, and what is not covered."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from torquebook import notation

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Wrench
    from torquebook.jobs.model import WorkedJob, WorkedJoint, WorkedStage

OLD_DIN: Final = " old DIN"
"""What the name of a head ends in whose width an older standard had otherwise."""
_ANGLE_GAUGE: Final = "angle gauge"


@dataclass(frozen=True)
class Setting:
    """One stage of one joint on a wrench: ``shown`` is wanted, ``setting`` is set."""

    joint: str
    stage: WorkedStage


@dataclass(frozen=True)
class WrenchUse:
    """A wrench with every stage that it does."""

    wrench: Wrench
    settings: tuple[Setting, ...]


@dataclass(frozen=True)
class Spanner:
    """A socket, spanner or key by its size, with the joints that need it.

    Parameters
    ----------
    kind : str
        ``socket`` or ``key``.
    size_mm : float
        Across flats, or of the key [mm].
    joints : tuple of str
    other_mm : tuple of float
        Where heads of the same kind and thread come in other widths: those.
    """

    kind: str
    size_mm: float
    joints: tuple[str, ...]
    other_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Tools:
    """The tools of a job.

    Parameters
    ----------
    job : WorkedJob
    wrenches : tuple of WrenchUse
    uncovered : tuple of Setting
        Stages that none of the wrenches can be set to.
    spanners : tuple of Spanner
        By kind and size.
    unsized : tuple of str
        Joints whose head or size no table lists.
    gauges : dict of str to tuple of str
        What gates and angle stages need, with their names.
    """

    job: WorkedJob
    wrenches: tuple[WrenchUse, ...]
    uncovered: tuple[Setting, ...]
    spanners: tuple[Spanner, ...]
    unsized: tuple[str, ...]
    gauges: dict[str, tuple[str, ...]]


def tools(job: WorkedJob, book: Book) -> Tools:
    """Return what a job is tightened with.

    Parameters
    ----------
    job : WorkedJob
        Worked out with the wrenches at hand.
    book : Book
        For the widths of heads.
    """
    joints = tuple({joint.held.id: joint for joint in job.joints}.values())
    settings = [
        Setting(joint.held.record.name, stage) for joint in joints for stage in joint.stages
    ]
    uses = tuple(
        WrenchUse(wrench, found)
        for wrench in job.wrenches
        if (found := tuple(one for one in settings if one.stage.wrench == wrench.name))
    )
    uncovered = tuple(one for one in settings if not one.stage.covered)
    sized = {joint.held.record.name: tuple(_widths(joint, book)) for joint in joints}
    return Tools(
        job,
        uses,
        uncovered,
        _spanners(sized),
        tuple(name for name, widths in sized.items() if not widths),
        _gauges(job, joints),
    )


def _widths(joint: WorkedJoint, book: Book) -> Iterator[tuple[str, float]]:
    """Yield every width that a joint's heads and nuts may have, the newer standard's first."""
    head = joint.head or book.head("", joint.thread)
    if head is None:
        return
    kinds = {head.head, f"{head.head}{OLD_DIN}"}
    for one in sorted(book.heads(joint.thread), key=lambda one: one.head.endswith(OLD_DIN)):
        if one.head not in kinds:
            continue
        if one.across_flats_mm:
            yield "socket", one.across_flats_mm
        elif one.key_mm:
            yield "key", one.key_mm


def _spanners(sized: dict[str, tuple[tuple[str, float], ...]]) -> tuple[Spanner, ...]:
    """Return each size once, with the joints that need it."""
    found: dict[tuple[str, float], list[str]] = {}
    others: dict[tuple[str, float], set[float]] = {}
    for name, widths in sized.items():
        if not widths:
            continue
        found.setdefault(widths[0], []).append(name)
        others.setdefault(widths[0], set()).update(size for _, size in widths[1:])
    return tuple(
        Spanner(kind, size, tuple(names), tuple(sorted(others[kind, size] - {size})))
        for (kind, size), names in sorted(found.items())
    )


def _gauges(job: WorkedJob, joints: Iterable[WorkedJoint]) -> dict[str, tuple[str, ...]]:
    """Return what gates and angle stages need, in working order."""
    found: dict[str, list[str]] = {}
    for one in job.gates:
        if one.gate.tool:
            found.setdefault(one.gate.tool, []).append(one.gate.name)
    for joint in joints:
        if any(isinstance(stage.stage, notation.Angle) for stage in joint.stages):
            found.setdefault(_ANGLE_GAUGE, []).append(joint.held.record.name)
    return {tool: tuple(names) for tool, names in found.items()}
