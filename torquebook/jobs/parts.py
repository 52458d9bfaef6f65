"""What a job needs before it begins: what to order, to have ready, and to measure first."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.lookup import plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.jobs.model import WorkedJob, WorkedJoint
    from torquebook.records.job import Gate, Measure
    from torquebook.reuse.model import Ruling

#: Features that are parts of their own, renewed without the bolt that they belong to.
LOOSE: Final = frozenset(
    (
        "cotter pin", "lock wire", "spring washer", "toothed washer", "tab washer",
        "crush washer", "bonded seal", "circlip", "roll pin", "dowel", "coil insert",
    )
)  # fmt: skip
#: Features of the nut of a joint rather than of its bolt.
OF_NUT: Final = frozenset(
    (
        "locking nut", "nylon-insert nut", "all-metal locking nut", "castellated nut",
        "staked nut", "exhaust nut",
    )
)  # fmt: skip
#: What a check is measured with, by its quantity.
GAUGES: Final = {
    "growth": "micrometer",
    "length": "micrometer",
    "diameter": "micrometer",
    "diameter difference": "micrometer",
    "drag": "torque wrench with a dial",
}
_KINDS: Final = frozenset({"plug", "sensor", "nozzle", "pipe nut"})
_SPEAKS_OF_NEW: Final = re.compile(r"\b(?:new|old)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Item:
    """A thing that is bought.

    Parameters
    ----------
    what : str
        ``bolt``, ``nut``, ``plug``, or a small part: ``crush washer``, or as the joint's
        supplies describe it: ``copper washer, 22 mm``.
    thread : str
        Its thread, or that of the bolt which a small part belongs to.
    length_mm : float or None
        Of a bolt; None where the record does not state it.
    strength_class, head, nut : str
        Empty where not stated, and for small parts; ``nut`` is that which goes with a bolt.
    is_small : bool
        Whether it is a pin, a washer, a ring beside the bolt.
    """

    what: str
    thread: str
    length_mm: float | None = None
    strength_class: str = ""
    head: str = ""
    nut: str = ""
    is_small: bool = False


@dataclass(frozen=True)
class Order:
    """What to order, how many, for which joints, why, and by whose word."""

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
class First:
    """What is measured before parts are ordered or fitted.

    Parameters
    ----------
    name : str
        The joint, or the gate.
    what : str
    measure : Measure or None
        The limits of a gate; None where ``what`` says them.
    tool : str
        Empty where none is needed or stated.
    why : str
    """

    name: str
    what: str
    measure: Measure | None
    tool: str
    why: str


@dataclass(frozen=True)
class Parts:
    """The lists of a job."""

    job: WorkedJob
    orders: tuple[Order, ...]
    supplies: tuple[Supply, ...]
    firsts: tuple[First, ...]


def parts(job: WorkedJob) -> Parts:
    """Return what a job needs before it begins.

    Parts are put together only where they are alike in everything, and their length is known.

    Parameters
    ----------
    job : WorkedJob
    """
    joints = tuple({joint.held.id: joint for joint in job.joints}.values())
    orders = [order for joint in joints if (order := _order(joint))]
    firsts = [first for joint in joints for first in _checks(joint)]
    firsts += [_gate(one.gate) for one in job.gates if _is_of_new(one.gate)]
    return Parts(job, _merged(orders), _supplies(joints, orders), tuple(firsts))


def _order(joint: WorkedJoint) -> Order | None:
    """Return what is renewed of a joint, None if nothing is."""
    first = joint.reuse.rulings[0]
    if joint.reuse.verdict != "renew":
        return None
    limits = joint.held.record.reuse
    record = first.rule.record
    source = limits.source if first.is_makers and limits else record.source.line
    item = _item(joint, first)
    return Order(joint.held.record.count, item, (joint.held.record.name,), record.why, source)


def _item(joint: WorkedJoint, ruling: Ruling) -> Item:
    """Return the thing that a ruling has renewed."""
    record, size = joint.held.record, joint.thread.size
    bolt = record.fastener
    meant = [feature for feature in ruling.rule.record.features if feature in bolt.features]
    for feature in meant:
        if feature in LOOSE:
            return Item(_described(feature, record.supplies), size, is_small=True)
        if feature in OF_NUT:
            return Item(feature, size, strength_class=bolt.nut or "")
    what: str = bolt.kind if bolt.kind and bolt.kind in _KINDS else "bolt"
    if bolt.kind == "adjusting" or OF_NUT & set(bolt.features):
        return Item("nut", size, strength_class=bolt.nut or "")
    return Item(
        what,
        size,
        bolt.length_mm,
        bolt.strength_class or "",
        bolt.head or "",
        bolt.nut or "",
    )


def _described(feature: str, supplies: Iterable[str]) -> str:
    """Return a small part as the joint's supplies describe it, else by its kind."""
    kind = plain(feature).split()[-1]
    return next((supply for supply in supplies if kind in plain(supply)), feature)


def _merged(orders: Iterable[Order]) -> tuple[Order, ...]:
    """Return orders of like things as one."""
    found: dict[object, Order] = {}
    for order in orders:
        known = order.item.length_mm is not None
        key = (order.item, order.why, order.source) if known else order.joints
        if key in found:
            first = found[key]
            joints = (*first.joints, *order.joints)
            found[key] = replace(first, count=first.count + order.count, joints=joints)
        else:
            found[key] = order
    return tuple(found.values())


def _supplies(joints: Iterable[WorkedJoint], orders: Iterable[Order]) -> tuple[Supply, ...]:
    """Return what is to be had ready, each once; what is ordered is not named again."""
    ordered = {order.item.what for order in orders}
    found: dict[str, list[str]] = {}
    for joint in joints:
        for supply in joint.held.record.supplies:
            if supply not in ordered:
                found.setdefault(supply, []).append(joint.held.record.name)
    return tuple(Supply(what, tuple(names)) for what, names in found.items())


def _checks(joint: WorkedJoint) -> Iterator[First]:
    """Yield what decides whether the fasteners of a joint go in again."""
    ruling = joint.reuse.rulings[0]
    if joint.reuse.verdict != "measure":
        return
    for one in ruling.comparisons:
        tool = GAUGES.get(one.check.quantity, "")
        yield First(joint.held.record.name, one.said, None, tool, ruling.rule.record.why)


def _is_of_new(gate: Gate) -> bool:
    """Return whether a gate measures a new part, which may still go back to the shop."""
    measure = gate.measure
    return measure is not None and bool(_SPEAKS_OF_NEW.search(f"{gate.name} {measure.what}"))


def _gate(gate: Gate) -> First:
    what = gate.measure.what if gate.measure else ""
    return First(gate.name, what, gate.measure, gate.tool or "", gate.why)
