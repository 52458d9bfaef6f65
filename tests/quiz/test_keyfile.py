"""The key's file gives the whole quiz back, and a damaged one is told with its place."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from quiz_class import CIRCLE, QUIZ, SHARE, SPANNER_8, STEPS, asked
from quiz_papers import quiz as printed
from quiz_papers import with_other_keys

from torquebook.catalogue.book import Book
from torquebook.errors import Unreadable
from torquebook.quiz.keyfile import key_data, read_key
from torquebook.quiz.letters import code_of, code_of_answers, labels, letter, written
from torquebook.quiz.making import make_quiz
from torquebook.quiz.model import (
    BoltCircle,
    Choice,
    Grid,
    HeadMark,
    Number,
    Option,
    Sequence,
    Sheet,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from torquebook.quiz.model import Question, Quiz


@pytest.fixture(scope="module", params=[1, 2, 3])
def quiz(request: pytest.FixtureRequest) -> Quiz:
    """Return sheets that hold every kind of answer and drawing of a level."""
    return make_quiz(
        Book.open(), level=request.param, count=20, sheets=12, seed="keys", class_name="2 b"
    )


def test_a_key_reads_back_as_the_quiz(quiz: Quiz, tmp_path: Path) -> None:
    """Nothing is lost on the way to the file and back, and JSON holds no tuple in disguise."""
    path = tmp_path / "key.json"
    path.write_text(json.dumps(key_data(quiz), indent=1), encoding="utf-8")
    assert read_key(path) == quiz


def test_letters_and_keys_as_they_are_written() -> None:
    """Options and words have letters, positions their numbers, a number its unit."""
    choice = Choice((Option("13 mm", "the row of M8"), Option("16 mm")))
    words = Sequence(("tighten", "mark", "back off"), (1, 2, 0))
    circle = Sequence(("1", "2", "3", "4"), (0, 2, 1, 3))
    assert letter(25) == "Z"
    assert [labels(one) for one in (choice, words, circle)] == [
        ("A", "B"), ("A", "B", "C"), ("1", "2", "3", "4"),
    ]  # fmt: skip
    number = Number(47.2, "N.m", 1.4, 1)
    assert [written(one) for one in (choice, words, circle, number)] == [
        "B", "B-C-A", "1-3-2-4", "47.2 N·m",
    ]  # fmt: skip


def test_a_code_tells_quizzes_apart() -> None:
    """Another seed gives another code, another class's name does not; no code is a number."""
    book = Book.open()
    codes = [
        code_of(make_quiz(book, level=1, count=3, sheets=2, seed=seed, class_name=name))
        for seed, name in (("a", ""), ("a", "1 c"), ("b", ""), ("c", ""))
    ]
    assert codes[0] == codes[1]
    assert len(set(codes)) == 3
    assert all(len(code) == 5 and code.isalpha() and code.isupper() for code in codes)


def test_a_code_gives_no_key_away() -> None:
    """The same sheets with other keys have the same code: nothing can be tried out by it."""
    for level in (1, 2, 3):
        made = printed(level)
        other = with_other_keys(made)
        assert [written(one.answer) for one in made.sheets[0].questions] != [
            written(one.answer) for one in other.sheets[0].questions
        ]
        assert code_of(made) == code_of(other)
        assert code_of_answers(made) != code_of_answers(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (asked("a", SPANNER_8), asked("a", SPANNER_8, "Which?")),
        (asked("a", SPANNER_8), asked("a", Choice(SPANNER_8.options[::-1]))),
        (asked("a", STEPS), asked("a", replace(STEPS, items=STEPS.items[::-1]))),
        (asked("a", SHARE), replace(asked("a", SHARE), assumptions=("oiled",))),
        (asked("a", CIRCLE, "?", BoltCircle(4)), asked("a", CIRCLE, "?", BoltCircle(4, 90.0))),
        (asked("a", SPANNER_8, "?", HeadMark("8.8")), asked("a", SPANNER_8, "?", HeadMark("5.8"))),
        (
            asked("a", SPANNER_8, "?", None, Grid("t", ("size",), (("M8",),))),
            asked("a", SPANNER_8, "?", None, Grid("t", ("size",), (("M10",),))),
        ),
    ],
)
def test_what_a_sheet_shows_makes_its_code(one: Question, other: Question) -> None:
    """One text, option, step, assumption, drawing or cell of a table that differs is enough."""
    codes = {code_of(replace(QUIZ, sheets=(Sheet(1, (part,)),))) for part in (one, other)}
    assert len(codes) == 2


def drop(path: tuple[str | int, ...]) -> Callable[[Any], None]:
    """Return what takes a value out of a key."""

    def change(data: Any) -> None:
        for key in path[:-1]:
            data = data[key]
        del data[path[-1]]

    return change


def put(value: object, *path: str | int) -> Callable[[Any], None]:
    """Return what puts another value into a key."""

    def change(data: Any) -> None:
        for key in path[:-1]:
            data = data[key]
        data[path[-1]] = value

    return change


ASKED = ("sheets", 0, "questions", 0)
DAMAGE = {
    "no key": (put("plan", "what"), "this is no key of question sheets"),
    "missing": (drop((*ASKED, "aim")), '"aim" is missing here'),
    "no list": (put("a", *ASKED, "sources"), "a list is wanted here"),
    "no text": (put(3, *ASKED, "family"), "a text is wanted here"),
    "no number": (put(True, *ASKED, "level"), "a whole number is wanted here"),
    "no mapping": (put(3, *ASKED, "answer"), "braces are wanted here"),
    "refused by the model": (put([], *ASKED, "sources"), "assumptions, solution or sources"),
    "no answer": (put("essay", *ASKED, "answer", "kind"), '"essay" is no kind of answer'),
    "no drawing": (put({"kind": "photo"}, *ASKED, "drawing"), '"photo" is no kind of drawing'),
    "changed": (put("What?", *ASKED, "text"), "the questions below are not those"),
    "no sheet": (put([], "sheets"), "there is no sheet in this key"),
    "same number": (put(2, "sheets", 0, "sheet"), "two sheets have the same number"),
}


@pytest.mark.parametrize("name", DAMAGE)
def test_a_damaged_key_is_told(name: str, tmp_path: Path) -> None:
    """One message: file, line and column, what is wrong, what would be right."""
    change, said = DAMAGE[name]
    quiz = make_quiz(Book.open(), ("convert",), level=1, count=2, sheets=2, seed="d")
    data = json.loads(json.dumps(key_data(quiz)))
    change(data)
    path = tmp_path / "key.json"
    path.write_text(json.dumps(data, indent=1), encoding="utf-8")
    with pytest.raises(Unreadable, match=said) as told:
        read_key(path)
    assert told.value.right == "name the key that was written with the sheets"
    if name != "no key":
        line, column = map(int, told.value.where.removeprefix(f"{path}:").split(":"))
        assert path.read_text(encoding="utf-8").splitlines()[line - 1][column - 1 :]


@pytest.mark.parametrize(
    ("at", "value"), [((1, "answer", "value"), 50.0), ((2, "answer", "key"), [0, 1, 2, 3])]
)
def test_a_changed_answer_is_told(at: tuple[str | int, ...], value: object, tmp_path: Path) -> None:
    """The code of the sheets cannot show it, so the file has one of its answers too."""
    data = json.loads(json.dumps(key_data(QUIZ)))
    put(value, "sheets", 0, "questions", *at)(data)
    path = tmp_path / "key.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(Unreadable, match="the answers below are not those that this code"):
        read_key(path)
