"""The key's file gives the whole quiz back, and a damaged one is told with its place."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from torquebook.catalogue.book import Book
from torquebook.errors import Unreadable
from torquebook.quiz.keyfile import key_data, read_key
from torquebook.quiz.letters import code_of, labels, letter, written
from torquebook.quiz.making import make_quiz
from torquebook.quiz.model import Choice, Number, Option, Sequence

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from torquebook.quiz.model import Quiz


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
    "changed": (put("What?", *ASKED, "text"), "not those that this code stands for"),
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
