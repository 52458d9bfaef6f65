"""What a job is tightened with: wrenches, sockets and keys, gauges, and what is not covered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from torquebook import notation
from torquebook.catalogue.book import HEXAGON
from torquebook.jobs.parts import checks

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Wrench
    from torquebook.jobs.model import WorkedJob, WorkedJoint, WorkedStage

OLD_DIN: Final = " old DIN"
"""What the name of a head ends in whose width an older standard had otherwise."""
_ANGLE_GAUGE: Final = "angle gauge"
_PIPE_NUT: Final = "pipe nut"
_NUT: Final = "nut"
#: Kinds whose head is a hexagon where nothing else is said; a plug or a hub nut has its own.
_BOLTS: Final = frozenset({None, "stretch", "prevailing", "breakaway"})


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
        ``socket``, ``key``, or ``spanner``: one that holds the other end.
    size_mm : float
        Across flats, or of the key [mm].
    joints : tuple of str
    other_mm : tuple of float
        Where heads of the same kind and thread come in the older DIN width: that.
    drives : tuple of str
        Square drives of the wrenches that turn it.
    assumed : bool
        True where the records state no head, and a hexagon stands in.
    """

    kind: str
    size_mm: float
    joints: tuple[str, ...]
    other_mm: tuple[float, ...] = ()
    drives: tuple[str, ...] = ()
    assumed: bool = False


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
        Joints whose width is neither stated nor listed: measure it.
    crow_feet : tuple of str
        Joints whose nut sits on a pipe: no socket goes over it.
    gauges : dict of str to tuple of str
        What gates, angle stages and measurements of fasteners need, with their names.
    """

    job: WorkedJob
    wrenches: tuple[WrenchUse, ...]
    uncovered: tuple[Setting, ...]
    spanners: tuple[Spanner, ...]
    unsized: tuple[str, ...]
    crow_feet: tuple[str, ...]
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
    sized = {
        joint.held.record.name: tuple(_spanners(joint, book, job.wrenches)) for joint in joints
    }
    return Tools(
        job,
        uses,
        uncovered,
        _together(spanner for found in sized.values() for spanner in found),
        tuple(name for name, found in sized.items() if not found),
        tuple(
            joint.held.record.name
            for joint in joints
            if joint.held.record.fastener.kind == _PIPE_NUT
        ),
        _gauges(job, joints),
    )


def _spanners(joint: WorkedJoint, book: Book, wrenches: Iterable[Wrench]) -> Iterator[Spanner]:
    """Yield what turns a joint's fasteners, and what holds their other ends."""
    bolt = joint.held.record.fastener
    head = joint.head
    assumed = not bolt.head
    if assumed and bolt.kind in _BOLTS:
        head = book.head("", joint.thread)
    if head is None:
        return
    names = (joint.held.record.name,)
    used = {stage.wrench for stage in joint.stages}
    drives = tuple(dict.fromkeys(one.drive for one in wrenches if one.name in used))
    if head.across_flats_mm:
        size = head.across_flats_mm
        others = _other_widths(joint, book, head.head, size)
        yield Spanner("socket", size, names, others, drives, assumed=assumed)
    elif head.key_mm:
        yield Spanner("key", head.key_mm, names, (), drives, assumed=assumed)
    nut = book.head(_NUT, joint.thread)
    if joint.held.record.into == _NUT and not assumed and nut and nut.across_flats_mm:
        size = nut.across_flats_mm
        yield Spanner("spanner", size, names, _other_widths(joint, book, HEXAGON, size))


def _other_widths(joint: WorkedJoint, book: Book, head: str, size_mm: float) -> tuple[float, ...]:
    """Return the older DIN width of a head, or of a nut on it, where that differs."""
    return tuple(
        one.across_flats_mm
        for one in book.heads(joint.thread)
        if one.head == f"{head}{OLD_DIN}" and one.across_flats_mm not in {None, size_mm}
    )


def _together(spanners: Iterable[Spanner]) -> tuple[Spanner, ...]:
    """Return each size once, with the joints that need it and the drives that turn it."""
    found: dict[tuple[object, ...], Spanner] = {}
    for one in spanners:
        key = (one.kind, one.size_mm, one.other_mm, one.assumed)
        before = found.get(key, replace(one, joints=(), drives=()))
        drives = tuple(dict.fromkeys((*before.drives, *one.drives)))
        found[key] = replace(one, joints=(*before.joints, *one.joints), drives=drives)
    return tuple(sorted(found.values(), key=lambda one: (one.kind, one.size_mm, one.assumed)))


def _gauges(job: WorkedJob, joints: Iterable[WorkedJoint]) -> dict[str, tuple[str, ...]]:
    """Return what gates and angle stages need, in working order."""
    found: dict[str, list[str]] = {}
    for one in job.gates:
        if one.gate.tool:
            found.setdefault(one.gate.tool, []).append(one.gate.name)
    for joint in joints:
        if any(isinstance(stage.stage, notation.Angle) for stage in joint.stages):
            found.setdefault(_ANGLE_GAUGE, []).append(joint.held.record.name)
        for check in checks(joint):
            if check.tool and check.name not in found.setdefault(check.tool, []):
                found[check.tool].append(check.name)
    return {tool: tuple(names) for tool, names in found.items()}
