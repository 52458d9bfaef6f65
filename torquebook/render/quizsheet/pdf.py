"""The papers of a quiz as PDF, set by typst as the sheet of a job is."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Final

from torquebook.render.sheet.pdf import typeset

if TYPE_CHECKING:
    from torquebook.render.papersizes import Paper
    from torquebook.render.quizsheet.model import KeyPaper, QuestionPaper, SolutionPaper

_TEMPLATE: Final = Path(__file__).with_name("quiz.typ")


def pdf(quiz: QuestionPaper | KeyPaper | SolutionPaper, paper: Paper = "A4") -> bytes:
    """Return one of the papers as a PDF document.

    Parameters
    ----------
    quiz : QuestionPaper, KeyPaper or SolutionPaper
    paper : str
        ``A4`` or ``Letter``.

    Raises
    ------
    TorquebookError
        As :func:`torquebook.render.sheet.pdf.typeset`.
    """
    held = {"kind": type(quiz).__name__, **asdict(quiz)}
    return typeset(_TEMPLATE, held, paper, "the class name or a question")
