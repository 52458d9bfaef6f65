"""The mark list as CSV: an empty table that a trainer copies a class's answers into.

Why it has a line for each apprentice: ``quiz.listform``. ``quiz mark`` reads it back.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.quiz.listform import empty_rows
from torquebook.render.cells import csv_text

if TYPE_CHECKING:
    from torquebook.quiz.model import Quiz


def marklist(quiz: Quiz, separator: str = ",") -> str:
    """Return the empty list.

    Parameters
    ----------
    quiz : Quiz
    separator : str
        A semicolon where spreadsheets write decimal commas.
    """
    return csv_text(empty_rows(quiz), separator)
