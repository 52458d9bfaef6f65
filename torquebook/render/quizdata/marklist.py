"""The mark list: an empty table that a trainer copies a class's answers into.

One line for each apprentice and a column for each question: a sheet is copied along one row while
the eye goes down the sheet, thirty sheets are thirty rows, and the sheet's number stands there
already. A line for each answer would be six hundred, each with a sheet and a question to find.
``quiz mark`` reads it back; the column ``quiz`` keeps a class from being marked by another key.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.quiz.answerlist import template_rows
from torquebook.quiz.letters import code_of
from torquebook.render.cells import csv_text

if TYPE_CHECKING:
    from torquebook.quiz.model import Quiz


def marklist(quiz: Quiz, separator: str = ",") -> str:
    """Return the empty list as CSV.

    Parameters
    ----------
    quiz : Quiz
    separator : str
        A semicolon where spreadsheets write decimal commas.
    """
    questions = max((len(sheet.questions) for sheet in quiz.sheets), default=0)
    rows = template_rows((sheet.number for sheet in quiz.sheets), questions, code_of(quiz))
    return csv_text(rows, separator)
