"""Every key is what a second computation makes of the printed question."""

from __future__ import annotations

import re
from itertools import combinations
from typing import TYPE_CHECKING, Any

import pytest
from quiz_keys import CHECKS

from torquebook.catalogue.book import Book
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import COUNTRIES
from torquebook.quiz.making import question
from torquebook.quiz.model import LEVELS, Choice, Number, Sequence
from torquebook.quiz.registry import FAMILIES, FROM

if TYPE_CHECKING:
    from torquebook.quiz.model import Question

EACH = 8  # of every family, level and unit: over 2,000 in all
# A printed key has three figures; givens of the question are rounded as well.
ROUNDED = 0.006
APART = 0.008  # least distance of a wrong answer, as a share: a wrench's 4 and 6 % are 0.02 apart
CASES = [(slug, level) for slug in FAMILIES for level in LEVELS if level >= FROM.get(slug, 1)]


@pytest.fixture(scope="module")
def book() -> Book:
    return Book.open()


def drawn(slug: str, level: int, book: Book) -> list[tuple[str, Question]]:
    """Return questions of a family in every unit."""
    made = []
    for unit in COUNTRIES:
        draw = Draw(f"keys|{slug}|{level}|{unit}")
        family = FAMILIES[slug]
        made += [(unit, question(family, draw, book, level, unit)) for _ in range(EACH)]
    return made


def value_of(text: str) -> float:
    """Return the number that an option begins with."""
    found = re.match(r"\d+(?:\.\d+)?", text)
    assert found, text
    return float(found[0])


def agree(made: Question, expected: Any) -> None:
    """Hold a key to what was worked out of the text, and every other answer apart from it."""
    answer = made.answer
    if isinstance(answer, Sequence):
        assert sorted(expected) == sorted((answer.key, *answer.accepted))
    elif isinstance(answer, Number):
        assert answer.value == pytest.approx(expected, rel=ROUNDED)
        assert answer.accepts(round(expected, 9))
        assert not any(answer.accepts(slip.value) for slip in answer.slips)
        exact = answer.tolerance == 0
        assert ("exactly." if exact else f"within {answer.margin} counts") in made.text
    elif isinstance(expected, str):
        assert answer.options[answer.key].text == expected
    else:
        right = value_of(answer.options[answer.key].text)
        assert right == pytest.approx(expected, rel=ROUNDED)
        apart = max(APART * expected, 3 * abs(right - expected))
        for option in answer.options:
            assert option.right or abs(value_of(option.text) - expected) >= apart


def test_two_thousand_questions_are_worked_out_again() -> None:
    """All families stand in the table of second computations, and there are enough draws."""
    assert set(CHECKS) == set(FAMILIES)
    assert len(CASES) * len(COUNTRIES) * EACH >= 2000


@pytest.mark.parametrize(("slug", "level"), CASES, ids=str)
def test_keys(slug: str, level: int, book: Book) -> None:
    """The key follows from the printed text by a published formula or rule."""
    for _, made in drawn(slug, level, book):
        try:
            agree(made, CHECKS[slug](made, book))
        except AssertionError as fault:
            raise AssertionError(f"{made}\n{fault}") from fault


@pytest.mark.parametrize(("slug", "level"), CASES, ids=str)
def test_options_are_mistakes_and_differ(slug: str, level: int, book: Book) -> None:
    """Every wrong answer names its mistake; no two options show the same value."""
    for _, made in drawn(slug, level, book):
        answer = made.answer
        if isinstance(answer, Choice):
            assert 3 <= len(answer.options) <= 5
            texts = [option.text for option in answer.options]
            assert len(set(texts)) == len(texts)
            assert sum(option.right for option in answer.options) == 1
            units = {re.sub(r"^\d+(?:\.\d+)? ", "", text) for text in texts}
            if len(units) == 1:
                for one, other in combinations(map(value_of, texts), 2):
                    assert one != pytest.approx(other, rel=0.003)
        elif isinstance(answer, Number):
            assert answer.slips
            assert all(slip.mistake for slip in answer.slips)
