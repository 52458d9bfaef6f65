"""No question shows a unit, a class or a thread that its level does not know."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood, TorquebookError
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import COUNTRIES, checked, units_of
from torquebook.quiz.making import question
from torquebook.quiz.model import LEVELS, Choice, HeadMark, Number, Sequence
from torquebook.quiz.registry import FAMILIES, FROM, families_of

if TYPE_CHECKING:
    from torquebook.quiz.model import Question

EACH = 25
# Level 1 and 2 as the trainer orders them, written down apart from the program.
SIZES = {
    1: {"M6", "M8", "M10", "M12"},
    2: {"M6", "M8", "M10", "M12", "M14", "M16"},
}
CLASSES = {1: {"8.8"}, 2: {"8.8", "10.9"}}
# What is read off a head or a table, or stands in the question with all that it takes.
READ = {
    "head-mark",
    "stress-area",
    "proof-load",
    "nut-pairing",
    "engagement",
    "spanner",
    "table-row",
}
READ_SIZES = {f"M{d}" for d in (5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24)}
READ_CLASSES = {"5.8", "6.8", "8.8", "10.9", "12.9"}
UNIT = re.compile(r"(?:[cd]?N|daN|lbf|lb|kgf|ozf)[·.-](?:cm|m|ft|in)\b")
CLASS = re.compile(r"\b(?:class|grade) (\d+\.\d|A\d-\d0|SAE \d|A\d{3})")


def printed(made: Question) -> list[str]:
    """Return all that a sheet or a key prints of a question, without its sources."""
    texts = [made.text, made.aim, *made.assumptions, *made.solution]
    answer = made.answer
    if isinstance(answer, Choice):
        texts += [text for option in answer.options for text in (option.text, option.mistake)]
    elif isinstance(answer, Number):
        texts += [answer.shown, *(slip.mistake for slip in answer.slips)]
    else:
        texts += answer.items
    if made.grid:
        texts += [made.grid.title, *made.grid.columns, *(c for row in made.grid.rows for c in row)]
    return texts


def classes_in(made: Question) -> set[str]:
    """Return the bolts' classes that a question shows."""
    found = {name for text in printed(made) for name in CLASS.findall(text)}
    if isinstance(made.drawing, HeadMark):
        found.add(made.drawing.mark)
    if made.grid and "class" in made.grid.columns:
        at = made.grid.columns.index("class")
        found |= {row[at] for row in made.grid.rows}
    return found


@pytest.fixture(scope="module")
def book() -> Book:
    return Book.open()


@pytest.mark.parametrize("unit", COUNTRIES)
@pytest.mark.parametrize("level", LEVELS)
def test_nothing_from_above_the_level(level: int, unit: str, book: Book) -> None:
    """Units, threads, classes and angles keep to the level in every family."""
    known = {name.replace(".", "·") for name in units_of(level, unit)}
    for slug in families_of(level):
        draw = Draw(f"levels|{slug}|{level}|{unit}")
        for _ in range(EACH):
            made = question(FAMILIES[slug], draw, book, level, unit)
            whole = "\n".join(printed(made))
            assert set(UNIT.findall(whole)) <= known, made
            if level in SIZES:
                threads = READ_SIZES if slug in READ else SIZES[level]
                marks = READ_CLASSES if slug in READ else CLASSES[level]
                sizes = set(re.findall(r"\bM\d+(?:x[\d.]*\d)?", whole))
                assert {size.partition("x")[0] for size in sizes} <= threads, made
                assert level > 1 or not any("x" in size for size in sizes), made
                assert classes_in(made) <= marks, made
                assert not re.search(r"\d/\d+-\d|\bSAE\b|\bA[24]-", whole), made
            assert level > 1 or not re.search(r"\+\d+°|turned by|\d flats?\b", whole), made


def test_the_countrys_unit_is_used(book: Book) -> None:
    """Torques of a question are in the country's unit, where it is not about another one."""
    for unit in COUNTRIES:
        for slug in ("torque-for-share", "adapter-set", "wrench-deviation", "drag-added"):
            made = question(FAMILIES[slug], Draw(f"{slug}{unit}"), book, 2, unit)
            assert set(UNIT.findall(made.text)) <= {unit.replace(".", "·")}
            answer = made.answer
            assert not isinstance(answer, Sequence)
            shown = answer.shown if isinstance(answer, Number) else answer.options[answer.key].text
            assert shown.endswith(unit.replace(".", "·"))


def test_levels_and_units_that_there_are_not() -> None:
    """A level, a unit or a family that is none is refused with those that are."""
    with pytest.raises(TorquebookError, match="level 4: there are 1, 2, 3"):
        checked(4, "N.m")
    with pytest.raises(NotUnderstood, match=r"write N\.m or lbf\.ft or lbf\.in or kgf\.m"):
        checked(1, "ozf.in")
    with pytest.raises(NotUnderstood, match="no family of questions"):
        families_of(1, ("haed-mark",))
    with pytest.raises(NotUnderstood, match="asked from level 2 on, not at 1"):
        families_of(1, ("angle-units",))
    assert checked(1, "Nm") == "N.m"


def test_what_is_asked_from_a_level_on() -> None:
    """Angles begin at level 2, printed inch tables at level 3; the rest is asked from the first."""
    assert {slug for slug, level in FROM.items() if level == 2} == {
        "angle-units", "thread-advance", "finishing-torque", "drag-added",
    }  # fmt: skip
    assert len(FAMILIES) >= 18
    assert families_of(3) == tuple(FAMILIES)
    assert set(families_of(1)) == set(FAMILIES) - set(FROM)
