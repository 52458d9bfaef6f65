"""The generated index: where it lies, and how its rows become shelves of small records."""

from __future__ import annotations

import json
import os.path
from typing import TYPE_CHECKING, Any, Final

from torquebook.bands import Band
from torquebook.catalogue import shelves as s
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

INDEX: Final = os.path.join(os.path.dirname(__file__), "index.json")  # noqa: PTH118, PTH120 - pathlib costs milliseconds at every start
MADE_BY: Final = "made from specs/ by: python -m torquebook.catalogue.build"

Rows = dict[str, list[list[Any]]]

#: By shelf, the columns that name a record: a second one of that name is laid underneath.
KEYS: Final[dict[str, tuple[int, ...]]] = {
    "records": (0,),
    "threads": (0,),
    "classes": (0, 8),
    "nuts": (0, 1, 2, 3, 5),
    "heads": (1, 2),
    "head_names": (0, 1),
    "holes": (0,),
    "drills": (0,),
    "frictions": (0,),
    "materials": (0,),
    "wrenches": (0,),
    "tables": (0,),
}


def read_index(path: str = INDEX) -> Rows:
    """Return the rows of an index file, by shelf.

    Raises
    ------
    Unreadable
        If the installation lacks it, or it is damaged.
    """
    try:
        with open(path, encoding="utf-8") as file:  # noqa: PTH123 - as for INDEX
            raw = json.load(file)
        return {shelf: raw[shelf] for shelf in KEYS}
    except (OSError, ValueError, KeyError, TypeError) as error:
        right = "install torquebook again, or run python -m torquebook.catalogue.build"
        raise Unreadable(path, "the index is missing or damaged", right) from error


def join(layers: Iterable[Rows]) -> Rows:
    """Lay rows over one another; of two with the same name the upper one counts.

    Parameters
    ----------
    layers : iterable of dict
        From the top one down.

    Returns
    -------
    dict
        By shelf, the rows that count, upper layers first.
    """
    joined: Rows = {shelf: [] for shelf in KEYS}
    seen: dict[str, set[tuple[Any, ...]]] = {shelf: set() for shelf in KEYS}
    for layer in layers:
        for shelf, key in KEYS.items():
            names = [tuple(row[i] for i in key) for row in layer.get(shelf, ())]
            rows = zip(names, layer.get(shelf, ()), strict=True)
            joined[shelf] += [row for name, row in rows if name not in seen[shelf]]
            seen[shelf].update(names)
    return joined


def _band(row: list[float] | None) -> Band | None:
    return Band(*row) if row else None


def _friction(row: list[Any]) -> s.Friction:
    name, aliases, mu_thread, mu_head, lubricated, source = row
    return s.Friction(name, tuple(aliases), Band(*mu_thread), Band(*mu_head), lubricated, source)


def _material(row: list[Any]) -> s.Material:
    name, aliases, least, least_source, tensile, pressure, source = row
    bands = _band(tensile), _band(pressure)
    return s.Material(name, tuple(aliases), least, least_source, *bands, source)


def _wrench(row: list[Any]) -> s.Wrench:
    return s.Wrench(row[0], tuple(row[1]), *row[2:])


def _table(row: list[Any]) -> s.PrintedTable:
    lines = tuple(s.PrintedRow(*line) for line in row[8])
    cells: list[Any] = [*row[:8], lines, *row[9:]]
    return s.PrintedTable(*cells)


#: By shelf, how a row becomes a record.
MAKERS: Final[dict[str, Callable[[list[Any]], Any]]] = {
    "records": lambda row: s.Entry(*row),
    "threads": lambda row: s.Thread(*row),
    "classes": lambda row: s.StrengthClass(*row),
    "nuts": lambda row: s.NutClass(*row),
    "heads": lambda row: s.HeadSize(*row),
    "head_names": tuple,
    "holes": lambda row: s.Hole(*row),
    "drills": lambda row: s.Drill(*row),
    "frictions": _friction,
    "materials": _material,
    "wrenches": _wrench,
    "tables": _table,
}
