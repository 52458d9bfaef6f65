"""The documents of a quiz in each format, by what stands behind the name of the file.

That of the name alone is for apprentices: it holds neither key nor seed. A QTI package has no such
document, as it holds the answers that platforms mark by.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.render.quizsheet.papers import KEY, QUESTIONS, SOLUTIONS

if TYPE_CHECKING:
    from torquebook.quiz.model import Quiz
    from torquebook.render.papersizes import Paper

KEY_FILE: Final = f"{KEY}.json"
MARK_LIST: Final = "-answers.csv"


def markdown_papers(quiz: Quiz, paper: Paper, *, plain: bool) -> dict[str, str]:  # noqa: ARG001 - no paper here
    """Return sheets, key and solutions as Markdown."""
    from torquebook.render.plain import ascii_only  # noqa: PLC0415 - pages need none of it
    from torquebook.render.quizdata import markdown as md  # noqa: PLC0415 - as above

    made = {
        QUESTIONS: md.sheets_markdown(quiz),
        KEY: md.key_markdown(quiz),
        SOLUTIONS: md.solutions_markdown(quiz),
    }
    if not plain:
        return made
    return {
        part: "\n".join(map(ascii_only, document.split("\n"))) for part, document in made.items()
    }


def json_papers(quiz: Quiz, paper: Paper, *, plain: bool) -> dict[str, str]:  # noqa: ARG001 - no paper here
    """Return the sheets without answers, and the key with all that belongs to it, as JSON."""
    from torquebook.render.data import json_text  # noqa: PLC0415 - pages need none of it
    from torquebook.render.quizdata.data import sheets_data  # noqa: PLC0415 - as above
    from torquebook.render.quizdata.keytext import key_text  # noqa: PLC0415 - as above

    return {QUESTIONS: json_text(sheets_data(quiz)), KEY: key_text(quiz)}


def qti_papers(quiz: Quiz, paper: Paper, *, plain: bool) -> dict[str, bytes]:  # noqa: ARG001 - no paper here
    """Return the one package, with its drawings; it is a key, as the answers are in it."""
    from torquebook.render.quizdata.qti.package import package  # noqa: PLC0415 - pages need none
    from torquebook.render.quizsheet.drawing import drawn  # noqa: PLC0415 - as above

    return {KEY: package(quiz, drawn)}


def marking_files(quiz: Quiz, separator: str = ",") -> dict[str, str]:
    """Return what ``quiz mark`` needs, whatever the sheets are printed as, by their whole ending.

    Parameters
    ----------
    quiz : Quiz
    separator : str
        Of the mark list: a semicolon where spreadsheets write decimal commas.
    """
    from torquebook.render.quizdata.keytext import key_text  # noqa: PLC0415 - pages need none of it
    from torquebook.render.quizdata.marklist import marklist  # noqa: PLC0415 - as above

    return {KEY_FILE: key_text(quiz), MARK_LIST: marklist(quiz, separator)}
