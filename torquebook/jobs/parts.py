"""What a job needs before it begins: what to order, to have ready, and to measure first."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from torquebook.jobs.model import WorkedJob
    from torquebook.records.job import Measure
    from torquebook.records.reuse import Feature

#: Parts of their own, which are renewed without the bolt that they belong to.
LOOSE: Final[frozenset[Feature]] = frozenset(
    {"cotter pin", "lock wire", "spring washer", "toothed washer", "tab washer", "crush washer"}
    | {"bonded seal", "circlip", "roll pin", "dowel", "coil insert"}
)
#: Features of the nut of a joint rather than of its bolt.
OF_NUT: Final[frozenset[Feature]] = frozenset(
    {"locking nut", "nylon-insert nut", "all-metal locking nut", "castellated nut"}
    | {"staked nut", "exhaust nut"}
)
STUD: Final[Feature] = "exhaust stud"
_THINGS: Final = frozenset({"plug", "sensor", "nozzle", "pipe nut"})
#: What a check is measured with, by its quantity; and words of one that is looked at.
_GAUGES: Final = {
    "growth": "micrometer",
    "length": "micrometer",
    "diameter": "micrometer",
    "diameter difference": "micrometer",
    "drag": "torque wrench with a dial",
}
_BY_EYE: Final = (("straight edge", "straight edge"), ("thread gauge", "thread gauge"))
_NEW: Final = re.compile(r"\b(?:new|old)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Item:
    """A thing that is bought.

    Parameters
    ----------
    what : str
        ``bolt``, ``nut``, ``plug``, or a small part such as ``crush washer``.
    thread : str
        Its thread, or that of the bolt which a small part belongs to.
    length_mm : float or None
        Of a bolt; None where the record does not state it.
    strength_class, head, nut : str
        Empty where not stated, and for small parts; ``nut`` is the class of a nut that goes
        with the bolt.
    described : str
        A small part as the record's supplies describe it: ``copper washer, 22 mm``.
    """

    what: str
    thread: str
    length_mm: float | None = None
    strength_class: str = ""
    head: str = ""
    nut: str = ""
    described: str = ""

    @property
    def is_known(self) -> bool:
        """Whether it is described so well that two alike are the same part."""
        return self.length_mm is not None or bool(self.described)


@dataclass(frozen=True)
class Renewal:
    """What to order, how often, for which joints, and why.

    Parameters
    ----------
    count : int
    item : Item
    joints : tuple of str
    why : str
    source : str
        Of the verdict; where the maker's limit counts, of that limit.
    """

    count: int
    item: Item
    joints: tuple[str, ...]
    why: str
    source: str


@dataclass(frozen=True)
class Supply:
    """What to have ready: locker, sealant, wire."""

    what: str
    joints: tuple[str, ...]


@dataclass(frozen=True)
class FastenerCheck:
    """What decides whether the fasteners of a joint go in again.

    Parameters
    ----------
    joint : str
    what, limit, tool : str
        ``tool`` is empty where none is needed.
    failing : Renewal
        What to order where it is not kept.
    """

    joint: str
    what: str
    limit: str
    tool: str
    failing: Renewal


@dataclass(frozen=True)
class GateCheck:
    """A measurement of one of the job's gates.

    Parameters
    ----------
    gate : str
    measure : Measure
    tool, why : str
    first : bool
        True for one that speaks of new or old parts: it is measured before they are fitted.
    """

    gate: str
    measure: Measure
    tool: str
    why: str
    first: bool


@dataclass(frozen=True)
class Parts:
    """The lists of a job.

    Parameters
    ----------
    job : WorkedJob
    renewals : tuple of Renewal
    supplies : tuple of Supply
    fastener_checks : tuple of FastenerCheck
    gate_checks : tuple of GateCheck
        Those of new parts first, then in working order.
    """

    job: WorkedJob
    renewals: tuple[Renewal, ...]
    supplies: tuple[Supply, ...]
    fastener_checks: tuple[FastenerCheck, ...]
    gate_checks: tuple[GateCheck, ...]


def parts(job: WorkedJob) -> Parts:
    """Return what a job needs before it begins.

    Parts that are alike in everything and renewed for the same reason are one line; a part
    that the records do not describe in full is never taken for another one.

    Parameters
    ----------
    job : WorkedJob
    """
    joints = {joint.held.id: joint for joint in job.joints}.values()
    gates = [
        GateCheck(
            gate.name,
            gate.measure,
            gate.tool or "",
            gate.why,
            first=_speaks_of_new(gate.measure.what, gate.name),
        )
        for gate in (one.gate for one in job.gates)
        if gate.measure is not None
    ]
    return Parts(
        job,
        _merged([renewal for joint in joints for renewal in _renewals(joint)]),
        _supplies(joints),
        tuple(check for joint in joints for check in _checks(joint)),
        tuple(sorted(gates, key=lambda one: not one.first)),
    )
