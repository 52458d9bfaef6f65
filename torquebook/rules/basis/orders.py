"""An order of tightening against the positions that it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.lookup import plain
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.patterns.measures import faults
from torquebook.patterns.reading import order_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.catalogue.book import Book
    from torquebook.patterns.measures import Faults

_MOST = 10  # positions that a message names


def named_orders(book: Book) -> dict[str, tuple[int, ...]]:
    """Return the published orders of a book by name."""
    return {plain(pattern.name): pattern.order for pattern in book.patterns()}


def covered(
    order: str, positions: Sequence[int], book: Book, groups: Sequence[Sequence[int]] = ()
) -> Iterator[tuple[Severity, str]]:
    """Yield what is wrong with an order of some positions, with how serious it is.

    Parameters
    ----------
    order : str
        Positions, ``1-3-2-4``, or the name of a way to go over them.
    positions : sequence of int
        Those of the group, or of the joint.
    book : Book
        Where published orders are looked up.
    groups : sequence of sequence of int
        Those of the joint, where the order is for all of it.
    """
    try:
        found = order_of(order, len(positions), named_orders(book), groups)
    except NotUnderstood as trouble:
        yield Severity.ASK, f"{trouble}, or the positions, such as 1-3-2-4"
        return
    if not order[0].isdecimal():
        return  # a way over so many positions reaches each of them once
    yield from told(faults(found, positions), positions)


def told(found: Faults, positions: Sequence[int]) -> Iterator[tuple[Severity, str]]:
    """Yield the faults of a pass over some positions in words, with how serious each is."""
    missed, twice, strange = found
    if missed:
        reached = f"{len(positions) - len(missed)} of {len(positions)} positions"
        yield Severity.STOP, f"the order reaches {reached}; {listed(missed)} is missing"
    if twice:
        yield Severity.ASK, f"{listed(twice)} stands twice in one pass"
    if strange:
        yield Severity.ASK, f"{listed(strange)} is none of the positions that the order is for"


def listed(numbers: Sequence[int]) -> str:
    """Return numbers as a message names them, no more than ten."""
    return ", ".join(map(str, numbers[:_MOST]))


def named(positions: Sequence[int]) -> str:
    """Return positions as a message names them: ``position 3``, ``positions 3, 4``."""
    return f"position{'s' if len(positions) > 1 else ''} {listed(positions)}"
