"""Plan, its lines and their cells, whatever format they were read from."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from torquebook.bands import Band
    from torquebook.findings import Place
    from torquebook.notation import Stage

COLUMNS: tuple[str, ...] = (
    "joint",
    "kind",
    "thread",
    "class",
    "count",
    "tighten",
    "friction",
    "head",
    "under",
    "into",
    "engagement",
    "hole_depth",
    "clamp_length",
    "length",
    "nut",
    "state",
    "order",
    "wrench",
    "source",
    "spec",
    "note",
)


#: Characters of a cell that a message shows.
_SHOWN: Final = 60


_NO_VALUE = re.compile(r"^\s*[=#]|\b(nan|inf|infinity)\b|\d[eE]\+?\d{3}", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Cell:
    """One value as typed, without the white space around it, and where it stands."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Problem:
    """A cell that could not be read; it becomes a finding and never ends the run.

    Parameters
    ----------
    column : str
        The column's name; empty if the cell stands under no header.
    place : Place
        The cell.
    text : str
        The text as typed.
    what : str
        What is wrong with it.
    readings : tuple of str
        What would be right, likeliest first; empty if nobody can tell.
    """

    column: str
    place: Place
    text: str
    what: str
    readings: tuple[str, ...] = ()

    @property
    def is_no_value(self) -> bool:
        """Whether the cell holds a formula, an error or a number that is none."""
        return bool(_NO_VALUE.search(self.text))

    @property
    def message(self) -> str:
        """The cell's text, what is wrong with it, and what would be right."""
        shown = self.text if len(self.text) <= _SHOWN else f"{self.text[:_SHOWN]}…"
        meant = f"; write {' or '.join(self.readings)}" if self.readings else ""
        return f'"{shown}": {self.what}{meant}' if shown else f"{self.what}{meant}"


@dataclass(frozen=True)
class PlanLine:
    """One planned tightening: the cells as typed, and the values read from them.

    Parameters
    ----------
    number : int
        The row's number in the file as an editor shows it, from 1; in YAML and JSON
        the line where the entry starts.
    place : Place
        The row.
    cells : mapping of str to Cell
        Every known column that is not empty, by the names in ``COLUMNS``.
    extra : mapping of str to Cell
        Every unknown column that is not empty, by its header as typed.
    stages : tuple of Stage
        What ``tighten`` says; empty if it could not be read.
    count : int or None
    engagement_mm, clamp_length_mm : Band or None
    hole_depth_mm, length_mm : float or None
    order : tuple of tuple of int, str or None
        The positions of each pass, or a pattern's name as typed.
    problems : tuple of Problem
        The cells that could not be read, from left to right.
    """

    number: int
    place: Place
    cells: Mapping[str, Cell]
    extra: Mapping[str, Cell]
    stages: tuple[Stage, ...] = ()
    count: int | None = None
    engagement_mm: Band | None = None
    clamp_length_mm: Band | None = None
    hole_depth_mm: float | None = None
    length_mm: float | None = None
    order: tuple[tuple[int, ...], ...] | str | None = None
    problems: tuple[Problem, ...] = ()

    def text(self, column: str) -> str:
        """Return what stands in a known column, empty if nothing does."""
        cell = self.cells.get(column)
        return cell.text if cell else ""

    def place_of(self, column: str) -> Place:
        """Return the place of a known column's cell, or of the row if the cell is empty."""
        cell = self.cells.get(column)
        return cell.place if cell else self.place


@dataclass(frozen=True)
class Plan:
    """A technician's list of planned tightenings.

    Parameters
    ----------
    name : str
        The file's name as given, or what stands for it.
    lines : tuple of PlanLine
        In the order of the file; rows that are entirely empty are left out.
    unknown_columns : tuple of str
        Headers that are none of ``COLUMNS``, as typed.
    notes : tuple of str
        What the reader had to decide, such as ``read as Windows-1252``.
    title, provenance : str
        What a YAML or JSON plan says of itself; empty otherwise.
    """

    name: str
    lines: tuple[PlanLine, ...]
    unknown_columns: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    title: str = ""
    provenance: str = ""

    def __iter__(self) -> Iterator[PlanLine]:
        """Go through the lines in the order of the file."""
        return iter(self.lines)

    def __len__(self) -> int:
        """Return the number of lines."""
        return len(self.lines)
