"""The marks of a class in Markdown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.quiz.letters import code_of
from torquebook.quiz.tallies import tallies
from torquebook.render.markdown import literal
from torquebook.render.quizdata import marks
from torquebook.render.quizdata.markdown import table
from torquebook.render.quizdata.words import about

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.quiz.marking import Marking


def marks_markdown(answer: Marking) -> str:
    """Return the marks, the mistakes by family, what was not read, and the notes."""
    return "\n".join(_lines(answer))


def _lines(answer: Marking) -> Iterator[str]:
    yield from (f"# Marks: {literal(answer.name)}", "")
    yield from (f"{literal(about(answer.quiz))}; quiz {code_of(answer.quiz)}", "")
    yield from table(marks.HEADS, [marks.row(one) for one in answer.apprentices])
    rows = []
    for tally in tallies(answer.marks):
        mistakes = "; ".join(f"{one.count} × {one.text}" for one in tally.mistakes)
        rows.append((tally.family, marks.result(tally), mistakes, tally.aim))
    yield from ("## By family of questions, the worst first", "")
    yield from table(("family", "answers", "mistakes", "what it teaches"), rows)
    for head, texts in (
        ("Not read", list(marks.messages(answer.problems))),
        ("Notes", list(marks.shown(answer.notes))),
    ):
        if texts:
            yield from (f"## {head}", "")
            yield from (f"- {literal(text)}" for text in texts)
            yield ""
