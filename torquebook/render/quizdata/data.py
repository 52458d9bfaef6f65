"""Question sheets for programs: without the answers, and without what they can be made from.

The key is :func:`torquebook.quiz.keyfile.key_data`, a document of its own.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from torquebook.quiz.keyfile import kind_of
from torquebook.quiz.letters import code_of, labels
from torquebook.quiz.model import Choice, Number
from torquebook.render.cautions import CAUTION
from torquebook.render.quizdata.words import described, form_of

if TYPE_CHECKING:
    from torquebook.quiz.model import Answer, Question, Quiz


def sheets_data(quiz: Quiz) -> dict[str, Any]:
    """Return the sheets as plain values; the seed stays out, as the key can be made from it."""
    return {
        "what": "question sheets",
        "code": code_of(quiz),
        "class_name": quiz.class_name,
        "date": quiz.date,
        "unit": quiz.unit,
        "level": quiz.level,
        "sheets": [
            {
                "sheet": sheet.number,
                "questions": [
                    {"question": number, **_question(asked)}
                    for number, asked in enumerate(sheet.questions, 1)
                ],
            }
            for sheet in quiz.sheets
        ],
        "caution": CAUTION,
    }


def _question(asked: Question) -> dict[str, Any]:
    drawing = asked.drawing and {
        "kind": kind_of(asked.drawing),
        **asdict(asked.drawing),
        "shows": described(asked.drawing),
    }
    return {
        "text": asked.text,
        "assumptions": list(asked.assumptions),
        "drawing": drawing,
        "grid": asked.grid and asdict(asked.grid),
        "answer": _form(asked.answer),
    }


def _form(answer: Answer) -> dict[str, Any]:
    """Return how an answer is asked for: what there is to choose from, or its unit."""
    form: dict[str, Any] = {"kind": kind_of(answer), "write": form_of(answer)}
    if isinstance(answer, Number):
        return {**form, "unit": answer.unit, "tolerance": answer.margin}
    texts = (
        [option.text for option in answer.options] if isinstance(answer, Choice) else answer.items
    )
    pairs = zip(labels(answer), texts, strict=True)
    return {**form, "of": [{"label": label, "text": text} for label, text in pairs]}
