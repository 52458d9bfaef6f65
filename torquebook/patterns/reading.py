"""Read an order: positions in a row, or the name of a way to go over them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook.errors import NotUnderstood
from torquebook.patterns.layout import circle_spots
from torquebook.patterns.making import (
    balanced,
    centre_out,
    cross_over,
    interleaved,
    round_the_circle,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from torquebook.patterns.layout import Spot

_NUMBERS: Final = re.compile(r"[0-9]{1,3}(?:\s*[-–,]\s*[0-9]{1,3}|\s+[0-9]{1,3})*")
_PASS_END: Final = re.compile(r"\s*(?:[/;\n]|\bthen\b)\s*")
#: What an order may be called, whatever the layout.
WAYS: Final[dict[str, Callable[[Sequence[Spot]], tuple[int, ...]]]] = {
    "cross": lambda spots: cross_over(len(spots)),
    "round": lambda spots: round_the_circle(len(spots)),
    "centre out": centre_out,
    "balanced": balanced,
}
_OTHER_WORDS: Final = {
    "star": "cross",
    "crosswise": "cross",
    "criss cross": "cross",
    "round the circle": "round",
    "centre outward": "centre out",
    "from the centre": "centre out",
}
_BETWEEN_GROUPS: Final = "interleaved"
#: Those that go by where the positions lie, or which groups they make.
BY_LAYOUT: Final = frozenset({"centre out", "balanced", _BETWEEN_GROUPS})


def passes_of(text: str) -> list[str]:
    """Return the orders of passes that are written after each other: ``cross / round``."""
    return _PASS_END.split(text)


def way_named(text: str) -> str:
    """Return the name that an order goes by, however it is written."""
    name = " ".join(text.casefold().replace("-", " ").split())
    return _OTHER_WORDS.get(name, name)


def positions_named(text: str, published: Mapping[str, Sequence[int]]) -> int | None:
    """Return how many positions an order speaks of by itself; None for a way over any number."""
    if _NUMBERS.fullmatch(text.strip()):
        return max(_numbers(text))
    order = published.get(way_named(text))
    return None if order is None else len(order)


def _numbers(text: str) -> tuple[int, ...]:
    return tuple(int(number) for number in re.findall(r"[0-9]+", text))


def order_of(
    text: str,
    spots: Sequence[Spot] | int,
    published: Mapping[str, Sequence[int]],
    groups: Sequence[Sequence[int]] = (),
) -> tuple[int, ...]:
    """Return the positions that an order goes through.

    Parameters
    ----------
    text : str
        ``1-4-2-5-3-6``, one of ``WAYS``, the name of a published order, or ``interleaved``:
        one position of each group in turn, each group balanced by itself.
    spots : sequence of (float, float), or int
        Where the positions lie; or how many there are, which are then taken as a circle's.
    published : mapping of str to sequence of int
        Published orders by name.
    groups : sequence of sequence of int
        The positions of each group.

    Raises
    ------
    NotUnderstood
        If it is none of these, a published order is for another number of positions, or there
        are no groups to interleave.
    """
    if isinstance(spots, int):
        spots = circle_spots(spots)
    if _NUMBERS.fullmatch(text.strip()):
        return _numbers(text)
    name = way_named(text)
    if name in WAYS:
        return WAYS[name](spots)
    if name == _BETWEEN_GROUPS:
        return _between(groups, spots)
    if name not in published:
        fitting = [each for each, order in published.items() if len(order) == len(spots)]
        between = (_BETWEEN_GROUPS,) if groups else ()
        names = (*WAYS, *between, *fitting)
        raise NotUnderstood(text, "no order of that name", _near(name, names))
    order = tuple(published[name])
    if len(order) != len(spots):
        what = f"an order of {len(order)} positions, and the joint has {len(spots)}"
        raise NotUnderstood(text, what, ("cross",))
    return order


def _between(groups: Sequence[Sequence[int]], spots: Sequence[Spot]) -> tuple[int, ...]:
    """Return the positions of groups in turn; one that there is not is left out."""
    if not groups:
        what = "an order that goes from group to group, and there are none"
        raise NotUnderstood(_BETWEEN_GROUPS, what, tuple(WAYS))
    orders = []
    for group in groups:
        own = [position for position in dict.fromkeys(group) if position <= len(spots)]
        turns = balanced([spots[position - 1] for position in own]) if own else ()
        orders.append([own[turn - 1] for turn in turns])
    return interleaved(orders)


def _near(name: str, names: Sequence[str]) -> tuple[str, ...]:
    """Return the names that are spelt almost alike, or all."""
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    found = get_close_matches(name, (*names, *_OTHER_WORDS), 3)
    return tuple(dict.fromkeys(_OTHER_WORDS.get(one, one) for one in found)) or tuple(names)
