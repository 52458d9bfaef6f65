"""A card: the facts of one record as they stand, in a plain list, and their source."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.render.figures import figures

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from torquebook.answers.cards import Looked
    from torquebook.catalogue.store.writing import Card
    from torquebook.render.paper import Paper

#: What the ending of a key says of its number.
_UNITS: Final = {"mm": " mm", "mpa": " MPa", "deg": "°", "pct": " %", "in": " in"}
_UNSAID: Final = "not stated"
_BAND: Final = ("low", "nominal", "high")
_DIGITS: Final = 6


def text(answer: Looked, paper: Paper) -> None:
    """Write the card of any kind of record."""
    card = answer.card or {}
    title(card, paper)
    rows = list(facts_of(card["facts"], leave={"source"}))
    if rows:
        paper.gap()
        paper.columns(rows)
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
    said: Mapping[str, str] = card["facts"].get("source", {})
    paper.gap()
    paper.text(f"Source: {card['source']}", 0, 2)
    for key in ("conditions", "provenance"):
        if said.get(key, _UNSAID) != _UNSAID:
            paper.text(f"{key}: {said[key]}", 2, 4)


def facts_of(facts: Mapping[str, Any], leave: set[str]) -> Iterator[tuple[str, str]]:
    """Yield label and value of each fact; the label stands once before several lines."""
    for key, value in facts.items():
        if key in leave:
            continue
        name, ending = _parted(key)
        lines = value if isinstance(value, list) and _is_long(value) else [value]
        for at, line in enumerate(lines):
            yield ("" if at else name), shown(line, ending)


def _is_long(values: list[Any]) -> bool:
    """Return whether a list is better read one line each: mappings, and texts of words."""
    return any(isinstance(value, dict) or " " in f"{value}" for value in values)


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
        return f"{low}–{high}{unit}, nominal {nominal}{unit}"
    parts = [(*_parted(key), item) for key, item in value.items()]
    return ", ".join(f"{name} {shown(item, ending or unit)}" for name, ending, item in parts)
