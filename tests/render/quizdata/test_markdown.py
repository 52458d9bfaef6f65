"""Sheets, key and solutions in Markdown, read back by a library."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from hypothesis import given, settings
from markdown_it import MarkdownIt
from quiz_class import QUIZ, asked, quizzes

from torquebook.quiz.letters import labels, written
from torquebook.quiz.model import Choice, Number, Option, Quiz, Sequence, Sheet
from torquebook.render.cautions import CAUTION
from torquebook.render.plain import inert
from torquebook.render.quizdata.markdown import key_markdown, sheets_markdown, solutions_markdown
from torquebook.render.quizdata.words import described, mistakes_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from markdown_it.token import Token

# CommonMark, and of GitHub Flavored Markdown (0.29) the tables.
READER = MarkdownIt("commonmark").enable("table")
ACTING = {"image", "link_open", "code_inline", "em_open"}


def shown(token: Token) -> str:
    """Return the text that an inline token shows; nothing in it links or embeds."""
    parts = token.children or []
    assert not ACTING & {part.type for part in parts}
    assert {part.content for part in parts if part.type == "html_inline"} <= {"<!-- -->"}
    return "".join(
        "\n" if part.type == "hardbreak" else part.content
        for part in parts
        if part.type in {"text", "text_special", "hardbreak"}
    )


def blocks(document: str) -> Iterator[tuple[str, str]]:
    """Yield the kind of every block that holds text, and the text."""
    for before, token in pairwise(READER.parse(document)):
        if token.type == "inline":
            yield before.tag if before.type != "paragraph_open" else "p", shown(token)


def by_sheet(document: str) -> list[list[tuple[str, str]]]:
    """Return the blocks under each heading of a sheet."""
    found: list[list[tuple[str, str]]] = []
    for kind, text in blocks(document):
        if kind == "h2":
            found.append([])
        if found:
            found[-1].append((kind, text))
    return found


@settings(max_examples=25, deadline=None)
@given(quiz=quizzes())
def test_sheets_show_the_questions_in_order(quiz: Quiz) -> None:
    """Each question, its options, table, drawing and assumptions; the caution at the end."""
    sheets = by_sheet(sheets_markdown(quiz))
    assert [held[0][1] for held in sheets] == [f"Sheet {sheet.number}" for sheet in quiz.sheets]
    for sheet, held in zip(quiz.sheets, sheets, strict=True):
        texts = [text for _, text in held]
        assert texts[-1] == CAUTION
        at = 0
        for number, one in enumerate(sheet.questions, 1):
            at = texts.index(f"{number}. {one.text}", at)
            end = next(n for n in range(at, len(texts)) if "Answer, " in texts[n])
            own = texts[at : end + 1]
            if isinstance(one.answer, Choice):
                pairs = zip(labels(one.answer), one.answer.options, strict=True)
                assert [f"{letter} {option.text}" for letter, option in pairs] == [
                    text for kind, text in held[at : end + 1] if text[1:2] == " " and kind == "p"
                ]
            assert (f"Drawing: {described(one.drawing)}." in own) if one.drawing else True
            cells = [text for kind, text in held[at : end + 1] if kind in {"th", "td"}]
            rows = (one.grid.columns, *one.grid.rows) if one.grid else ()
            assert cells == [cell for row in rows for cell in row]
            assert all(f"Given: {text}\n" in own[-1] for text in one.assumptions)


@settings(max_examples=25, deadline=None)
@given(quiz=quizzes())
def test_no_answer_stands_on_the_sheets(quiz: Quiz) -> None:
    """Neither a mistake, a solution, a source, the seed nor a number that is to be found."""
    said = sheets_markdown(quiz)
    for sheet in quiz.sheets:
        for one in sheet.questions:
            hidden = [*one.sources, one.aim, *(text for _, text in mistakes_of(one.answer))]
            if isinstance(one.answer, Sequence):
                hidden.append(one.answer.shown)
            stated = " ".join((one.text, *one.assumptions, *_options(one.answer)))
            assert not any(text in said for text in hidden if len(text) > 24 and text not in stated)


def _options(answer: object) -> tuple[str, ...]:
    return tuple(o.text for o in answer.options) if isinstance(answer, Choice) else ()


@settings(max_examples=25, deadline=None)
@given(quiz=quizzes())
def test_the_key_reads_back(quiz: Quiz) -> None:
    """A row a question: number, key as it is written, what it is, the mistakes, the family."""
    for sheet, held in zip(quiz.sheets, by_sheet(key_markdown(quiz)), strict=True):
        cells = [text for kind, text in held if kind == "td"]
        rows = [cells[at : at + 5] for at in range(0, len(cells), 5)]
        for number, (one, row) in enumerate(zip(sheet.questions, rows, strict=True), 1):
            assert row[:2] == [str(number), written(one.answer)]
            assert all(f"{at}: {text}" in row[3] for at, text in mistakes_of(one.answer))
            assert row[4] == one.family
            if isinstance(one.answer, Number):
                assert row[2] == f"± {one.answer.margin}"


@settings(max_examples=25, deadline=None)
@given(quiz=quizzes())
def test_solutions_read_back(quiz: Quiz) -> None:
    """Step by step, then the key, the aim and the sources."""
    for sheet, held in zip(quiz.sheets, by_sheet(solutions_markdown(quiz)), strict=True):
        texts = [text for _, text in held]
        expected = [f"Sheet {sheet.number}"]
        for number, one in enumerate(sheet.questions, 1):
            expected += [f"{number}. {one.text}", *one.solution, f"Key: {written(one.answer)}"]
            expected += [f"Aim: {one.aim}\nSources: {'; '.join(one.sources)}"]
        assert texts == expected + [CAUTION] * (sheet is quiz.sheets[-1])


def test_what_else_is_right_stands_in_the_key() -> None:
    """An order that is as right, and the words behind letters."""
    cells = [text for kind, text in blocks(key_markdown(QUIZ)) if kind == "td"]
    assert "or 1-3-4-2" in cells
    assert "mark it → back it off → tighten it to the mark" in cells


def test_hostile_texts_show_as_they_are() -> None:
    """Markup, links and controls in any text act nowhere."""
    bad = "# a | b *c* [d](http://e) <script> ` \x1b[2J @f 1. g\n- h"
    choice = Choice((Option(bad), Option("b", bad)))
    one = asked("a", choice, bad)
    quiz = Quiz(bad, bad, "N.m", 1, "s", ("a",), (Sheet(1, (one,)),))
    for document in (sheets_markdown(quiz), key_markdown(quiz), solutions_markdown(quiz)):
        texts = [text for _, text in blocks(document)]
        assert any(inert(bad) in text for text in texts)
        assert f"Class {inert(bad)}, {inert(bad)}, level 1, torques in N·m" in texts[1]
