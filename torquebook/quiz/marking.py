"""Mark a class: hold what the apprentices wrote against the key of their sheets.

No cell is lost and none is wrong in silence: an answer is right, wrong, left out, or not read.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from torquebook.errors import NotUnderstood
from torquebook.plans.dates import date_in
from torquebook.plans.model import Problem
from torquebook.quiz.answerlist import BLANKS, numbers_of
from torquebook.quiz.given import judged
from torquebook.quiz.letters import code_of
from torquebook.quiz.listform import CODE, NAME, SHEET
from torquebook.quiz.model import Choice, Sequence

if TYPE_CHECKING:
    from collections.abc import Iterable

    from torquebook.findings import Place
    from torquebook.plans.model import Cell
    from torquebook.quiz.answerlist import AnswerList, AnswerRow
    from torquebook.quiz.model import Question, Quiz, Sheet


class Status(StrEnum):
    """What became of one answer."""

    RIGHT = "right"
    WRONG = "wrong"
    LEFT_OUT = "left out"
    UNREAD = "not read"


@dataclass(frozen=True)
class Mark:
    """One answer of one apprentice.

    Parameters
    ----------
    number : int
        The question's, from 1.
    question : Question
    given : str
        As it was copied.
    status : Status
    mistake : str
        What somebody got wrong who answers so; of wrong answers alone.
    """

    number: int
    question: Question
    given: str
    status: Status
    mistake: str = ""


@dataclass(frozen=True)
class Apprentice:
    """One row of the list, marked.

    Parameters
    ----------
    name : str
        As it was copied; may be empty.
    sheet : str
        The sheet's number as it was copied.
    place : Place
        The row.
    marks : tuple of Mark
        One for each question of the sheet; none if it is not known which sheet it is.
    """

    name: str
    sheet: str
    place: Place
    marks: tuple[Mark, ...] = ()

    def count(self, status: Status) -> int:
        """Return how many answers came out so."""
        return sum(mark.status is status for mark in self.marks)

    @property
    def points(self) -> tuple[int, int]:
        """Points with every answer that was not read taken as wrong, and as right."""
        low = self.count(Status.RIGHT)
        return low, low + self.count(Status.UNREAD)

    @property
    def percent(self) -> tuple[float, float] | None:
        """The points in per cent of the questions; None for a row that could not be marked."""
        if not self.marks:
            return None
        low, high = self.points
        return 100 * low / len(self.marks), 100 * high / len(self.marks)


@dataclass(frozen=True)
class Marking:
    """A class, marked.

    Parameters
    ----------
    quiz : Quiz
    name : str
        The file of the answers.
    apprentices : tuple of Apprentice
        In the order of the file; rows of sheets that nobody handed in are left out.
    problems : tuple of Problem
        The cells that could not be read, in the order of the file.
    notes : tuple of str
        What had to be decided.
    """

    quiz: Quiz
    name: str
    apprentices: tuple[Apprentice, ...]
    problems: tuple[Problem, ...]
    notes: tuple[str, ...] = ()

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The answers of all apprentices."""
        return tuple(mark for one in self.apprentices for mark in one.marks)


def mark(quiz: Quiz, answers: AnswerList) -> Marking:
    """Return a class's marks.

    Parameters
    ----------
    quiz : Quiz
        Read from its key, or made again from its seed.
    answers : AnswerList

    Returns
    -------
    Marking
        An answer in another unit of the same kind is converted, and a note says so.
    """
    marker = _Marker(quiz)
    apprentices = tuple(marker.row(row) for row in answers.rows if not row.is_unused)
    notes = (*answers.notes, *marker.notes, *_about(quiz, answers, apprentices))
    return Marking(quiz, answers.name, apprentices, tuple(marker.problems), notes)


class _Marker:
    """Marks row after row, and gathers what has to be said."""

    def __init__(self, quiz: Quiz) -> None:
        self._code = code_of(quiz)
        self._sheets = {sheet.number: sheet for sheet in quiz.sheets}
        self.problems: list[Problem] = []
        self.notes: list[str] = []

    def row(self, row: AnswerRow) -> Apprentice:
        """Mark one row; as a whole it is not read where it may be another sheet's."""
        found = Apprentice(row.text(NAME), row.text(SHEET), row.place)
        sheet = self._sheet(row)
        if sheet is None:
            return found
        if problem := self._misplaced(row, sheet):
            self.problems.append(problem)
            marks = (
                Mark(number, asked, _text(row, number), Status.UNREAD)
                for number, asked in enumerate(sheet.questions, 1)
            )
        else:
            marks = (
                self._one(row, number, asked) for number, asked in enumerate(sheet.questions, 1)
            )
        return replace(found, marks=tuple(marks))

    def _sheet(self, row: AnswerRow) -> Sheet | None:
        """Return the sheet that a row names, None where it names none or is of another quiz."""
        cell, code = row.cells.get(SHEET), row.cells.get(CODE)
        if code and code.text.upper() != self._code:
            what = f"the key is that of quiz {self._code}; mark this row by the key of its own"
            self.problems.append(Problem(CODE, code.place, code.text, what))
            return None
        found = [self._sheets.get(number) for number in numbers_of(cell.text if cell else "")]
        if found and found[0]:
            return found[0]
        place, text = (cell.place, cell.text) if cell else (row.place, "")
        numbers = sorted(self._sheets)
        what = f"the key has the sheets {numbers[0]} to {numbers[-1]}; write one of them here"
        self.problems.append(Problem(SHEET, place, text, what))
        return None

    def _misplaced(self, row: AnswerRow, sheet: Sheet) -> Problem | None:
        """Return what shows that a row's cells have slipped, so that none of them counts."""
        if cell := row.beyond:
            what = (
                "the row has more cells than the header, so that its answers may stand under other "
                "questions; an answer that holds the file's separator stands in quotes"
            )
            return Problem("", cell.place, cell.text, what)
        asked = len(sheet.questions)
        for number, cell in row.answers.items():
            if number > asked and cell.text not in BLANKS:
                what = f"sheet {sheet.number} has {asked} questions; none has the number {number}"
                return Problem(str(number), cell.place, cell.text, what)
        return None

    def _one(self, row: AnswerRow, number: int, asked: Question) -> Mark:
        text, cell = _text(row, number), row.answers.get(number)
        if cell is None or (text in BLANKS and number not in row.flaws):
            return Mark(number, asked, text, Status.LEFT_OUT)
        try:
            _refuse_flawed(row, number, cell, asked)
            given = judged(asked, text)
        except NotUnderstood as fault:
            found = Problem(str(number), cell.place, text, fault.what, fault.readings)
            self.problems.append(found)
            return Mark(number, asked, text, Status.UNREAD)
        if given.note:
            self.notes.append(f"{cell.place}: {given.note}")
        status = Status.RIGHT if given.right else Status.WRONG
        return Mark(number, asked, text, status, given.mistake)


def _refuse_flawed(row: AnswerRow, number: int, cell: Cell, asked: Question) -> None:
    """Raise where a spreadsheet has made another thing of what was typed."""
    if number in row.flaws:
        raise NotUnderstood(cell.text, *row.flaws[number])
    column = "order" if isinstance(asked.answer, Sequence) else ""
    if not isinstance(asked.answer, Choice) and (date := date_in(column, cell.text)):
        raise NotUnderstood(cell.text, *date)


def _text(row: AnswerRow, number: int) -> str:
    cell = row.answers.get(number)
    return cell.text if cell else ""


_MOST_SHOWN: Final = 12


def _about(quiz: Quiz, answers: AnswerList, apprentices: tuple[Apprentice, ...]) -> list[str]:
    """Return what a trainer has to know of the list as a whole."""
    notes = []
    if uncoded := [row.place.line for row in answers.rows if _is_uncoded(row)]:
        where = "" if len(uncoded) == len(apprentices) else f" in {_called('line', uncoded)}"
        notes.append(f"no quiz code{where}; whether the key is the right one could not be checked")
    named = Counter(number for one in apprentices if one.marks for number in numbers_of(one.sheet))
    if twice := sorted(number for number, rows in named.items() if rows > 1):
        notes.append(f"{_called('sheet', twice)} in more rows than one; each was marked by itself")
    if missing := [sheet.number for sheet in quiz.sheets if sheet.number not in named]:
        notes.append(f"nothing was handed in of {_called('sheet', missing)}")
    longest = max((len(sheet.questions) for sheet in quiz.sheets), default=0)
    lost = [number for number in range(1, longest + 1) if number not in answers.questions]
    if lost:
        notes.append(f"no column is named {_listed(lost)}; these questions count as left out")
    return notes


def _is_uncoded(row: AnswerRow) -> bool:
    """Whether a row that somebody handed in does not say which quiz it is of."""
    return not (row.is_unused or row.text(CODE))


def _called(name: str, numbers: list[int]) -> str:
    return f"{name}{'s' if len(numbers) > 1 else ''} {_listed(numbers)}"


def _listed(numbers: Iterable[int]) -> str:
    said = [str(number) for number in numbers]
    more = len(said) - _MOST_SHOWN
    return ", ".join(said[:_MOST_SHOWN]) + (f" and {more} more" if more > 0 else "")
