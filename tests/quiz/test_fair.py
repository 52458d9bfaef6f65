"""Nothing but the work tells a key: no place, size, length, wording or tolerance of an answer."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from functools import lru_cache

import pytest
from quiz_keys import eval_fraction

from torquebook.catalogue.book import Book
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import COUNTRIES
from torquebook.quiz.making import make_quiz, question
from torquebook.quiz.model import LEVELS, BoltCircle, Choice, HeadMark, Number, Question
from torquebook.quiz.registry import FAMILIES, FROM

DRAWS = 2000
ENOUGH = 150  # fewer of a kind say nothing
# Shares of draws. A pattern that a pupil can live on is right nearly always, or never.
PLACE = 0.3  # how far from an even share a place may be
LEAST, MOST = 0.05, 0.65
BANKED = {"list-mistake", "reuse-verdict", "gate-order"}  # their questions lie in the bank
DRAWN = sorted(set(FAMILIES) - BANKED)
FIGURE = re.compile(r"\d+/\d+|\d+(?:\.\d+)?")


@lru_cache(maxsize=64)
def drawn(slug: str) -> tuple[Question, ...]:
    """Return 2,000 questions of a family or more, of all its levels and units."""
    book = Book.open()
    levels = [level for level in LEVELS if level >= FROM.get(slug, 1)]
    each = 1 + DRAWS // (len(levels) * len(COUNTRIES))
    made = []
    for level in levels:
        for unit in COUNTRIES:
            draw = Draw(f"fair|{slug}|{level}|{unit}")
            made += [question(FAMILIES[slug], draw, book, level, unit) for _ in range(each)]
    assert len(made) >= DRAWS
    return tuple(made)


def choices(slug: str) -> list[Choice]:
    """Return the answers that are chosen."""
    return [q.answer for q in drawn(slug) if isinstance(q.answer, Choice)]


def key_of(q: Question) -> str:
    """Return a key in print."""
    answer = q.answer
    return answer.options[answer.key].text if isinstance(answer, Choice) else answer.shown


def plain(text: str) -> str:
    """Return a text without its numbers."""
    return FIGURE.sub("#", text)


def sizes_of(answer: Choice) -> list[float]:
    """Return the first numbers of the options; none where they are words, or begin alike."""
    texts = [option.text for option in answer.options]
    if len({plain(text) for text in texts}) > 1 or "-" in texts[0]:
        return []
    found = [FIGURE.search(text) for text in texts]
    values = [eval_fraction(one[0]) for one in found if one]
    return values if len(set(values)) == len(texts) else []


def held(counts: dict[str, Counter[bool]], what: str) -> None:
    """Fail where something is right nearly always, or nearly never."""
    for name, count in counts.items():
        share = count[True] / count.total()
        assert count.total() < ENOUGH or LEAST <= share <= MOST, f"{what} {name}: {share:.2f}"


@pytest.mark.parametrize("slug", DRAWN)
def test_every_place_is_right_as_often(slug: str) -> None:
    """The key stands first as often as last."""
    places: dict[int, Counter[int]] = defaultdict(Counter)
    for answer in choices(slug):
        places[len(answer.options)][answer.key] += 1
    for many, count in places.items():
        if count.total() >= ENOUGH * many:
            for place in range(many):
                share = count[place] / count.total()
                assert abs(share * many - 1) <= PLACE, (many, place, share)


@pytest.mark.parametrize("slug", DRAWN)
def test_the_key_is_no_size_of_its_own(slug: str) -> None:
    """The greatest option is right now and then, and so is the least and any between."""
    ranks: dict[str, Counter[bool]] = defaultdict(Counter)
    for answer in choices(slug):
        values = sizes_of(answer)
        for rank, value in enumerate(sorted(values)):
            ranks[f"{rank + 1} of {len(values)}"][value == values[answer.key]] += 1
    held(ranks, "by size")


@pytest.mark.parametrize("slug", DRAWN)
def test_the_key_is_neither_the_longest_nor_the_shortest(slug: str) -> None:
    """Among words the one that sticks out is right now and then; a number's digits are its size."""
    lengths: dict[str, Counter[bool]] = defaultdict(Counter)
    for answer in choices(slug):
        if not sizes_of(answer):
            long = [len(option.text) for option in answer.options]
            for name, end in (("longest", max(long)), ("shortest", min(long))):
                if long.count(end) == 1:
                    lengths[name][long[answer.key] == end] += 1
    held(lengths, "by length")


@pytest.mark.parametrize("slug", DRAWN)
def test_no_wording_is_always_or_never_right(slug: str) -> None:
    """Each text is right and wrong in turn, whatever the number of options beside it."""
    words: dict[str, Counter[bool]] = defaultdict(Counter)
    for answer in choices(slug):
        for option in answer.options:
            words[f"{plain(option.text)} of {len(answer.options)}"][option.right] += 1
    held(words, "by wording")


def test_no_turn_is_always_or_never_right() -> None:
    """An order of six or more goes wrong early or late; one of four would at the second only."""
    turns: dict[str, Counter[bool]] = defaultdict(Counter)
    for q in drawn("order-fault"):
        answer = q.answer
        if isinstance(answer, Choice) and isinstance(q.drawing, BoltCircle) and q.drawing.order:
            for option in answer.options:
                assert q.drawing.count > 4
                turns[f"{option.text} of {q.drawing.count}"][option.right] += q.drawing.count > 5
    held({name: count for name, count in turns.items() if count.total()}, "by turn")


@pytest.mark.parametrize("slug", DRAWN)
def test_the_tolerance_tells_nothing(slug: str) -> None:
    """All questions of a family that ask for one unit print the same share, or ``exactly``."""
    told: dict[str, set[str]] = defaultdict(set)
    for q in drawn(slug):
        if isinstance(q.answer, Number):
            said = q.text.rpartition(" Answer in ")[2]
            assert said, q.text
            assert q.answer.margin in {"0"} | set(re.findall(r"within (.*?) counts", said))
            told[q.answer.unit].add(said)
    assert all(len(said) == 1 for said in told.values()), told


@pytest.mark.parametrize("slug", DRAWN)
def test_the_way_ends_at_the_key(slug: str) -> None:
    """The last figure that a solution works out is the key, digit by digit."""
    for q in drawn(slug):
        answer = q.answer
        if isinstance(answer, Number) or (isinstance(answer, Choice) and sizes_of(answer)):
            shown = key_of(q)
            steps = [step for step in q.solution if FIGURE.search(step)]
            last = steps[-1].rpartition(" = ")[2] if " = " in steps[-1] else steps[-1]
            assert float_of(shown) in map(eval_fraction, FIGURE.findall(last)), (q.solution, shown)


def float_of(text: str) -> float:
    """Return the first number of a text."""
    found = FIGURE.search(text)
    assert found, text
    return eval_fraction(found[0])


def test_the_key_is_printed_as_it_is_worked_out() -> None:
    """Where a figure is rounded, key and solution print the same digits."""
    for slug in ("share-of-torque", "engagement", "torque-for-share", "table-factor", "convert"):
        for q in drawn(slug):
            assert key_of(q) in q.solution[-1], (q.solution, key_of(q))


def test_a_socket_head_carries_what_it_is_made_in() -> None:
    """Socket heads are marked 8.8 and up or stainless; the weak classes have a hexagon."""
    heads = {q.drawing for q in drawn("head-mark") if isinstance(q.drawing, HeadMark)}
    socket = {one.mark for one in heads if one.head == "socket"}
    assert socket == {"8.8", "10.9", "12.9", "A2-70", "A4-80"}
    assert {one.mark for one in heads if one.head == "hexagon"} > socket


def test_sheets_of_the_first_year_are_not_one_sheet() -> None:
    """Thirty sheets of level 1 show many marks, nuts and spanners."""
    made = make_quiz(Book.open(), level=1, count=20, sheets=30, seed="first year")
    every = [q for sheet in made.sheets for q in sheet.questions]
    asked = defaultdict(set)
    for q in every:
        asked[q.family].add((q.text, q.drawing))
    assert {slug for slug in asked if len(asked[slug]) < 11} <= BANKED
    marks = {q.drawing.mark for q in every if isinstance(q.drawing, HeadMark)}
    assert marks == {"5.8", "6.8", "8.8", "10.9", "12.9"}
    nuts = {q.answer.options[q.answer.key].text for q in every
            if q.family == "nut-pairing" and isinstance(q.answer, Choice)}  # fmt: skip
    assert nuts == {"class 5", "class 6", "class 8", "class 10", "class 12"}


def test_what_rests_on_two_documents_names_both() -> None:
    """A stress area cites the standard of its formula; an engagement hides no stricter word."""
    for q in drawn("stress-area"):
        assert q.sources[0].startswith("ASME B1.1" if "ASME" in q.assumptions[0] else "ISO 898-1")
    for q in drawn("engagement"):
        stricter = "TM 9-6115-604-34 wants 2 d and the torque cut by 30 %"
        soft = "aluminium" in q.text
        assert soft == (stricter in q.sources[0])
        assert soft == (stricter in " ".join(q.assumptions))


@pytest.mark.parametrize("slug", ["torque-for-share", "share-of-torque"])
def test_a_formula_in_newton_metres_says_how_to_get_to_them(slug: str) -> None:
    """Where the torque is in another unit, the factor stands among the assumptions."""
    for q in drawn(slug):
        if unit := re.search(r"lbf·ft|lbf·in|kgf·m|kgf·cm", f"{q.text} {key_of(q)}"):
            assert any(one.startswith(f"1 {unit[0]} is ") for one in q.assumptions), q


def test_a_flat_is_taken_for_a_turn_up_to_one_flat() -> None:
    """Above 60 degrees that mistake leads to no number."""
    for q in drawn("finishing-torque"):
        angle = float(re.findall(r"turned by (\d+)°", q.text)[0])
        assert angle <= 60 or "a flat and a whole turn" not in str(q.answer)


def test_no_torque_is_converted_into_its_own_unit() -> None:
    """A printed table that is shown in its own unit says nothing of another."""
    told = [one for q in drawn("table-row") for one in q.assumptions if "brought into" in one]
    assert told
    for one in told:
        first, second = re.findall(r"in(?:to)? (\S+?)(?:,| here)", one)
        assert first != second
    assert not any("lb-ft" in step for q in drawn("table-row") for step in q.solution)
