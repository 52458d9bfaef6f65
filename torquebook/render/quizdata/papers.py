"""The documents of a quiz in each format, by what stands behind the name of the file.

That of the name alone is for apprentices: it holds neither key nor seed. A QTI package is the
exception, as it holds the answers that platforms mark by; it has no such document.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.quiz.keyfile import key_data
from torquebook.render.data import json_text
from torquebook.render.quizdata.data import sheets_data
from torquebook.render.quizdata.markdown import key_markdown, sheets_markdown, solutions_markdown
from torquebook.render.quizdata.marklist import marklist

if TYPE_CHECKING:
    from torquebook.quiz.model import Quiz

QUESTIONS: Final = ""
KEY: Final = "-key"
SOLUTIONS: Final = "-solutions"
KEY_FILE: Final = "-key.json"
MARK_LIST: Final = "-answers.csv"


def markdown_papers(quiz: Quiz) -> dict[str, str]:
    """Return sheets, key and solutions as Markdown."""
    return {
        QUESTIONS: sheets_markdown(quiz),
        KEY: key_markdown(quiz),
        SOLUTIONS: solutions_markdown(quiz),
    }


def json_papers(quiz: Quiz) -> dict[str, str]:
    """Return the sheets without answers, and the key with all that belongs to it, as JSON."""
    return {QUESTIONS: json_text(sheets_data(quiz)), KEY: json_text(key_data(quiz))}


def marking_files(quiz: Quiz, separator: str = ",") -> dict[str, str]:
    """Return what ``quiz mark`` needs, whatever the sheets are printed as, by their whole ending.

    Parameters
    ----------
    quiz : Quiz
    separator : str
        Of the mark list, as :func:`marklist` takes it.
    """
    return {KEY_FILE: json_text(key_data(quiz)), MARK_LIST: marklist(quiz, separator)}
