"""Sheets come out alike from one seed, unlike from sheet to sheet, and rest on sound sources."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.index import read_index
from torquebook.errors import TorquebookError
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import COUNTRIES
from torquebook.quiz.making import make_quiz, question
from torquebook.quiz.model import LEVELS
from torquebook.quiz.registry import FAMILIES, families_of
from torquebook.quiz.stock import Unfounded, founded

if TYPE_CHECKING:
    from torquebook.quiz.model import Question

DIGEST = """
from hashlib import sha256
from torquebook.catalogue.book import Book
from torquebook.quiz.making import make_quiz
book = Book.open()
made = [make_quiz(book, level=at, count=12, sheets=4, seed="s", unit="kgf.m") for at in (1, 3)]
print(sha256(repr(made).encode()).hexdigest())
"""


@pytest.fixture(scope="module")
def book() -> Book:
    return Book.open()


def digest(hash_seed: str) -> str:
    """Return the digest of sheets that another process makes."""
    done = subprocess.run(
        [sys.executable, "-c", DIGEST],
        check=True, capture_output=True, text=True,
        env=os.environ | {"PYTHONHASHSEED": hash_seed, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    return done.stdout


def test_one_seed_gives_the_same_bytes_in_every_process() -> None:
    """Neither the order of sets nor what was made before plays a part."""
    first, second = digest("1"), digest("2")
    assert first == second
    assert len(first.strip()) == 64


def test_draws_are_those_of_the_published_generator() -> None:
    """A seed's bytes are the generator's key; mt19937ar.out of its authors begins so (2002)."""
    key = (0x123, 0x234, 0x345, 0x456)
    seed = b"".join(word.to_bytes(4, "big") for word in reversed(key)).decode("latin-1")
    assert seed.encode() == seed.encode("latin-1"), "all of it is ASCII"
    draw = Draw(seed)
    assert [draw.below(2**32) for _ in range(4)] == [
        1067595299, 955945823, 477289528, 4107218783,
    ]  # fmt: skip


def test_draws_are_those_of_any_machine() -> None:
    """The sequence of a seed is written down: another version of Python has to give it too."""
    draw = Draw("spring course|1")
    assert [draw.below(1000) for _ in range(6)] == [963, 245, 678, 819, 384, 944]
    assert draw.pick("abc") in "abc"
    assert Draw("\udcff|1").below(9) in range(9), "a seed that a terminal could not decode"
    assert {draw.below(1) for _ in range(5)} == {0}
    assert {draw.below(3) for _ in range(60)} == {0, 1, 2}


@pytest.mark.parametrize("unit", COUNTRIES)
@pytest.mark.parametrize("level", LEVELS)
def test_thirty_sheets_of_twenty(level: int, unit: str, book: Book) -> None:
    """No two sheets are alike, no question stands on one twice, every family comes up."""
    made = make_quiz(
        book,
        level=level,
        count=20,
        sheets=30,
        seed="a",
        unit=unit,
        class_name="2 b",
        date="2026-05-31",
    )
    assert (made.class_name, made.date, made.unit, made.level) == ("2 b", "2026-05-31", unit, level)
    assert [sheet.number for sheet in made.sheets] == list(range(1, 31))
    asked = [tuple((q.text, q.grid, q.drawing) for q in sheet.questions) for sheet in made.sheets]
    assert len(set(asked)) == 30
    assert all(len(set(sheet)) == 20 for sheet in asked)
    assert {q.family for sheet in made.sheets for q in sheet.questions} == set(families_of(level))
    assert all(q.level == level for sheet in made.sheets for q in sheet.questions)


def test_another_seed_gives_other_sheets(book: Book) -> None:
    """Seeds and sheets count, the class's name does not."""
    first, second, again = (
        make_quiz(book, level=2, count=10, sheets=2, seed=seed, class_name=name)
        for seed, name in (("a", ""), ("b", ""), ("a", "x"))
    )
    assert first.sheets != second.sheets
    assert first.sheets == again.sheets
    assert first.sheets[0].questions != first.sheets[1].questions


def test_families_that_are_named(book: Book) -> None:
    """Only those are asked, each once before one comes twice."""
    made = make_quiz(book, ("convert", "spanner"), level=1, count=4, sheets=2, seed="a")
    for sheet in made.sheets:
        slugs = [q.family for q in sheet.questions]
        assert sorted(slugs[:2]) == sorted(slugs[2:]) == ["convert", "spanner"]


def test_more_than_a_family_has(book: Book) -> None:
    """A sheet that would repeat itself, and sheets that would be alike, are refused."""
    with pytest.raises(TorquebookError, match="spanner has no further question for one sheet"):
        make_quiz(book, ("spanner",), level=1, count=13, sheets=1, seed="a")
    with pytest.raises(TorquebookError, match="comes out like another"):
        make_quiz(book, ("spanner",), level=1, count=1, sheets=13, seed="a")
    with pytest.raises(TorquebookError, match="0 questions: 1 to 100"):
        make_quiz(book, level=1, count=0, sheets=1, seed="a")
    with pytest.raises(TorquebookError, match="501 sheets: 1 to 500"):
        make_quiz(book, level=1, count=1, sheets=501, seed="a")


def unsound(shelf: str, source: str) -> Book:
    """Return our book with all sources of one shelf replaced."""
    rows = read_index()
    columns = {"tables": 10, "patterns": 3, "materials": 3, "holes": 4, "heads": 7}
    at = columns.get(shelf, {"threads": 5, "classes": 10, "nuts": 8}.get(shelf, 0))
    changed = [[*row[:at], source, *row[at + 1 :]] for row in rows[shelf]]
    return Book([(rows | {shelf: changed}).__getitem__])


RESTS_ON = {
    "threads": ("head-mark", "stress-area", "torque-for-share", "convert"),
    "classes": ("head-mark", "proof-load", "share-of-torque", "finishing-torque"),
    "heads": ("torque-for-share", "oil-preload", "finishing-torque", "spanner", "table-row"),
    "holes": ("torque-for-share", "share-of-torque", "table-row"),
    "nuts": ("nut-pairing",),
    "materials": ("engagement",),
    "tables": ("table-factor",),
    "patterns": ("circle-order", "order-fault"),
}


@pytest.mark.parametrize("source", ["memory: ISO 262, as remembered", "invented: the brigade"])
@pytest.mark.parametrize("shelf", RESTS_ON)
def test_no_key_rests_on_memory_or_on_invented_data(shelf: str, source: str) -> None:
    """A family whose records are all unsound is refused; it never asks all the same."""
    book = unsound(shelf, source)
    for slug in RESTS_ON[shelf]:
        if slug == "convert":
            question(FAMILIES[slug], Draw(slug), book, 3, "N.m")  # needs no thread
            continue
        with pytest.raises(Unfounded):
            make_quiz(book, (slug,), level=3, count=6, sheets=3, seed="a")


def test_what_the_generator_is_handed_is_looked_at_too(book: Book) -> None:
    """A family that forgets to look is caught by the sources of its question."""

    def careless(draw: Draw, book: Book, level: int, unit: str) -> Question:
        made = FAMILIES["convert"](draw, book, level, unit)
        return replace(made, sources=(*made.sources, "VDI 2230-1, embedding; amounts from memory"))

    with pytest.raises(Unfounded, match="convert: no key rests on this source: VDI 2230-1, emb"):
        question(careless, Draw("a"), book, 1, "N.m")


def test_nothing_from_memory_is_drawn(book: Book) -> None:
    """Of a book that holds both, only what is in print is asked of."""
    remembered = {one.size for one in book.threads() if one.source.startswith("memory")}
    assert len(remembered) > 20
    made = make_quiz(book, level=3, count=20, sheets=30, seed="m")
    every: list[Any] = [q for sheet in made.sheets for q in sheet.questions]
    assert all(founded(source) for q in every for source in q.sources)
    words = {word.strip(".,?:") for q in every for word in q.text.split()}
    assert not words & remembered
    assert not any(word in " ".join(q.sources) for q in every for word in ("invented", "memory"))


def test_every_question_says_what_it_rests_on(book: Book) -> None:
    """Assumptions, a solution and sources; an aim in one sentence."""
    for level in LEVELS:
        made = make_quiz(book, level=level, count=20, sheets=10, seed="r")
        for sheet in made.sheets:
            for q in sheet.questions:
                assert q.assumptions
                assert q.solution
                assert q.sources
                assert q.aim.endswith(".")
                assert q.aim.count(". ") == 0
                assert q.text[0].isupper() or q.text[0].isdigit()


def test_sheets_are_made_from_the_index_alone() -> None:
    """Thirty sheets load no model, no validator and no parser."""
    heavy = ("pydantic", "jsonschema_rs", "yaml", "torquebook.rules", "torquebook.records")
    code = (
        "import sys; from torquebook.catalogue.book import Book;"
        "from torquebook.quiz.making import make_quiz;"
        "make_quiz(Book.open(), level=3, count=20, sheets=30, seed='a');"
        f"print([name for name in {heavy!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
