"""Question sheets, their key and the ways to it in Markdown: three documents.

CommonMark with the tables of GitHub Flavored Markdown; drawings are told in words.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.quiz.letters import code_of, labels, written
from torquebook.quiz.model import Choice, Number
from torquebook.render.cautions import CAUTION
from torquebook.render.markdown import literal
from torquebook.render.paper import WIDTH, wrapped
from torquebook.render.quizdata.words import about, described, form_of, mistakes_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.quiz.model import Grid, Question, Quiz

_DOTS: Final = "…" * 12


def sheets_markdown(quiz: Quiz) -> str:
    """Return the sheets; nothing in them tells an answer."""
    return "\n".join(_sheets(quiz))


def key_markdown(quiz: Quiz) -> str:
    """Return the key: for each sheet a table of the answers and the known mistakes."""
    return "\n".join(_key(quiz))


def solutions_markdown(quiz: Quiz) -> str:
    """Return the worked solutions with what they rest on."""
    return "\n".join(_solutions(quiz))


def folded(document: str) -> str:
    """Return a document whose lines a terminal has room for, the rows of tables among them."""
    return "\n".join(part for line in document.split("\n") for part in wrapped(line, WIDTH))


def _title(quiz: Quiz, said: str) -> Iterator[str]:
    yield from (f"# {said}", "")
    yield from (f"{literal(about(quiz))}; quiz {code_of(quiz)}", "")


def _foot() -> Iterator[str]:
    yield from (f"> {literal(CAUTION)}", "")


def _sheets(quiz: Quiz) -> Iterator[str]:
    yield from _title(quiz, "Question sheets")
    for sheet in quiz.sheets:
        yield from (f"## Sheet {sheet.number}", "", f"Name: {_DOTS}", "")
        for number, asked in enumerate(sheet.questions, 1):
            yield from _question(number, asked)
        yield from _foot()


def _question(number: int, asked: Question) -> Iterator[str]:
    yield from (f"**{number}.** {literal(asked.text)}", "")
    if asked.drawing:
        yield from (f"**Drawing:** {literal(described(asked.drawing))}.", "")
    if asked.grid:
        yield from _grid(asked.grid)
    if not isinstance(asked.answer, Number):
        texts = (
            [option.text for option in asked.answer.options]
            if isinstance(asked.answer, Choice)
            else asked.answer.items
        )
        if labels(asked.answer) != tuple(texts):
            pairs = zip(labels(asked.answer), texts, strict=True)
            yield from (f"- **{letter}** {literal(text)}" for letter, text in pairs)
            yield ""
    yield from (f"**Given:** {literal(text)}" + "\\" for text in asked.assumptions)
    yield from (f"**Answer,** {literal(form_of(asked.answer))}: {_DOTS}", "")


def _grid(grid: Grid) -> Iterator[str]:
    yield from (f"**{literal(grid.title)}**", "")
    yield from table(grid.columns, grid.rows)


def table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Yield the lines of a table, and an empty one."""
    yield f"| {' | '.join(map(literal, heads))} |"
    yield f"|{' --- |' * len(heads)}"
    for row in rows:
        yield f"| {' | '.join(map(literal, row))} |"
    yield ""


def _key(quiz: Quiz) -> Iterator[str]:
    yield from _title(quiz, "Key")
    for sheet in quiz.sheets:
        yield from (f"## Sheet {sheet.number}", "")
        rows = [
            (str(number), written(asked.answer), _meaning(asked), _mistakes(asked), asked.family)
            for number, asked in enumerate(sheet.questions, 1)
        ]
        yield from table(("no.", "key", "that is", "wrong answers that are known", "family"), rows)
    yield from _foot()


def _meaning(asked: Question) -> str:
    """Return what the key means where it is a letter, and what else counts as right."""
    if isinstance(asked.answer, Choice):
        return asked.answer.options[asked.answer.key].text
    if isinstance(asked.answer, Number):
        return f"± {asked.answer.margin}"
    names = labels(asked.answer)
    others = ["-".join(names[at] for at in order) for order in asked.answer.accepted]
    shown = asked.answer.shown if written(asked.answer) != asked.answer.shown else ""
    return "; ".join([shown] * bool(shown) + ([f"or {', '.join(others)}"] if others else []))


def _mistakes(asked: Question) -> str:
    return "; ".join(f"{given}: {mistake}" for given, mistake in mistakes_of(asked.answer))


def _solutions(quiz: Quiz) -> Iterator[str]:
    yield from _title(quiz, "Worked solutions")
    for sheet in quiz.sheets:
        yield from (f"## Sheet {sheet.number}", "")
        for number, asked in enumerate(sheet.questions, 1):
            yield from (f"**{number}.** {literal(asked.text)}", "")
            yield from (f"- {literal(step)}" for step in asked.solution)
            yield from (f"- **Key:** {literal(written(asked.answer))}", "")
            yield f"**Aim:** {literal(asked.aim)}\\"
            yield from (f"**Sources:** {literal('; '.join(asked.sources))}", "")
    yield from _foot()
