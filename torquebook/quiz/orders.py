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
_FEW: Final = 4  # of so few, only the second can draw a side down first
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
        text = (
            f"{said} Begin at 1 and put them in order for the first pass; any order that keeps to "
            "the pull below is right."
        )
        answer = Sequence(tuple(map(str, range(1, count + 1))), *_keys(order))
        step = f"Any order that never pulls more than that; for instance {_dashed(order)}:"
    else:
        text = f"{said} Which order closes the joint evenly in the first pass?"
        answer = chosen(draw, _dashed(order), draw.mixed(_wrong_orders(order))[:3])
        step = f"{_dashed(order)}:"
    return Question(
        "circle-order", level, "Draw a joint down evenly.", text,
        (PULL_SAID, "All bolts are alike, and the parts lie flat."), answer,
        (f"{step} each bolt, then the one that balances those before it.",), (pattern.source,),
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
    count = len(pattern.order)
    circle, where = _circle(draw, count)
    even = _turned(pattern.order, draw.below(count), mirrored=bool(draw.below(2)))
    if count > _FEW and draw.below(2):
        circle, text, answer, why = _tips(draw, even, circle)
    else:
        text, answer, why = _listed(draw, even)
    return Question(
        "order-fault", level, "Check an order before the first bolt is turned.",
        f"{where} {text}", (PULL_SAID, "Every bolt is tightened once in a pass."),
        answer, (why,), (pattern.source,), drawing=circle,
    )  # fmt: skip


def _turned(order: tuple[int, ...], by: int, *, mirrored: bool) -> tuple[int, ...]:
    """Return an order on the same circle turned or seen from behind, which is as even."""
    count, way = len(order), -1 if mirrored else 1
    return tuple((way * (at - 1) + by) % count + 1 for at in order)


def _even_yet(order: tuple[int, ...], count: int) -> bool:
    return pull(order, circle_spots(count)) <= MOST_PULL


def _listed(draw: Draw, even: tuple[int, ...]) -> tuple[str, Choice, str]:
    """Return a list with one fault at most, what is wrong with it, and why."""
    kind = draw.below(4)
    planned = draw.pick((_shorter, _longer, _spoiled, _whole)[kind](even))
    once = draw.mixed(at for at in planned if planned.count(at) == 1)
    missed, twice = once[0], once[1]
    if kind == 0:
        missed = next(at for at in even if at not in planned)
    elif kind == 1:
        twice = next(at for at in even if planned.count(at) > 1)
    every = (
        (f"bolt {missed} is missed", "it stands in the list",
         f"Count them: {missed} is not in the list."),
        (f"bolt {twice} comes twice", "it stands there once",
         f"Count them: {twice} stands there two times."),
        ("it draws one side down first", "each bolt balances those before it",
         "After a few bolts one side is drawn down, and the other stands off."),
        ("nothing", "the bolts were not counted, or their places not looked at",
         "Every bolt comes once, and each balances those before it."),
    )  # fmt: skip
    wrong = [Option(text, said) for at, (text, said, _) in enumerate(every) if at != kind]
    text = f"A list gives the first pass as {_dashed(planned)}. What is wrong with it?"
    return text, chosen(draw, every[kind][0], wrong), every[kind][2]


@lru_cache(maxsize=256)
def _shorter(even: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return an order without one of its bolts, where that draws no side down."""
    count = len(even)
    every = (even[:at] + even[at + 1 :] for at in range(count))
    return tuple(one for one in every if _even_yet(one, count))


@lru_cache(maxsize=256)
def _longer(even: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return an order with one of its bolts once more, where that draws no side down."""
    count = len(even)
    every = ((*even[: at + 1], bolt, *even[at + 1 :])
             for at in range(2, count) for bolt in even[: at - 1])  # fmt: skip
    return tuple(one for one in every if _even_yet(one, count))


@lru_cache(maxsize=256)
def _spoiled(even: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return whole orders that draw one side down: round the circle, or two bolts changed."""
    count, first = len(even), even[0]
    one_way = tuple((first - 1 + at) % count + 1 for at in range(count))
    every = [one_way, (first, *one_way[:0:-1]), (*one_way[::2], *one_way[1::2])]
    pairs = [(at, at + step) for at in range(1, count - 1) for step in (1, 2)]
    for at, other in (*pairs, *((1, other) for other in range(4, count))):
        if other < count:
            changed = list(even)
            changed[at], changed[other] = changed[other], changed[at]
            every.append(tuple(changed))
    return tuple(one for one in dict.fromkeys(every) if not _even_yet(one, count))


def _whole(even: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    return (even,)


@lru_cache(maxsize=256)
def _by_turn(even: tuple[int, ...]) -> tuple[tuple[int, tuple[tuple[int, ...], ...]], ...]:
    """Return the spoiled orders by the turn at which they first draw one side down."""
    count = len(even)
    found: dict[int, tuple[tuple[int, ...], ...]] = {}
    for one in _spoiled(even):
        turn = next(at for at in range(2, count) if not _even_yet(one[:at], count))
        found[turn] = (*found.get(turn, ()), one)
    return tuple(found.items())


_NO_TURN: Final = "at no turn"


def _tips(
    draw: Draw, even: tuple[int, ...], circle: BoltCircle
) -> tuple[BoltCircle, str, Choice, str]:
    """Return a drawn order, and at which turn it first draws one side down."""
    tips, planned = 0, even
    if draw.below(4):
        tips, orders = draw.pick(_by_turn(even))
        planned = draw.pick(orders)
    likely = [turn for turn, _ in _by_turn(even) if turn != tips]
    turns = draw.mixed(likely) + [at for at in (2, 3, 4) if at not in {tips, *likely}]
    early = "the bolts up to it still balance one another"
    wrong = [
        Option(f"at turn {turn}", early if turn < tips or not tips else f"turn {tips} did before")
        for turn in turns[: 2 if tips else 3]
    ]
    if tips:
        wrong.append(Option(_NO_TURN, f"bolt {planned[tips - 1]} is not balanced"))
    why = (
        f"Up to turn {tips} the bolts are {_dashed(planned[:tips])}, and pull to one side."
        if tips else f"{_dashed(planned)}: each bolt balances those before it."
    )  # fmt: skip
    text = (
        "The drawing shows the first pass of a list: in each bolt stands its turn. At which turn "
        "do the bolts first pull more than one bolt's worth to a side?"
    )
    right = f"at turn {tips}" if tips else _NO_TURN
    return replace(circle, order=planned), text, chosen(draw, right, wrong), why


FAMILY: Final = (("circle-order", circle_order), ("order-fault", order_fault))
