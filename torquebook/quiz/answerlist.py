"""A class's answers as a trainer copied them: a row for each apprentice, a column a question."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import PurePath
from typing import TYPE_CHECKING, Final

from torquebook.errors import Unreadable
from torquebook.plans import csvfile, intake
from torquebook.plans.reading import kind_of
from torquebook.plans.table import letters
from torquebook.quiz.files import take_in
from torquebook.quiz.listform import COLUMNS, NAME, SHEET

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from torquebook.findings import Place
    from torquebook.plans.model import Cell
    from torquebook.plans.table import Flaw, Row

BLANKS: Final = frozenset({"", "-", "–", "—", "/"})
"""What stands where an apprentice wrote nothing."""
_RIGHT: Final = f"the first row names {', '.join(COLUMNS)}, 1, 2 and so on, as the template has"
_LIST: Final = "name the mark list, filled in, as CSV or as .xlsx"
_QUESTION: Final = re.compile(r"(?:q|question|no\.?|nr\.?)? ?0*([1-9][0-9]{0,2})", re.IGNORECASE)


@dataclass(frozen=True)
class AnswerRow:
    """What one apprentice answered, as it was copied.

    Parameters
    ----------
    place : Place
        The row.
    cells : mapping of str to Cell
        ``sheet``, ``quiz`` and ``name``, where they are not empty.
    answers : mapping of int to Cell
        By the question's number from 1; blank ones too.
    flaws : mapping of int to Flaw
        What the reader of the format knows to be wrong with an answer's cell.
    beyond : Cell or None
        The first cell that stands under no header.
    """

    place: Place
    cells: Mapping[str, Cell]
    answers: Mapping[int, Cell]
    flaws: Mapping[int, Flaw]
    beyond: Cell | None = None

    def text(self, column: str) -> str:
        """Return what stands in a column, empty if nothing does."""
        cell = self.cells.get(column)
        return cell.text if cell else ""

    @property
    def is_unused(self) -> bool:
        """Whether nobody handed this sheet in: it has neither a name nor an answer."""
        answered = any(cell.text not in BLANKS for cell in self.answers.values())
        return not (self.text(NAME) or answered or self.flaws or self.beyond)


@dataclass(frozen=True)
class AnswerList:
    """The rows of a class, in the order of the file.

    Parameters
    ----------
    name : str
        The file's name as given, or what stands for it.
    rows : tuple of AnswerRow
    questions : frozenset of int
        Those that have a column.
    notes : tuple of str
        What the reader had to decide, and which columns were left alone.
    """

    name: str
    rows: tuple[AnswerRow, ...]
    questions: frozenset[int]
    notes: tuple[str, ...] = ()


def read_answers(source: str | Path) -> AnswerList:
    """Read a class's answers.

    Parameters
    ----------
    source : str or Path
        A CSV file with any separator that spreadsheets write, or a workbook; ``-`` for standard
        input.

    Raises
    ------
    Unreadable
        If it cannot be read as a table, names no sheet or no question, or names one twice.
    """
    content, name = take_in(source, _LIST)
    notes: list[str] = []
    if kind_of(content, source) == "xlsx":
        from torquebook.plans import sheet  # noqa: PLC0415 - a CSV needs no archive's reader

        return _listed(sheet.iter_sheet(content, name, notes), name, notes)
    if PurePath(source).suffix.lower() in {".json", ".yaml", ".yml"}:
        raise Unreadable(name, "answers are read from a CSV or a workbook", _LIST)
    lines = intake.decode(content, name, notes).removesuffix("\n").split("\n")
    return _listed(csvfile.iter_csv((f"{line}\n" for line in lines), name), name, notes)


def _listed(rows: Iterator[Row], name: str, notes: list[str]) -> AnswerList:
    first = next((row for row in rows if not row.is_empty), None)
    heads = _heads(first.cells if first else (), name, notes)
    found = tuple(_row(row, heads) for row in rows if not row.is_empty)
    questions = frozenset(head for head in heads if isinstance(head, int))
    return AnswerList(name, found, questions, tuple(notes))


def _heads(cells: Iterable[Cell], name: str, notes: list[str]) -> list[str | int | None]:
    """Return what each column holds: a name of ``COLUMNS``, a question's number, or None."""
    heads: list[str | int | None] = []
    for index, cell in enumerate(cells):
        said = " ".join(cell.text.split())
        question = _QUESTION.fullmatch(said)
        head: str | int | None = int(question[1]) if question else said.casefold()
        if head not in COLUMNS and not question:
            head = None
            if said:
                notes.append(f'the column "{said}" was left alone')
        if head is not None and head in heads:
            both = f"columns {letters(heads.index(head))} and {letters(index)}"
            what = f'{both} are both named "{said}"'
            raise Unreadable(str(cell.place), what, "give each column a name of its own")
        heads.append(head)
    if SHEET not in heads:
        raise Unreadable(f"{name}:1", f'no column is named "{SHEET}"', _RIGHT)
    if not any(isinstance(head, int) for head in heads):
        raise Unreadable(f"{name}:1", "no column is named by a question's number", _RIGHT)
    return heads


def _row(row: Row, heads: list[str | int | None]) -> AnswerRow:
    cells: dict[str, Cell] = {}
    answers: dict[int, Cell] = {}
    flaws: dict[int, Flaw] = {}
    beyond = None
    for index, cell in enumerate(row.cells):
        if index >= len(heads):
            beyond = beyond or (cell if cell.text else None)
            continue
        head = heads[index]
        if isinstance(head, int):
            answers[head] = cell
            if index in row.flaws:
                flaws[head] = row.flaws[index]
        elif head and cell.text:
            cells[head] = cell
    return AnswerRow(row.cells[0].place, cells, answers, flaws, beyond)


def numbers_of(text: str) -> list[int]:
    """Return a sheet's number as it was typed, as a list of the one or of none."""
    found = re.fullmatch(r"(?:sheet|no\.?|nr\.?)? ?#?0*([1-9][0-9]{0,3})(?:\.0+)?", text.casefold())
    return [int(found[1])] if found else []
