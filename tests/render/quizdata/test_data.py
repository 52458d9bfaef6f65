"""The sheets for programs hold no answer; the mark list is filled in and read back."""

from __future__ import annotations

import csv
import json
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from quiz_class import QUIZ, quizzes
from quiz_papers import quiz as printed
from quiz_papers import with_other_keys

from torquebook.quiz.answerlist import read_answers
from torquebook.quiz.keyfile import read_key
from torquebook.quiz.letters import code_of, written
from torquebook.quiz.marking import mark
from torquebook.quiz.model import BoltCircle, Choice
from torquebook.render.data import json_text
from torquebook.render.quizdata.data import sheets_data
from torquebook.render.quizdata.markdown import sheets_markdown
from torquebook.render.quizdata.marklist import marklist
from torquebook.render.quizdata.papers import json_papers, markdown_papers, marking_files
from torquebook.render.quizdata.words import described

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.quiz.model import Quiz

FROM_TOP = "° clockwise from the top"
TELLING = {"key", "accepted", "mistake", "slips", "value", "solution", "sources", "seed", "aim"}


def keys_of(data: Any) -> Iterator[str]:
    """Yield every key of a document."""
    if isinstance(data, dict):
        yield from data
    for one in data.values() if isinstance(data, dict) else data if isinstance(data, list) else ():
        yield from keys_of(one)


@settings(max_examples=25, deadline=None)
@given(quiz=quizzes())
def test_sheets_for_programs_hold_no_answer(quiz: Quiz) -> None:
    """Nothing tells the key, and nothing that the sheets can be made again from is there."""
    data = json.loads(json_text(sheets_data(quiz)))
    assert not TELLING & set(keys_of(data))
    assert data["code"] == code_of(quiz)
    for sheet, held in zip(quiz.sheets, data["sheets"], strict=True):
        for one, said in zip(sheet.questions, held["questions"], strict=True):
            assert said["text"] == one.text
            if isinstance(one.answer, Choice):
                assert [part["text"] for part in said["answer"]["of"]] == [
                    option.text for option in one.answer.options
                ]


@pytest.mark.parametrize("level", [1, 2, 3])
def test_sheets_are_the_same_whatever_their_keys(level: int) -> None:
    """Of JSON and Markdown no letter hangs on a key, the code that they print included."""
    made = printed(level)
    other = with_other_keys(made)
    assert sheets_data(made) == sheets_data(other)
    assert sheets_markdown(made) == sheets_markdown(other)
    assert f"quiz {code_of(made)}" in sheets_markdown(made)


def test_parts_of_the_sheets_by_name() -> None:
    """Drawings and tables are given in full, answers by their form."""
    data = json.loads(json_text(sheets_data(QUIZ)))
    first, second = data["sheets"][0]["questions"], data["sheets"][1]["questions"]
    assert first[1]["drawing"] == {
        "kind": "head mark", "mark": "8.8", "head": "hexagon",
        "shows": "a bolt's head seen from above, hexagon, marked 8.8",
    }  # fmt: skip
    assert first[1]["answer"] == {
        "kind": "number", "write": "a number in N·m", "unit": "N.m", "tolerance": "1.4",
    }  # fmt: skip
    assert first[2]["answer"]["write"] == "all of 1, 2, 3, 4 in order, with dashes between them"
    assert second[1]["grid"]["rows"] == [["M8", "13"], ["M10", "16"]]
    assert second[2]["answer"]["of"][0] == {"label": "A", "text": "tighten it to the mark"}
    assert data["caution"].startswith("The maker's data")


def test_drawings_in_words() -> None:
    """Where number 1 lies, which way is counted, and an order where one is drawn."""
    on_circle = "6 bolts on a circle, seen from the head's side, numbered "
    for circle, said in (
        (BoltCircle(6), "clockwise, number 1 on top"),
        (BoltCircle(6, 30.0), f"clockwise, number 1 at 30{FROM_TOP}"),
        (BoltCircle(6, 22.5, clockwise=False), f"counterclockwise, number 1 at 22.5{FROM_TOP}"),
        (BoltCircle(6, 270.0, order=(1, 4, 2, 5, 3, 6)),
         "clockwise, number 1 on the left; the order drawn is 1-4-2-5-3-6"),
    ):  # fmt: skip
        assert described(circle) == on_circle + said


def test_the_list_is_filled_in_and_read_back(tmp_path: Path) -> None:
    """Through a general reader and writer of CSV; either separator does."""
    path = tmp_path / "answers.csv"
    for separator in (",", ";"):
        head, *rows = csv.reader(marklist(QUIZ, separator).splitlines(), delimiter=separator)
        assert head == ["sheet", "quiz", "name", "1", "2", "3", "4"]
        assert [row[:3] for row in rows] == [[str(n), code_of(QUIZ), ""] for n in (1, 2, 3)]
        for row, sheet in zip(rows, QUIZ.sheets, strict=True):
            row[2:] = ["Ann; the first", *(written(one.answer) for one in sheet.questions)]
        with path.open("w", newline="", encoding="utf-8") as file:
            csv.writer(file, delimiter=separator).writerows([head, *rows])
        found = mark(QUIZ, read_answers(path))
        assert [(one.name, one.points) for one in found.apprentices] == [
            ("Ann; the first", (4, 4))
        ] * 3
        assert not found.problems


def test_documents_by_the_ends_of_their_names(tmp_path: Path) -> None:
    """Only the sheets bear the name alone, and they tell nothing that the others do."""
    for papers, names in (
        (markdown_papers(QUIZ, "A4", plain=False), ["", "-key", "-solutions"]),
        (json_papers(QUIZ, "A4", plain=False), ["", "-key"]),
    ):
        assert list(papers) == names
        assert "the spanner of M10" in papers["-key"]
        assert "the spanner of M10" not in papers[""]
    plain = markdown_papers(QUIZ, "A4", plain=True)
    assert all(document.isascii() for document in plain.values())
    assert plain[""].count("\n") == markdown_papers(QUIZ, "A4", plain=False)[""].count("\n")
    for end, text in marking_files(QUIZ, ";").items():
        (tmp_path / f"quiz{end}").write_text(text, encoding="utf-8")
    found = mark(read_key(tmp_path / "quiz-key.json"), read_answers(tmp_path / "quiz-answers.csv"))
    assert found.quiz == QUIZ
    assert found.notes == ("nothing was handed in of sheets 1, 2, 3",)
