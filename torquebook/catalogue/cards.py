"""Cards: what ``look`` finds and shows of a record, as plain values that need no model."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final

from torquebook import notation
from torquebook.errors import TorquebookError
from torquebook.records.classes import StrengthClasses
from torquebook.records.joint import JointRecord
from torquebook.records.nuts import NutClasses
from torquebook.records.threads import InchThreads, MetricThreads
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.store.writing import Card
    from torquebook.records.base import Record

_APART: Final = {"kind", "title", "name", "aliases"}
#: Records that hold many things of one kind: the key of the list, what each is called, and the
#: kind of its card.
_MEMBERS: Final[dict[type[Record], tuple[str, str, str]]] = {
    MetricThreads: ("threads", "size", "thread"),
    InchThreads: ("threads", "size", "thread"),
    StrengthClasses: ("classes", "name", "class"),
    NutClasses: ("classes", "name", "nut class"),
}


def cards_of(record: Record, name: str) -> tuple[Card, ...]:
    """Return a record's cards: one, or one for each size or class of a standard's table.

    Parameters
    ----------
    record : Record
    name : str
        Its id.
    """
    held = record.model_dump(mode="json", by_alias=True, exclude_defaults=True, exclude_none=True)
    facts = {key: value for key, value in held.items() if key not in _APART}
    if type(record) in _MEMBERS:
        return tuple(_members(record, name, facts))
    if isinstance(record, JointRecord):
        facts = {"stages": _stages(record.tighten), **facts}
    called = held.get("name", record.title)
    return (_card(name, record.kind, called, record, facts, held.get("aliases", [])),)


def _card(
    name: str, kind: str, called: str, record: Record, facts: dict[str, Any], also: list[str]
) -> Card:
    about = {"id": name, "kind": kind, "name": called, "also": also, "title": record.title}
    return {**about, "source": record.source.line, "facts": facts}


def _members(record: Record, name: str, facts: dict[str, Any]) -> Iterator[Card]:
    """Yield a card for each size or class; a class has all its ranges on one."""
    listed, called, kind = _MEMBERS[type(record)]
    about = {key: value for key, value in facts.items() if key != listed}
    grouped: dict[str, list[dict[str, Any]]] = {}
    for entry in facts[listed]:
        grouped.setdefault(entry[called], []).append(entry)
    for one, entries in grouped.items():
        held = [{key: entry[key] for key in entry if key != called} for entry in entries]
        said = held[0] if len(held) == 1 else {"ranges": held}
        yield _card(f"{name}:{one}", kind, one, record, {**said, **about}, [])


@lru_cache(maxsize=4096)
def _stages(tighten: str) -> list[dict[str, Any]]:
    """Return the stages as sheets print them, with the torque to set [N·m]; none if in doubt."""
    try:
        stages = notation.read(tighten)
    except TorquebookError:
        return []
    return [{"said": notation.write([stage]), **_torque(stage)} for stage in stages]


def _torque(stage: notation.Stage) -> dict[str, Any]:
    """Return the torque to set in its own unit and in N·m, nothing for what is no torque."""
    if not isinstance(stage, notation.Torque):
        return {"value": None, "unit": None, "nm": None}
    nm = stage.band.nominal
    return {"value": float(f"{nm / FACTORS[stage.unit][1]:.9g}"), "unit": stage.unit, "nm": nm}
