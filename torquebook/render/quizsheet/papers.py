"""The three papers of a quiz, by what stands behind the name of a file that holds one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.render.quizsheet.content import keys_of, questions_of, solutions_of
from torquebook.render.quizsheet.page import keys_page, questions_page, solutions_page

if TYPE_CHECKING:
    from torquebook.quiz.model import Quiz
    from torquebook.render.papersizes import Paper

QUESTIONS: Final = ""
KEY: Final = "-key"
SOLUTIONS: Final = "-solutions"


def html_papers(quiz: Quiz, paper: Paper, *, plain: bool) -> dict[str, str]:
    """Return the papers as HTML documents."""
    return {
        QUESTIONS: questions_page(questions_of(quiz, plain=plain), paper),
        KEY: keys_page(keys_of(quiz, plain=plain), paper),
        SOLUTIONS: solutions_page(solutions_of(quiz, plain=plain), paper),
    }


def pdf_papers(quiz: Quiz, paper: Paper, *, plain: bool) -> dict[str, bytes]:
    """Return the papers as PDF documents.

    Raises
    ------
    TorquebookError
        As :func:`torquebook.render.sheet.pdf.typeset`.
    """
    from torquebook.render.quizsheet.pdf import pdf  # noqa: PLC0415 - pages need none of it

    return {
        QUESTIONS: pdf(questions_of(quiz, plain=plain), paper),
        KEY: pdf(keys_of(quiz, plain=plain), paper),
        SOLUTIONS: pdf(solutions_of(quiz, plain=plain), paper),
    }
