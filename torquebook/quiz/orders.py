"""Families about orders over a bolt circle, and about the order of the work."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from torquebook.patterns.layout import circle_spots
from torquebook.patterns.making import round_the_circle
from torquebook.patterns.measures import MOST_PULL, check, pull
from torquebook.quiz.answering import chosen
from torquebook.quiz.model import BoltCircle, Choice, Option, Question, Sequence
from torquebook.quiz.stock import Unfounded, founded

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Pattern
    from torquebook.quiz.draws import Draw

_MOST: Final = {1: 6, 2: 8, 3: 10}
_ALL_ORDERS: Final = 6  # up to so many bolts every right order is looked for
_STARTS: Final = (0.0, 90.0, 180.0, 270.0)
_WHERE: Final = {0.0: "on top", 90.0: "on the right", 180.0: "at the bottom", 270.0: "on the left"}
PULL_SAID: Final = (
    "In the first pass the bolts tightened so far never pull more than one bolt's worth to a side."
)


@lru_cache(maxsize=16)
def _patterns(book: Book, level: int) -> tuple[Pattern, ...]:
    found = [
        one for one in book.patterns()
        if one.shape == "circle" and founded(one.source) and len(one.order) <= _MOST[level]
    ]  # fmt: skip
    if not found:
        raise Unfounded("no published order over a circle bears a key in this book")
    return tuple(found)


@lru_cache(maxsize=16)
def _even(count: int) -> tuple[tuple[int, ...], ...]:
    """Return every order from bolt 1 on that closes a circle evenly."""
    spots = circle_spots(count)
    found: tuple[tuple[int, ...], ...] = ((1,),)
    for _ in range(count - 1):
        longer = ((*one, at) for one in found for at in range(2, count + 1) if at not in one)
        found = tuple(one for one in longer if pull(one, spots) <= MOST_PULL)
    return found


def _dashed(order: tuple[int, ...]) -> str:
    return "-".join(map(str, order))


def _circle(draw: Draw, count: int) -> tuple[BoltCircle, str]:
    """Return a drawn circle, and how it is counted in words."""
    start, clockwise = draw.pick(_STARTS), bool(draw.below(2))
    way = "clockwise" if clockwise else "anticlockwise"
    said = f"{count} bolts on a circle are counted {way}, number 1 {_WHERE[start]}, as drawn."
    return BoltCircle(count, start, clockwise), said


def circle_order(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the order of a first pass over a circle."""
    pattern = draw.pick(_patterns(book, level))
    order = pattern.order
    count = len(order)
    circle, said = _circle(draw, count)
    answer: Sequence | Choice
    if count <= _ALL_ORDERS and draw.below(2):
        text = f"{said} Begin at 1 and put them in order for the first pass."
        answer = Sequence(tuple(map(str, range(1, count + 1))), *_keys(order))
    else:
        text = f"{said} Which order closes the joint evenly in the first pass?"
        answer = chosen(draw, _dashed(order), draw.mixed(_wrong_orders(order))[:3])
    return Question(
        "circle-order", level, "Draw a joint down evenly.", text,
        (PULL_SAID, "All bolts are alike, and the parts lie flat."), answer,
        (f"{_dashed(order)}: each bolt, then the one that balances it best.",), (pattern.source,),
        drawing=circle,
    )  # fmt: skip


@lru_cache(maxsize=32)
def _keys(order: tuple[int, ...]) -> tuple[tuple[int, ...], tuple[tuple[int, ...], ...]]:
    """Return an order as indices, and the other orders that are as even."""
    others = [one for one in _even(len(order)) if one != order]
    return tuple(at - 1 for at in order), tuple(tuple(at - 1 for at in one) for one in others)


@lru_cache(maxsize=32)
def _wrong_orders(order: tuple[int, ...]) -> tuple[Option, ...]:
    """Return what is done instead of an order, each with what is wrong with it."""
    count = len(order)
    spots = circle_spots(count)
    one_way = round_the_circle(count)
    halves = (*one_way[::2], *one_way[1::2])
    found = [
        (one_way, "round the circle: the part tips to one side"),
        ((*order[:-1], order[0]), f"bolt {order[-1]} is missed, and 1 comes twice"),
        (halves, "every other bolt: still one side first"),
        ((one_way[0], *one_way[:0:-1]), "round the circle the other way"),
    ]
    wrong: list[Option] = []
    for other, why in found:
        seen = check((other,), spots)[0]
        if not (seen.complete and seen.even) and _dashed(other) not in {one.text for one in wrong}:
            wrong.append(Option(_dashed(other), why))
    return tuple(wrong)


def order_fault(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what is wrong with the order of a first pass."""
    pattern = draw.pick(_patterns(book, level))
    order = pattern.order
    count = len(order)
    circle, where = _circle(draw, count)
    planned = _planned(draw, order)
    seen = check((planned,), circle_spots(count))[0]
    right, why = _fault(seen.faults.missed, seen.faults.twice, even=seen.even)
    whole = seen.complete
    wrong = [Option(text, said) for text, said in _faults(planned, whole=whole) if text != right]
    told = f"A list gives the first pass as {_dashed(planned)}."
    if whole and draw.below(2):
        circle = replace(circle, order=planned)
        told = "The drawing shows the first pass of a list: in each bolt stands its turn."
    return Question(
        "order-fault", level, "Check an order before the first bolt is turned.",
        f"{where} {told} What is wrong with it?",
        (PULL_SAID, "Every bolt is tightened once in a pass."),
        chosen(draw, right, wrong), (why,), (pattern.source,), drawing=circle,
    )  # fmt: skip


def _planned(draw: Draw, order: tuple[int, ...]) -> tuple[int, ...]:
    """Return an order as it is, or as somebody spoils it."""
    at = 1 + draw.below(len(order) - 1)
    twice = order[draw.below(at)]
    one_way = round_the_circle(len(order))
    return draw.pick((
        order[:at] + order[at + 1 :],
        (*order[:at], twice, *order[at:]) if twice != order[at - 1] else (*order, order[0]),
        one_way,
        (*one_way[::2], *one_way[1::2]),
        order,
    ))  # fmt: skip


def _fault(missed: tuple[int, ...], twice: tuple[int, ...], *, even: bool) -> tuple[str, str]:
    if missed:
        return f"bolt {missed[0]} is missed", f"Count them: {missed[0]} is not in the list."
    if twice:
        return f"bolt {twice[0]} comes twice", f"Count them: {twice[0]} stands there two times."
    if not even:
        return _ROUND, "After a few bolts one side is drawn down, and the other stands off."
    return _NOTHING, "Every bolt comes once, and each balances those before it."


_ROUND: Final = "it draws one side down first"
_NOTHING: Final = "nothing"


def _faults(planned: tuple[int, ...], *, whole: bool) -> list[tuple[str, str]]:
    """Return faults that a list does not have, with what is overlooked by who sees them.

    A list with a bolt missed or twice may draw one side down as well, so that is no wrong answer
    to it.
    """
    once = [one for one in planned if planned.count(one) == 1]
    found = [
        (_NOTHING, "the bolts were not counted, or their places not looked at"),
        (f"bolt {once[0]} is missed", "it stands in the list"),
        (f"bolt {once[-1]} comes twice", "it stands there once"),
    ]
    return [*found, (_ROUND, "the places were not looked at")] if whole else found


FAMILY: Final = (("circle-order", circle_order), ("order-fault", order_fault))
