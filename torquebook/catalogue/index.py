"""The generated index: where it lies, and how its rows become shelves of small records."""

from __future__ import annotations

import json
import os.path
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue import shelves as s
from torquebook.catalogue.lookup import plain
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

INDEX: Final = os.path.join(os.path.dirname(__file__), "index.json")  # noqa: PTH118, PTH120 - pathlib costs milliseconds at every start
MADE_BY: Final = "made from specs/ by: python -m torquebook.catalogue.build"

Rows = dict[str, list[list[Any]]]

#: By shelf, the columns that name a record: one of that name in a lower layer is covered, and
#: two in one layer are refused.
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
    "patterns": (0,),
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


def name_of(shelf: str, row: list[Any]) -> tuple[Any, ...]:
    """Return what names a row on its shelf, without the differences that mean nothing."""
    cells = (row[column] for column in KEYS[shelf])
    return tuple(plain(cell) if isinstance(cell, str) else cell for cell in cells)


def join(shelf: str, layers: Iterable[Iterable[list[Any]]]) -> list[list[Any]]:
    """Lay the rows of a shelf over one another; of two with the same name the upper one counts.

    Parameters
    ----------
    shelf : str
    layers : iterable
        Its rows, from the top layer down.

    Returns
    -------
    list
        The rows that count, upper layers first.
    """
    joined: list[list[Any]] = []
    seen: set[tuple[Any, ...]] = set()
    for layer in layers:
        named = [(name_of(shelf, row), row) for row in layer]
        joined += [row for name, row in named if name not in seen]
        seen.update(name for name, _ in named)
    return joined


def _bands(*rows: list[float] | None) -> list[Any]:
    """Return bands, None where there is none."""
    from torquebook.bands import Band  # noqa: PLC0415 - a thread's page has none

    return [Band(*row) if row else None for row in rows]


def _friction(row: list[Any]) -> s.Friction:
    name, aliases, mu_thread, mu_head, lubricated, source, doubtful = row
    thread, head = _bands(mu_thread, mu_head)
    return s.Friction(name, tuple(aliases), thread, head, lubricated, source, tuple(doubtful))


def _material(row: list[Any]) -> s.Material:
    name, aliases, least, least_source, tensile, pressure, source, grades, *shear, doubtful = row
    strong, bears = _bands(tensile, pressure)
    about = name, tuple(aliases), least, least_source, strong, bears, source
    ratio, where = shear
    every = tuple(s.Grade(*grade) for grade in grades)
    return s.Material(*about, every, ratio, where, tuple(doubtful))


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
    "patterns": lambda row: s.Pattern(row[0], row[1], tuple(row[2]), row[3]),
}
