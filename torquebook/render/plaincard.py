"""A card: the facts of one record as they stand, in a plain list, and their source."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.render.figures import figures
from torquebook.render.paper import WIDTH

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from torquebook.answers.cards import Looked
    from torquebook.catalogue.store.writing import Card
    from torquebook.render.paper import Paper

#: What the ending of a key says of its number.
_UNITS: Final = {"mm": " mm", "mpa": " MPa", "deg": "°", "pct": " %", "in": " in"}
_UNSAID: Final = "not stated"
_BAND: Final = ("low", "nominal", "high")
_DIGITS: Final = 6
_LEAST_ROWS: Final = 2
_SOURCE: Final = frozenset({"source"})


def text(answer: Looked, paper: Paper) -> None:
    """Write the card of any kind of record."""
    card = answer.card or {}
    title(card, paper)
    facts = {key: value for key, value in card["facts"].items() if key not in _SOURCE}
    tables = {key: value for key, value in facts.items() if _is_table(value)}
    rows = list(facts_of(facts, leave=tables))
    if rows:
        paper.gap()
        paper.columns(rows)
    for key, entries in tables.items():
        paper.heading(_parted(key)[0])
        paper.columns(list(_table(entries)))
    source(card, paper)


def title(card: Card, paper: Paper) -> None:
    """Write what it is, how else it is called, and its id."""
    paper.heading(card["name"])
    if card["title"] != card["name"]:
        paper.text(card["title"], 2)
    if card["also"]:
        paper.text(f"also: {', '.join(card['also'])}", 2, 4)
    paper.text(f"{card['kind']} {card['id']}", 2, 4)


def source(card: Card, paper: Paper) -> None:
    """Write where the facts come from, and what they hold for."""
    said: Mapping[str, str] = card["facts"]["source"]
    paper.gap()
    paper.text(f"Source: {card['source']}", 0, 2)
    for key in ("conditions", "provenance"):
        if said.get(key, _UNSAID) != _UNSAID:
            paper.text(f"{key}: {said[key]}", 2, 4)


def facts_of(
    facts: Mapping[str, Any], leave: Mapping[str, Any] | frozenset[str]
) -> Iterator[tuple[str, str]]:
    """Yield label and value of each fact; the label stands once before several lines."""
    for key, value in facts.items():
        if key in leave:
            continue
        name, ending = _parted(key)
        for at, line in enumerate(value if _is_long(value) else [value]):
            yield ("" if at else name), shown(line, ending)


def _is_long(value: Any) -> bool:
    """Return whether a fact is a list that is better read one line each."""
    return isinstance(value, list) and any(
        isinstance(item, dict) or " " in f"{item}" for item in value
    )


def _is_table(value: Any) -> bool:
    """Return whether a fact is a list of several entries that fit into a table's lines."""
    if not isinstance(value, list) or len(value) < _LEAST_ROWS:
        return False
    if not all(isinstance(entry, dict) for entry in value):
        return False
    if any(isinstance(cell, dict | list) for entry in value for cell in entry.values()):
        return False
    rows = list(_table(value))
    return sum(max(map(len, column)) + 2 for column in zip(*rows, strict=True)) <= WIDTH


def _table(entries: Sequence[Mapping[str, Any]]) -> Iterator[tuple[str, ...]]:
    """Yield the heads of a table, with units, and its rows."""
    keys = list(dict.fromkeys(key for entry in entries for key in entry))
    yield tuple("".join(_parted(key)) for key in keys)
    for entry in entries:
        yield tuple(shown(entry[key]) if key in entry else "" for key in keys)


def _parted(key: str) -> tuple[str, str]:
    """Return a key in words, and the unit that its ending says."""
    start, _, ending = key.rpartition("_")
    if start and ending in _UNITS:
        return start.replace("_", " "), _UNITS[ending]
    return key.replace("_", " "), ""


def shown(value: Any, unit: str = "") -> str:
    """Return a fact in one line: a number with its unit, a band, a list, a few facts."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{figures(value, _DIGITS)}{unit}"
    if isinstance(value, list):
        return ", ".join(shown(item, unit) for item in value)
    if not isinstance(value, dict):
        return f"{value}"
    if tuple(value) == _BAND:
        low, nominal, high = (figures(value[key], _DIGITS) for key in _BAND)
        return f"{low}{unit}" if low == high else f"{low}–{high}{unit}, nominal {nominal}{unit}"
    parts = [(*_parted(key), item) for key, item in value.items()]
    return ", ".join(f"{name} {shown(item, ending or unit)}" for name, ending, item in parts)
