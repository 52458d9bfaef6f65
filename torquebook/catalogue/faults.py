"""What a model refuses in a record: one message for each fault, with its place and its rule."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.lookup import close, near
from torquebook.catalogue.strict import KEY
from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.records.base import Disagreement
from torquebook.records.job import ID_PATTERN

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pydantic_core import ErrorDetails

    from torquebook.catalogue.strict import Positions, ValuePath
    from torquebook.records.base import Record

# The rules that a value breaks which its model refuses.
UNQUOTED: Final = "number-for-text"
QUOTED: Final = "text-for-number"
KEY_UNKNOWN: Final = "key-unknown"
KEY_MISSING: Final = "key-missing"
EMPTY: Final = "value-empty"
UNLISTED: Final = "value-unlisted"
OUTSIDE: Final = "value-outside"
MISSHAPEN: Final = "shape-wrong"
DISAGREE: Final = "facts-disagree"
_PLAIN: Final = {
    "missing": (KEY_MISSING, "the key {key} is missing", "write {key}: and a value"),
    "string_too_short": (EMPTY, "empty text", "write text, or take the key out"),
    "string_too_long": (OUTSIDE, "{value} is too long", "write {max_length} characters or fewer"),
    "string_pattern_mismatch": (
        UNLISTED,
        "{value} is no name",
        "write a name without | and ;, and without / or a space in front",
    ),
    "no_id": (
        UNLISTED,
        "{value} is no id of a record",
        "write small letters, digits, hyphens and points, and / between folders",
    ),
    "bool_type": (
        MISSHAPEN,
        "{value} is neither true nor false",
        "write true or false, without quotes",
    ),
    "list_type": (
        MISSHAPEN,
        "{value} stands where a list belongs",
        "write one - in front of each entry",
    ),
    "model_type": (MISSHAPEN, "{value} stands where keys belong", "write key: value for {keys}"),
    "dict_type": (MISSHAPEN, "{value} stands where keys belong", "write key: value"),
    "too_short": (EMPTY, "an empty list", "write at least one entry"),
    "too_few": (OUTSIDE, "too few entries", "write {min_length} or more"),
    "too_long": (OUTSIDE, "more entries than can be", "leave {max_length} of them"),
    "greater_than": (OUTSIDE, "{value} is too small", "write more than {gt:g}"),
    "greater_than_equal": (OUTSIDE, "{value} is too small", "write {ge:g} or more"),
    "less_than": (OUTSIDE, "{value} is too large", "write less than {lt:g}"),
    "less_than_equal": (OUTSIDE, "{value} is too large", "write {le:g} or less"),
}
_OTHER: Final = (UNLISTED, "{value} is not possible here", "see the schema of this kind")

#: A limit up to here is one of shares, not of per cent.
_LARGEST_SHARE: Final = 2


@dataclass(frozen=True, order=True)
class Fault:
    """One thing that is wrong in a record.

    Parameters
    ----------
    place : Place
    what : str
        What is wrong.
    right : str
        What would be right.
    rule : str
        The slug of the rule that says so.
    """

    place: Place
    what: str
    right: str
    rule: str

    @property
    def message(self) -> str:
        """What is wrong, and what would be right."""
        return f"{self.what}; {self.right}"

    @property
    def raised(self) -> Unreadable:
        """The fault as an exception."""
        return Unreadable(str(self.place), self.what, self.right, self.rule)


def place_of(path: ValuePath, positions: Positions, name: str) -> Place:
    """Return the place of a value, or of what holds it where it has none itself."""
    while path not in positions and path:
        path = path[:-1]
    return Place(name, *positions.get(path, (1, 1)))


def shown(value: Any) -> str:
    """Return a value as it is put into a message."""
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value[:60]}"' if isinstance(value, str) else f"{value}"


def fault_of(
    details: ErrorDetails, positions: Positions, name: str, text: str, model: type[Record]
) -> Fault:
    """Return a model's complaint in our words, with its place."""
    path: ValuePath = details["loc"]
    kind, value = details["type"], details["input"]
    context: Mapping[str, Any] = details.get("ctx", {})
    if kind == "extra_forbidden":
        place = place_of((*path, KEY), positions, name)
        keys = near(str(path[-1]), sorted(_keys(model)))
        right = f"write {' or '.join(keys)}" if keys else "take it out"
        return Fault(place, f'no key of the name "{path[-1]}"', right, KEY_UNKNOWN)
    place = place_of(path, positions, name)
    if kind == "value_error":
        error = context["error"]
        if isinstance(error, Disagreement):
            place = place_of((*path, error.key), positions, name)
        what, _, right = str(error).partition("; ")
        return Fault(place, what, right, DISAGREE)
    if kind in {"string_type", "float_type", "int_type"}:
        return Fault(place, *_wrong_type(kind, value, place, text))
    if kind == "literal_error":
        what = f"{shown(value)} is not possible here"
        return Fault(place, what, _choices(value, context), UNLISTED)
    if kind == "less_than_equal" and value / 100 <= context["le"] <= _LARGEST_SHARE:
        return Fault(place, *_per_cent(value), OUTSIDE)
    rule, what, right = _PLAIN.get(_finer(kind, value, context), _OTHER)
    words = {"key": path[-1] if path else "", "value": shown(value), **context}
    if kind == "model_type":
        words["keys"] = _keys_of(context["class_name"], model)
    return Fault(place, what.format(**words), right.format(**words), rule)


def _finer(kind: str, value: Any, context: Mapping[str, Any]) -> str:
    """Return the kind of a complaint, where one of the model's kinds is more than one of ours."""
    if kind == "too_short" and value:
        return "too_few"
    if kind == "string_pattern_mismatch":
        if not value:
            return "string_too_short"
        return "no_id" if context["pattern"] == ID_PATTERN else kind
    return kind


def _per_cent(value: float) -> tuple[str, str]:
    """Return the message for a percentage where a share belongs."""
    return f"{value:g} is too large for a share", f"write {value / 100:g} for {value:g} %"


def without_misspelt(every: list[ErrorDetails]) -> list[ErrorDetails]:
    """Leave out that a key is missing where an unknown key beside it is that key misspelt."""
    unknown = [details["loc"] for details in every if details["type"] == "extra_forbidden"]

    def misspelt(details: ErrorDetails) -> bool:
        *above, key = details["loc"] or ("",)
        beside = [str(loc[-1]) for loc in unknown if list(loc[:-1]) == above]
        return details["type"] == "missing" and bool(close(str(key), beside))

    return [details for details in every if not misspelt(details)]


def _choices(value: Any, context: Mapping[str, Any]) -> str:
    """Return what may be written instead, the likest first where one is alike."""
    expected = str(context.get("expected", ""))
    alike = close(f"{value}", re.findall(r"'([^']*)'", expected))
    if alike:
        return "write " + " or ".join(f'"{word}"' for word in alike)
    return "write " + expected.replace("'", '"')


def written_at(line: str, column: int) -> str:
    """Return the number or truth value as it is written in a line, from a column on."""
    return re.split(r"[^-+.\w]", line[column - 1 :], maxsplit=1, flags=re.ASCII)[0]


def _unquoted(value: float, place: Place, text: str) -> tuple[str, str]:
    """Return the message for a number or a truth value where text belongs."""
    written = written_at(text.splitlines()[place.line - 1], place.column) or shown(value)
    if isinstance(value, bool):
        return f"{written} is read as a truth value", f'write "{written}" in quotes'
    return f"{written} is read as the number {value:g}", f'write "{written}" in quotes'


def _wrong_type(kind: str, value: Any, place: Place, text: str) -> tuple[str, str, str]:
    """Return the message for a value of the wrong type."""
    if kind == "string_type" and isinstance(value, (int, float)):
        return (*_unquoted(value, place, text), UNQUOTED)
    if kind == "string_type":
        return f"{shown(value)} stands where text belongs", "write text", MISSHAPEN
    if isinstance(value, str) and re.fullmatch(r"\s*[-+]?\d+(?:\.\d+)?\s*", value, re.ASCII):
        return f"{shown(value)} is text", f"write {value.strip()} without quotes", QUOTED
    rule = QUOTED if isinstance(value, str) else MISSHAPEN
    if kind == "int_type":
        return f"{shown(value)} stands where a whole number belongs", "write digits only", rule
    right = "write digits only, with a point for decimals"
    return f"{shown(value)} stands where a number belongs", right, rule


def _keys_of(part: str, model: Any) -> str:
    """Return the keys that a part of a record must hold; all that it can, where none must."""
    schema = model.model_json_schema()
    schema = schema.get("$defs", {}).get(part, schema)
    return ", ".join(schema.get("required") or schema["properties"])


def _keys(model: Any) -> set[str]:
    """Return the names of all keys that a kind of record can hold."""
    schema = model.model_json_schema()
    parts = [schema, *schema.get("$defs", {}).values()]
    return {key for part in parts for key in part.get("properties", {})}
