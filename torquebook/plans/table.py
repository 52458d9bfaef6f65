"""Rows under a header, from a CSV file or a sheet, to a plan's lines."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field
from functools import cache
from itertools import islice
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.errors import Unreadable
from torquebook.plans.cells import UNIT_COLUMNS, plan_line
from torquebook.plans.model import COLUMNS, Problem

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from torquebook.plans.model import Cell, PlanLine

#: How far below the first row a header is looked for, to say where it is.
SEARCH: Final = 10
_TORQUE_WORDS: Final = re.compile(r"torque|tight|moment|preload", re.IGNORECASE)


class Flaw(NamedTuple):
    """What a format's reader knows to be wrong with a cell before its column is known."""

    what: str
    readings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One row as it stands in the file: every cell from the left, the empty ones too.

    ``flaws`` are kept by the cell's index, from 0.
    """

    cells: Sequence[Cell]
    flaws: Mapping[int, Flaw] = field(default_factory=dict)

    @property
    def is_empty(self) -> bool:
        """Whether no cell holds anything."""
        return not any(cell.text for cell in self.cells) and not self.flaws


@dataclass(frozen=True, slots=True)
class Header:
    """The names of a table's columns from the left; empty where a column has none."""

    names: tuple[str, ...]

    @property
    def unknown(self) -> tuple[str, ...]:
        """The names that are none of ``COLUMNS``."""
        return tuple(name for name in self.names if name and name not in COLUMNS)


def column_name(text: str) -> str:
    """Return a column's name: one of ``COLUMNS``, or else the text as typed.

    Case does not matter; spaces and hyphens stand for underscores.
    """
    typed = " ".join(text.split())
    plain = re.sub(r"[\s_-]+", "_", typed.casefold())
    return plain if plain in COLUMNS else typed


@cache
def letters(index: int) -> str:
    """Return a spreadsheet's letters for a column, counted from 0."""
    name = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def read_header(rows: Iterator[Row], name: str) -> Header:
    """Take the header off a table.

    Parameters
    ----------
    rows : iterator of Row
        The table from the top; it is left at the first row below the header.
    name : str
        The file's name, as it stands in messages.

    Returns
    -------
    Header

    Raises
    ------
    Unreadable
        If there is no row, no column named ``tighten``, or a column named twice.
    """
    row = next((row for row in rows if not row.is_empty), None)
    if row is None:
        right = f"a plan has a header row ({', '.join(COLUMNS[:6])} …) and a row for each joint"
        raise Unreadable(name, "the file is empty", right)
    names = tuple(column_name(cell.text) for cell in row.cells)
    if "tighten" not in names:
        raise _no_tighten(names, row, rows, name)
    for index, column in enumerate(names):
        first = names.index(column)
        if column and first != index:
            where = f"{name} cell {row.cells[index].place.cell}"
            what = f'columns {letters(first)} and {letters(index)} are both named "{column}"'
            raise Unreadable(where, what, "give each column a name of its own")
    return Header(names)


def near_tighten(names: Iterable[str]) -> str:
    """Return the name that was most likely meant to be ``tighten``, empty if none was."""
    known = [name for name in names if name and name not in COLUMNS]
    close = difflib.get_close_matches("tighten", [name.casefold() for name in known], 1, 0.7)
    return next(
        (name for name in known if name.casefold() in close or _TORQUE_WORDS.search(name)), ""
    )


def no_tighten(where: str, names: Iterable[str]) -> Unreadable:
    """Return the refusal of a plan in which none of the columns is named ``tighten``."""
    names = list(names)
    near = near_tighten(names)
    if near:
        right = f'rename the column "{near}" to "tighten"'
        if any(name.casefold() in UNIT_COLUMNS for name in names):
            right += " and write the unit into its cells (60 N.m)"
    else:
        right = 'name the column that says how to tighten "tighten"; the others may be missing'
    return Unreadable(where, 'no column is named "tighten"', right)


def _no_tighten(names: Sequence[str], row: Row, rows: Iterator[Row], name: str) -> Unreadable:
    """Return the refusal of a table whose first row is no header, or lacks ``tighten``."""
    if not near_tighten(names):
        for later in islice(rows, SEARCH):
            below = {column_name(cell.text) for cell in later.cells}
            if "tighten" in below:
                where = later.cells[0].place
                what = 'the first row names no column "tighten"'
                header = f"the header seems to be row {where.line}; delete the rows above it"
                return Unreadable(f"{name}:{row.cells[0].place.line}", what, header)
    return no_tighten(f"{name}:{row.cells[0].place.line}", names)


def iter_lines(rows: Iterable[Row], header: Header) -> Iterator[PlanLine]:
    """Yield the lines of a table below its header; rows that are entirely empty are left out.

    Parameters
    ----------
    rows : iterable of Row
        The rows below the header.
    header : Header

    Yields
    ------
    PlanLine
    """
    width = len(header.names)
    for row in rows:
        if row.is_empty:
            continue
        cells: dict[str, Cell] = {}
        extra: dict[str, Cell] = {}
        problems: list[Problem] = []
        for index, cell in enumerate(row.cells):
            column = header.names[index] if index < width else ""
            flaw = row.flaws.get(index)
            if not cell.text and not flaw:
                continue
            if not column:
                column, flaw = f"column {letters(index)}", flaw or _unheaded(index, width)
            elif column not in COLUMNS:
                flaw = None
            if cell.text:
                (cells if column in COLUMNS else extra)[column] = cell
            if flaw:
                problems.append(Problem(column, cell.place, cell.text, *flaw))
        yield plan_line(row.cells[0].place, cells, extra, problems)


def _unheaded(index: int, width: int) -> Flaw:
    """Return what is wrong with a cell under no header."""
    if index < width:
        return Flaw(f"column {letters(index)} has no name in the header")
    return Flaw(
        f"this cell stands beyond the header's {width} columns; a cell that holds the file's "
        "separator stands in quotes"
    )
