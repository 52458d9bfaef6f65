"""The order that keys and lists of a record stand in, and where they lie."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.designation import read_designation
from torquebook.errors import NotUnderstood
from torquebook.records import KINDS
from torquebook.records.base import Source

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

#: The folder that records of a kind lie in; what is not listed may lie anywhere.
SHELVES: Final = {
    "metric threads": "threads",
    "inch threads": "threads",
    "strength classes": "classes",
    "nut classes": "nuts",
    "heads": "heads",
    "holes": "holes",
    "tapping drills": "holes",
    "friction": "friction",
    "material": "materials",
    "wrench": "wrenches",
    "printed table": "tables",
    "reuse rule": "reuse",
    "prevailing torques": "prevailing",
    "pattern": "patterns",
    "joint": "joints",
    "job": "jobs",
}

#: What a template leaves open.
BLANK: Final = "FILL IN"


def schema_file(kind: str) -> str:
    """Return the name of a kind's schema in ``schema/``."""
    return f"{kind.replace(' ', '-')}.json"


def editor_line(kind: str, folders_up: int) -> str:
    """Return the first line of a record, by which editors find its schema.

    Parameters
    ----------
    kind : str
    folders_up : int
        How many folders the file lies below the one that holds ``schema/``.
    """
    return f"# yaml-language-server: $schema={'../' * folders_up}schema/{schema_file(kind)}"


def _by_size(entry: Mapping[str, Any]) -> tuple[float, float]:
    said = read_designation(entry["size"])
    return said.d_mm, -(said.pitch_mm or said.d_mm)


#: By kind, the list that is sorted, and by what.
_SORTED: Final[dict[str, tuple[str, Callable[[Mapping[str, Any]], Any]]]] = {
    "metric threads": ("threads", lambda entry: (entry["d_mm"], -entry["pitch_mm"])),
    "inch threads": ("threads", lambda entry: (entry["d_in"], entry["tpi"])),
    "heads": ("sizes", _by_size),
    "holes": ("holes", lambda entry: entry["d_mm"]),
    "tapping drills": ("drills", _by_size),
}


def sorted_list(kind: str, data: Mapping[str, Any]) -> tuple[str, list[int]]:
    """Return the key of a record's sorted list, and its entries' indexes in the right order.

    The key is empty where no list of the kind is sorted. Where a size is no designation, no
    order is better than the one that stands.
    """
    key, by = _SORTED.get(kind, ("", None))
    entries: Sequence[Any] = data.get(key, ()) if by else ()
    try:
        return key, sorted(range(len(entries)), key=lambda index: by(entries[index]) if by else 0)
    except NotUnderstood:
        return key, list(range(len(entries)))


def key_order(kind: str) -> list[str]:
    """Return the keys of a kind of record in the order in which they are written."""
    fields = KINDS[kind].model_fields
    facts = [field.alias or name for name, field in fields.items()]
    ends = ("kind", "title", "source")
    return ["kind", "title", *(key for key in facts if key not in ends), "source"]


#: The keys of every ``source`` in their order.
SOURCE_ORDER: Final = tuple(Source.model_fields)


def first_astray(keys: Iterable[str], order: Sequence[str]) -> tuple[str, str] | None:
    """Return the first key that stands too late, and the key it belongs before; None if none."""
    rank = {key: place for place, key in enumerate(order)}
    places = [rank[key] for key in keys]
    if places == sorted(places):
        return None
    late = next(at for at, place in enumerate(places) if place < max(places[: at + 1]))
    before = min(place for place in places[:late] if place > places[late])
    return order[places[late]], order[before]
