"""Read records through their models: one message for each fault, with its place."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from torquebook.catalogue.lookup import close, near
from torquebook.catalogue.plaintext import read_text
from torquebook.catalogue.strict import KEY, load
from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from pydantic_core import ErrorDetails

    from torquebook.catalogue.strict import Positions, ValuePath
    from torquebook.records.base import Record

_PLAIN = {
    "missing": ("the key {key} is missing", "write {key}: and a value"),
    "string_too_short": ("empty text", "write text, or take the key out"),
    "string_too_long": ("{value} is too long", "shorten it"),
    "string_pattern_mismatch": ("{value} is no name", "write a name without | and ;"),
    "bool_type": ("{value} is neither true nor false", "write true or false, without quotes"),
    "list_type": ("{value} stands where a list belongs", "write one - in front of each entry"),
    "model_type": ("{value} stands where keys belong", "write key: value"),
    "dict_type": ("{value} stands where keys belong", "write key: value"),
    "too_short": ("an empty list", "write at least one entry"),
    "greater_than": ("{value} is too small", "write more than {gt:g}"),
    "greater_than_equal": ("{value} is too small", "write {ge:g} or more"),
    "less_than": ("{value} is too large", "write less than {lt:g}"),
    "less_than_equal": ("{value} is too large", "write {le:g} or less"),
}


#: A limit up to here is one of shares, not of per cent.
LARGEST_SHARE = 2


@dataclass(frozen=True, order=True)
class Fault:
    """One thing that is wrong in a record."""

    place: Place
    what: str
    right: str

    @property
    def message(self) -> str:
        """What is wrong, and what would be right."""
        return f"{self.what}; {self.right}"

    @property
    def raised(self) -> Unreadable:
        """The fault as an exception."""
        return Unreadable(str(self.place), self.what, self.right)


def vet_file(path: Path) -> tuple[Record | None, tuple[Fault, ...]]:
    """Read one record; give all its faults at once.

    Parameters
    ----------
    path : Path
        A YAML file.

    Returns
    -------
    tuple
        The record, None if it has faults; and the faults in the order of the file.

    Raises
    ------
    Unreadable
        If the file is no YAML that the strict reader takes.
    """
    return vet_text(read_text(path), str(path))


def vet_text(text: str, name: str) -> tuple[Record | None, tuple[Fault, ...]]:
    """Read one record from text, as ``vet_file``."""
    data, positions = load(text, name)
    faults = list(_empty(data, positions, name))
    model = KINDS.get(data.get("kind", "")) if isinstance(data, dict) and _texts(data) else None
    if model is None:
        return None, tuple(sorted([*faults, _no_kind(data, positions, name)]))
    try:
        record = model.model_validate(data)
    except ValidationError as error:
        spots = {fault.place for fault in faults}
        every = _without_misspelt(error.errors())
        found = (_fault(details, positions, name, text, model) for details in every)
        faults += [fault for fault in found if fault.place not in spots]
    return (None if faults else record), tuple(sorted(faults))


def _texts(data: dict[str, Any]) -> bool:
    return isinstance(data.get("kind", ""), str)


def _place(path: ValuePath, positions: Positions, name: str) -> Place:
    """Return the place of a value, or of what holds it where it has none itself."""
    while path not in positions and path:
        path = path[:-1]
    return Place(name, *positions.get(path, (1, 1)))


def _empty(data: Any, positions: Positions, name: str) -> list[Fault]:
    """Return a fault for each key without a value."""
    faults = []
    for path in positions:
        value = data
        for step in path[: -1 if path and path[-1] == KEY else None]:
            value = value[step]
        if value is None and not (path and path[-1] == KEY):
            place = _place(path, positions, name)
            faults.append(Fault(place, "no value", "write one, or take the key out"))
    return faults


def _no_kind(data: Any, positions: Positions, name: str) -> Fault:
    """Return the fault of a record whose kind is not known."""
    right = "write one of: " + ", ".join(KINDS)
    if not isinstance(data, dict) or "kind" not in data:
        return Fault(_place((), positions, name), "the key kind is missing", right)
    place = _place(("kind",), positions, name)
    return Fault(place, f"{_shown(data['kind'])} is no kind of record", right)


def _shown(value: Any) -> str:
    """Return a value as it is put into a message."""
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value[:60]}"' if isinstance(value, str) else f"{value}"


def _fault(
    details: ErrorDetails, positions: Positions, name: str, text: str, model: type[Record]
) -> Fault:
    """Return a validator's complaint in our words, with its place."""
    path: ValuePath = details["loc"]
    kind, value = details["type"], details["input"]
    context: Mapping[str, Any] = details.get("ctx", {})
    if kind == "extra_forbidden":
        place = _place((*path, KEY), positions, name)
        keys = near(str(path[-1]), sorted(_keys(model)))
        right = f"write {' or '.join(keys)}" if keys else "take it out"
        return Fault(place, f'no key of the name "{path[-1]}"', right)
    place = _place(path, positions, name)
    if kind == "value_error":
        what, _, right = str(context["error"]).partition("; ")
        return Fault(place, what, right)
    if kind in {"string_type", "float_type", "int_type"}:
        return Fault(place, *_wrong_type(kind, value, place, text))
    if kind == "literal_error":
        return Fault(place, f"{_shown(value)} is not possible here", _choices(context))
    if kind == "less_than_equal" and value / 100 <= context["le"] <= LARGEST_SHARE:
        return Fault(place, *_per_cent(value))
    what, right = _PLAIN.get(kind, ("{value} is not possible here", "see the schema of this kind"))
    words = {"key": path[-1] if path else "", "value": _shown(value), **context}
    return Fault(place, what.format(**words), right.format(**words))


def _per_cent(value: float) -> tuple[str, str]:
    """Return the message for a percentage where a share belongs."""
    return f"{value:g} is too large for a share", f"write {value / 100:g} for {value:g} %"


def _without_misspelt(every: list[ErrorDetails]) -> list[ErrorDetails]:
    """Leave out that a key is missing where an unknown key beside it is that key misspelt."""
    unknown = [details["loc"] for details in every if details["type"] == "extra_forbidden"]

    def misspelt(details: ErrorDetails) -> bool:
        *above, key = details["loc"] or ("",)
        beside = [str(loc[-1]) for loc in unknown if list(loc[:-1]) == above]
        return details["type"] == "missing" and bool(close(str(key), beside))

    return [details for details in every if not misspelt(details)]


def _choices(context: Mapping[str, Any]) -> str:
    return "write " + str(context.get("expected", "")).replace("'", '"')


def _unquoted(value: float, place: Place, text: str) -> tuple[str, str]:
    """Return the message for a number or a truth value where text belongs."""
    line = text.splitlines()[place.line - 1][place.column - 1 :]
    found = re.match(r"[-+.\w]+", line, re.ASCII)
    written = found.group() if found else _shown(value)
    if isinstance(value, bool):
        return f"{written} is read as a truth value", f'write "{written}" in quotes'
    return f"{written} is read as the number {value:g}", f'write "{written}" in quotes'


def _wrong_type(kind: str, value: Any, place: Place, text: str) -> tuple[str, str]:
    """Return the message for a value of the wrong type."""
    if kind == "string_type" and isinstance(value, (int, float)):
        return _unquoted(value, place, text)
    if kind == "string_type":
        return f"{_shown(value)} stands where text belongs", "write text"
    if isinstance(value, str) and re.fullmatch(r"\s*[-+]?\d+(?:\.\d+)?\s*", value, re.ASCII):
        return f"{_shown(value)} is text", f"write {value.strip()} without quotes"
    return f"{_shown(value)} stands where a number belongs", "write a number with a point"


def _keys(model: Any) -> set[str]:
    """Return the names of all keys that a kind of record can hold."""
    schema = model.model_json_schema()
    parts = [schema, *schema.get("$defs", {}).values()]
    return {key for part in parts for key in part.get("properties", {})}
