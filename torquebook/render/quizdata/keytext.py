"""The key of a quiz as the file that ``quiz mark`` reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.quiz.keyfile import key_data
from torquebook.render.data import json_line

if TYPE_CHECKING:
    from torquebook.quiz.model import Quiz


def key_text(quiz: Quiz) -> str:
    """Return the key as a JSON document with a question a line: it is written at every making."""
    *about, (last, sheets) = key_data(quiz).items()
    head = json_line(dict(about)).rstrip("}\n")
    said = (
        f'{{"sheet": {sheet["sheet"]}, "questions": [\n'
        + ",\n".join(json_line(asked).rstrip("\n") for asked in sheet["questions"])
        + "\n]}"
        for sheet in sheets
    )
    return f'{head}, "{last}": [\n{",".join(said)}\n]}}\n'
