"""Read records through their models: one message for each fault, with its place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, NamedTuple

from pydantic import ValidationError

from torquebook.catalogue.faults import (
    EMPTY,
    KEY_MISSING,
    Fault,
    fault_of,
    place_of,
    shown,
    without_misspelt,
)
from torquebook.catalogue.lookup import near
from torquebook.catalogue.strict import load
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.strict import Positions, ValuePath
    from torquebook.records.base import Record

KIND_UNKNOWN: Final = "kind-unknown"


class Reading(NamedTuple):
    """What was read of one record.

    Parameters
    ----------
    record : Record or None
        None if it has faults.
    faults : tuple of Fault
        In the order of the file.
    data : object
        What the text holds, as plain values.
    positions : mapping
        The line and column of every value and key.
    """

    record: Record | None
    faults: tuple[Fault, ...]
    data: Any
    positions: Positions


def vet_text(text: str, name: str) -> tuple[Record | None, tuple[Fault, ...]]:
    """Read one record from text; give all its faults at once.

    Parameters
    ----------
    text, name : str
        YAML, and the name of the file that it stands in.

    Returns
    -------
    tuple
        The record, None if it has faults; and the faults in the order of the file.

    Raises
    ------
    Unreadable
        If the text is no YAML that the strict reader takes.
    """
    return reading(text, name)[:2]


def reading(text: str, name: str) -> Reading:
    """Read one record from text, and say all that was read.

    Raises
    ------
    Unreadable
        As ``vet_text``.
    """
    data, positions = load(text, name)
    faults = list(_empty(data, positions, name))
    model = KINDS.get(data.get("kind", "")) if isinstance(data, dict) and _texts(data) else None
    if model is None:
        faults.append(_no_kind(data, positions, name))
        return Reading(None, tuple(sorted(faults)), data, positions)
    record: Record | None = None
    try:
        record = model.model_validate(data)
    except ValidationError as error:
        spots = {fault.place for fault in faults}
        every = without_misspelt(error.errors())
        found = (fault_of(details, positions, name, text, model) for details in every)
        faults += [fault for fault in found if fault.place not in spots]
    return Reading(None if faults else record, tuple(sorted(faults)), data, positions)


def _texts(data: dict[str, Any]) -> bool:
    return isinstance(data.get("kind", ""), str)


def _empty(data: Any, positions: Positions, name: str) -> list[Fault]:
    """Return a fault for each key without a value."""
    right = "write one, or take the key out"
    return [
        Fault(place_of(path, positions, name), "no value", right, EMPTY)
        for path in _without_value(data, ())
    ]


def _without_value(value: Any, path: ValuePath) -> Iterator[ValuePath]:
    """Yield the path of every null; what is read is never nested deeper than a stack can be."""
    if value is None:
        yield path
    elif isinstance(value, dict):
        for key, held in value.items():
            yield from _without_value(held, (*path, key))
    elif isinstance(value, list):
        for index, held in enumerate(value):
            yield from _without_value(held, (*path, index))


def _no_kind(data: Any, positions: Positions, name: str) -> Fault:
    """Return the fault of a record whose kind is not known."""
    every = "write one of: " + ", ".join(KINDS)
    if not isinstance(data, dict) or "kind" not in data:
        return Fault(place_of((), positions, name), "the key kind is missing", every, KEY_MISSING)
    place, written = place_of(("kind",), positions, name), data["kind"]
    alike = near(written, list(KINDS)) if isinstance(written, str) else ()
    right = f"write {' or '.join(alike)}" if alike else every
    return Fault(place, f"{shown(written)} is no kind of record", right, KIND_UNKNOWN)
