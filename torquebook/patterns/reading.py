"""Read an order: positions in a row, or the name of a way to go over them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook.errors import NotUnderstood
from torquebook.patterns.layout import circle_spots
from torquebook.patterns.making import balanced, centre_out, cross_over, round_the_circle

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from torquebook.patterns.layout import Spot

_NUMBERS: Final = re.compile(r"[0-9]{1,3}(?:\s*[-–,]\s*[0-9]{1,3}|\s+[0-9]{1,3})*")
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
#: Those of them that go by where the positions lie.
BY_LAYOUT: Final = frozenset({"centre out", "balanced"})


def order_of(
    text: str, spots: Sequence[Spot] | int, published: Mapping[str, Sequence[int]]
) -> tuple[int, ...]:
    """Return the positions that an order goes through.

    Parameters
    ----------
    text : str
        ``1-4-2-5-3-6``, one of ``WAYS``, or the name of a published order.
    spots : sequence of (float, float), or int
        Where the positions lie; or how many there are, which are then taken as a circle's.
    published : mapping of str to sequence of int
        Published orders by name.

    Raises
    ------
    NotUnderstood
        If it is none of these, or a published order is for another number of positions.
    """
    if isinstance(spots, int):
        spots = circle_spots(spots)
    if _NUMBERS.fullmatch(text.strip()):
        return tuple(int(number) for number in re.findall(r"[0-9]+", text))
    name = " ".join(text.casefold().replace("-", " ").split())
    name = _OTHER_WORDS.get(name, name)
    if name in WAYS:
        return WAYS[name](spots)
    if name not in published:
        fitting = [each for each, order in published.items() if len(order) == len(spots)]
        raise NotUnderstood(text, "no order of that name", (*WAYS, *fitting))
    order = tuple(published[name])
    if len(order) != len(spots):
        what = f"an order of {len(order)} positions, and the joint has {len(spots)}"
        raise NotUnderstood(text, what, ("cross",))
    return order
