"""What a job needs before it begins: what to order, to have ready, and to measure first."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.lookup import plain
from torquebook.reuse.words import FEATURES

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from torquebook.jobs.model import WorkedJob, WorkedJoint
    from torquebook.records.job import Gate, Measure
    from torquebook.reuse.model import Comparison, Ruling

#: Features that are parts of their own, renewed without the bolt that they belong to.
LOOSE: Final = frozenset(
    (
        "cotter pin", "lock wire", "spring washer", "toothed washer", "tab washer",
        "crush washer", "bonded seal", "circlip", "roll pin", "dowel", "coil insert",
    )
)  # fmt: skip
#: Features of the nut of a joint rather than of its bolt, the most telling first.
OF_NUT: Final = (
    "nylon-insert nut", "all-metal locking nut", "castellated nut", "staked nut",
    "exhaust nut", "locking nut",
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
_UNMEASURED: Final = re.compile(r"^not (?:measured|counted)(?: at two places)?[,;] ")
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
    failing : Order or None
        What to order where a joint's fasteners do not pass; None for a gate.
    """

    name: str
    what: str
    measure: Measure | None
    tool: str
    why: str
    failing: Order | None = None


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
    orders = {joint.held.id: tuple(_orders(joint)) for joint in joints}
    firsts = [first for joint in joints for first in checks(joint)]
    firsts += [_gate(one.gate) for one in job.gates if _is_of_new(one.gate)]
    merged = _merged(order for found in orders.values() for order in found)
    return Parts(job, merged, _supplies(joints, orders), tuple(firsts))


def _orders(joint: WorkedJoint) -> Iterator[Order]:
    """Yield what is renewed of a joint: its bolts, their nuts, each of its small parts."""
    for ruling, *_ in _by_thing(joint):
        if ruling.verdict == "renew":
            yield _order(joint, ruling)


def _by_thing(joint: WorkedJoint) -> tuple[list[Ruling], ...]:
    """Return what is ruled of each thing of a joint, the ruling that counts first of each.

    A pin is renewed whatever is ruled of its bolt. Nuts that the maker always renews with
    their bolts are part of that order.
    """
    found: dict[str, list[Ruling]] = {}
    for ruling in joint.reuse.rulings:
        found.setdefault(_special(joint, ruling), []).append(ruling)
    bolt = found.get("", ())
    if bolt and bolt[0].is_makers and bolt[0].verdict == "renew":
        return tuple(rulings for thing, rulings in found.items() if thing not in OF_NUT)
    return tuple(found.values())


def decided(joint: WorkedJoint) -> dict[Item, tuple[Ruling, ...]]:
    """Return, for each thing of a joint, the rulings on it that count.

    The first, and where that is the maker's, what he says besides.
    """
    found = {}
    for first, *others in _by_thing(joint):
        besides = [one for one in others if first.is_makers and one.is_makers]
        found[_item(joint, _special(joint, first))] = (first, *besides)
    return found


def _special(joint: WorkedJoint, ruling: Ruling) -> str:
    """Return the small part or nut that a ruling is about; empty for the bolt itself."""
    has = joint.reuse.used.features
    meant = [feature for feature in ruling.rule.record.features if feature in has]
    if loose := [feature for feature in meant if feature in LOOSE]:
        return loose[0]
    if any(feature in OF_NUT for feature in meant):
        return next(feature for feature in OF_NUT if feature in has)
    return ""


def _order(joint: WorkedJoint, ruling: Ruling) -> Order:
    """Return the order of what a ruling is about."""
    limits, record = joint.held.record.reuse, ruling.rule.record
    source = limits.source if ruling.is_makers and limits else record.source.line
    item = _item(joint, _special(joint, ruling))
    return Order(joint.held.record.count, item, (joint.held.record.name,), record.why, source)


def _item(joint: WorkedJoint, special: str) -> Item:
    """Return a joint's small part or nut, else its bolt."""
    record, size = joint.held.record, joint.thread.size
    bolt = record.fastener
    if special in LOOSE:
        return Item(_described(special, record.supplies), size, is_small=True)
    if special:
        return Item(special, size, strength_class=bolt.nut or "")
    if bolt.kind == "adjusting":
        return Item("nut", size, strength_class=bolt.nut or "")
    what: str = bolt.kind if bolt.kind in _KINDS else "bolt"
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
    return next((supply for supply in supplies if _names(supply, feature)), feature)


def _names(supply: str, feature: str) -> bool:
    """Return whether a supply is a small part: ``copper washer, 22 mm`` is a crush washer."""
    return FEATURES.get(plain(supply.partition(",")[0])) == feature


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


def _supplies(
    joints: Iterable[WorkedJoint], orders: Mapping[str, Iterable[Order]]
) -> tuple[Supply, ...]:
    """Return what is to be had ready, each once; what a joint orders it does not name again."""
    found: dict[str, list[str]] = {}
    for joint in joints:
        ordered = {order.item.what for order in orders[joint.held.id]}
        for supply in joint.held.record.supplies:
            if supply not in ordered:
                found.setdefault(supply, []).append(joint.held.record.name)
    return tuple(Supply(what, tuple(names)) for what, names in found.items())


def checks(joint: WorkedJoint) -> Iterator[First]:
    """Yield what decides whether the fasteners of a joint go in again.

    Where the maker has several limits, all of them count.
    """
    for first, *others in decided(joint).values():
        if first.verdict != "measure":
            continue
        failing = _order(joint, first)
        for ruling in (first, *(one for one in others if one.verdict == "measure")):
            why = ruling.rule.record.why
            for one in ruling.comparisons:
                tool = GAUGES.get(one.check.quantity, "")
                yield First(joint.held.record.name, _said(one), None, tool, why, failing)


def _said(one: Comparison) -> str:
    """Return a check with its limit; that it is not measured yet goes without saying."""
    if one.check.quantity == "look":
        return one.said
    return f"{one.check.what}: {_UNMEASURED.sub('', one.said)}"


def _is_of_new(gate: Gate) -> bool:
    """Return whether a gate measures a new part, which may still go back to the shop."""
    measure = gate.measure
    return measure is not None and bool(_SPEAKS_OF_NEW.search(f"{gate.name} {measure.what}"))


def _gate(gate: Gate) -> First:
    what = gate.measure.what if gate.measure else ""
    return First(gate.name, what, gate.measure, gate.tool or "", gate.why)
