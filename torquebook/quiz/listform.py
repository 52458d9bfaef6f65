"""The form of the mark list, which a trainer copies a class's answers into.

One line for each apprentice and a column for each question: a sheet is copied along one row while
the eye goes down the sheet, thirty sheets are thirty rows, and the sheet's number stands there
already. A line for each answer would be six hundred, each with a sheet and a question to find.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.quiz.letters import code_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.quiz.model import Quiz

SHEET, CODE, NAME = "sheet", "quiz", "name"
COLUMNS: Final = (SHEET, CODE, NAME)
"""What comes before the questions, whose columns are called by their numbers; the code keeps a
class from being marked by the key of another quiz."""


def empty_rows(quiz: Quiz) -> Iterator[tuple[str, ...]]:
    """Yield the rows of an empty list for a trainer to fill in, the header first."""
    questions = max((len(sheet.questions) for sheet in quiz.sheets), default=0)
    yield (*COLUMNS, *(str(number) for number in range(1, questions + 1)))
    code = code_of(quiz)
    for sheet in quiz.sheets:
        yield (str(sheet.number), code, "", *[""] * questions)
