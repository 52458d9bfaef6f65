"""Quizzes to print, and what must not be seen on the questions' paper."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from torquebook.catalogue.book import Book
from torquebook.quiz.making import make_quiz
from torquebook.quiz.model import Choice, Number, Option, Question, Quiz, Sequence
from torquebook.quiz.registry import families_of

UNITS = {1: "N.m", 2: "kgf.m", 3: "lbf.ft"}


@lru_cache(maxsize=16)
def quiz(level: int = 1, sheets: int = 3, count: int = 0, seed: str = "a seed of 7") -> Quiz:
    """Return a quiz; of each family of the level a question if no count is named."""
    return make_quiz(
        Book.open(),
        level=level,
        count=count or len(families_of(level)),
        sheets=sheets,
        seed=seed,
        unit=UNITS[level],
        class_name="Plant mechanics 1A",
        date="2026-11-27",
    )


def with_other_keys(made: Quiz) -> Quiz:
    """Return the same questions with other keys, reasons, sources, families and seed."""
    return replace(
        made,
        seed="another",
        families=(),
        sheets=tuple(
            replace(sheet, questions=tuple(map(_other, sheet.questions))) for sheet in made.sheets
        ),
    )


def _other(asked: Question) -> Question:
    answer = asked.answer
    changed: Choice | Number | Sequence
    if isinstance(answer, Choice):
        mistakes = [option.mistake for option in answer.options]
        moved = zip(answer.options, [*mistakes[1:], mistakes[0]], strict=True)
        changed = Choice(tuple(Option(option.text, mistake) for option, mistake in moved))
    elif isinstance(answer, Number):
        changed = replace(answer, value=3 * answer.value + 1, decimals=5, slips=())
    else:
        changed = replace(answer, key=answer.key[::-1], accepted=())
    return replace(
        asked, family="other", aim="Other.", answer=changed, solution=("o",), sources=("p",)
    )
