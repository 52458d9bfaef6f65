"""Families about printed tables: the right row, and a correction that is applied once."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.quiz.answering import among, asked, chosen, figure, given, in_unit, unit_text
from torquebook.quiz.levels import FULL
from torquebook.quiz.model import Grid, Option, Question
from torquebook.quiz.stock import Unfounded, founded, sizes

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import PrintedRow, PrintedTable
    from torquebook.quiz.draws import Draw

_SHOWN: Final = 5
_GRADES: Final = ("SAE 2", "SAE 5", "SAE 8")
#: The corrections that tables print are for these conditions.
_CONDITIONS: Final = ("oiled", "zinc plated", "cadmium plated")


class _Line(NamedTuple):
    """One line of the small table of a question: a size, and three columns of figures."""

    name: str
    cells: tuple[float, float, float]


@lru_cache(maxsize=32)
def _lines(book: Book, level: int) -> tuple[tuple[_Line, ...], tuple[str, ...]]:
    """Return spanner, medium and coarse hole of the metric sizes of a level, and the sources."""
    found: list[_Line] = []
    sources: dict[str, None] = {}
    for size in sizes(book, level, read=True):
        head, hole = size.head, size.hole
        if size.thread.series == "coarse" and head and hole and head.across_flats_mm:
            cells = (head.across_flats_mm, hole.medium_mm, hole.coarse_mm)
            found.append(_Line(size.name, cells))
            sources |= {head.source: None, hole.source: None}
    if len(found) < 3:  # noqa: PLR2004 - a row above and one below
        raise Unfounded("too few rows of dimensions bear a key in this book")
    return tuple(found), tuple(sources)


_COLUMNS: Final = ("spanner", "medium hole", "coarse hole")


def table_row(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for a value out of a printed table."""
    if level == FULL and draw.below(2):
        return _torque_row(draw, book, level, unit)
    every, sources = _lines(book, level)
    start = draw.below(max(1, len(every) - _SHOWN + 1))
    shown = every[start : start + _SHOWN]
    at, column = draw.below(len(shown)), draw.below(len(_COLUMNS))
    right = shown[at].cells[column]
    wrong: dict[float, str] = {}
    for row, line in enumerate(shown):
        for cell, width in enumerate(line.cells):
            if width != right and (row == at) != (cell == column):
                why = f"the column {_COLUMNS[cell]}" if row == at else f"the row of {line.name}"
                wrong.setdefault(width, why)
    kept = among(draw, right, [*wrong.items()])
    grid = Grid(
        "Hexagon bolts: spanner and clearance holes, in mm",
        ("thread", *_COLUMNS),
        tuple((line.name, *(f"{cell:g}" for cell in line.cells)) for line in shown),
    )
    name = shown[at].name
    return Question(
        "table-row", level, "Stay in the right row and column of a table.",
        f"A plate is held by bolts {name}. Which {_COLUMNS[column]} goes with them?",
        ("The bolts have hexagon heads of the present width and coarse threads.",),
        chosen(draw, given(right, "mm"), (Option(given(one, "mm"), why) for one, why in kept)),
        (f"Row {name}, column {_COLUMNS[column]}: {given(right, 'mm')}.",), sources, grid=grid,
    )  # fmt: skip


@lru_cache(maxsize=8)
def _tables(book: Book) -> tuple[tuple[PrintedTable, tuple[PrintedRow, ...]], ...]:
    """Return the printed tables of inch bolts, with the lines of one grade each."""
    found = []
    for table in book.tables():
        rows = tuple(
            row for row in table.rows
            if row.strength_class in _GRADES and row.low == row.high and not row.nut
        )  # fmt: skip
        if founded(table.source) and rows:
            found.append((table, rows))
    if not found:
        raise Unfounded("no printed table of torques bears a key in this book")
    return tuple(found)


@lru_cache(maxsize=512)
def _of_grade(rows: tuple[PrintedRow, ...], grade: str) -> tuple[PrintedRow, ...]:
    return tuple(row for row in rows if row.strength_class == grade)


def _line(draw: Draw, book: Book) -> tuple[PrintedTable, tuple[PrintedRow, ...], PrintedRow]:
    table, rows = draw.pick(_tables(book))
    row = draw.pick(rows)
    return table, rows, row


def _torque_row(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Return the question for a torque out of a printed table, shown in the country's unit."""
    table, rows, row = _line(draw, book)
    grades = [grade for grade in _GRADES if _of_grade(rows, grade)]
    own = _of_grade(rows, row.strength_class)
    at = own.index(row)
    start = max(0, min(at - draw.below(_SHOWN), len(own) - _SHOWN))
    shown = [one.thread for one in own[start : start + _SHOWN]]
    printed = {(one.thread, one.strength_class): one for one in rows}
    right = figure(in_unit(row.low_nm, unit), unit)
    wrong: dict[str, tuple[float, str]] = {}
    for thread in shown:
        for grade in grades:
            one = printed.get((thread, grade))
            text = figure(in_unit(one.low_nm, unit), unit) if one else right
            if one and text != right and (thread == row.thread or grade == row.strength_class):
                why = f"the row of {thread} in the column of {grade}"
                wrong.setdefault(text, (one.low_nm, why))
    texts = {value: (text, why) for text, (value, why) in wrong.items()}
    kept = among(draw, row.low_nm, [(value, why) for value, (_, why) in texts.items()])
    told = given(row.low, row.unit)
    changed = row.unit != unit
    cells = tuple(
        (thread, *(_cell(printed.get((thread, grade)), unit) for grade in grades))
        for thread in shown
    )
    return Question(
        "table-row", level, "Stay in the right row and column of a table.",
        f"Bolts {row.thread} of {row.strength_class} are tightened by this part of a printed "
        "table. Which torque do they get?",
        (f"The table holds for the condition {table.friction}, and so does the joint.",
         *((f"Printed in {unit_text(row.unit)}, brought into {unit_text(unit)} here.",)
           if changed else ())),
        chosen(draw, right, (Option(texts[value][0], why) for value, why in kept)),
        (f"Row {row.thread}, column {row.strength_class}: {right}"
         + (f", printed {told}." if changed else "."),),
        (table.source,),
        grid=Grid(f"{table.title}, in {unit_text(unit)}", ("thread", *grades), cells),
    )  # fmt: skip


def _cell(row: PrintedRow | None, unit: str) -> str:
    return figure(in_unit(row.low_nm, unit), unit).partition(" ")[0] if row else "–"


def table_factor(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for a table's torque under another condition than it was printed for."""
    every = [one for one in _tables(book) if set(one[0].factors) & set(_CONDITIONS)]
    if not every:
        raise Unfounded("no printed table with corrections bears a key in this book")
    table, rows = draw.pick(every)
    row = draw.pick(rows)
    condition = draw.pick([one for one in _CONDITIONS if one in table.factors])
    factor = table.factors[condition]
    printed = float(figure(in_unit(row.low_nm, unit), unit).partition(" ")[0])
    value = printed * factor
    slips = [
        (printed, "the correction forgotten"),
        (value * factor, "the correction applied twice"),
        (printed / factor, "divided instead of multiplied"),
        (printed * (1 - factor), "only what comes off"),
        (printed * (2 - factor), "put on instead of taken off"),
    ]
    answer, tail, shown = asked(draw, value, unit, slips, 0.015)
    return Question(
        "table-factor", level, "Correct a table's torque for lubricant or plating, and once.",
        f"A printed table gives {figure(printed, unit)} for bolts {row.thread} of "
        f"{row.strength_class}. The bolts are {condition}. What torque do they get?{tail}",
        (f"The table holds for the condition {table.friction}.",
         f"It prints for {condition}: {factor:g} of its values."), answer,
        (f"{figure(printed, unit)} · {factor:g} = {shown}",), (table.source,),
    )  # fmt: skip


FAMILY: Final = (("table-row", table_row), ("table-factor", table_factor))
