"""A thread's page: dimensions, spanners and keys, holes, and loads by class.

Annotations are not postponed here: a named tuple would compile each of them from its text,
at every start.
"""

from typing import TYPE_CHECKING, NamedTuple

from torquebook.catalogue.shelves import HeadSize, Hole, StrengthClass, Thread
from torquebook.mechanics.strength import proof_load, tensile_load, yield_load

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book


class Loads(NamedTuple):
    """What classes of the same strength bear on one thread [N]."""

    classes: tuple[StrengthClass, ...]
    proof_n: float
    yield_n: float
    ultimate_n: float


class SizePage(NamedTuple):
    """All that the book has of one thread.

    Parameters
    ----------
    thread : Thread
    heads : tuple of HeadSize
        Heads and nuts that take a spanner or a key.
    hole : Hole or None
    drill_mm : float or None
        For a cut thread.
    loads : tuple of Loads
        Weakest first.
    others : tuple of Thread
        Other pitches of this diameter, the coarser first.
    """

    thread: Thread
    heads: tuple[HeadSize, ...]
    hole: Hole | None
    drill_mm: float | None
    loads: tuple[Loads, ...]
    others: tuple[Thread, ...]


def sizes(book: "Book", thread: str, strength_class: str = "") -> tuple[SizePage, ...]:
    """Return the pages of every thread that a text may mean.

    Parameters
    ----------
    book : Book
    thread : str
        As typed: ``M10``, ``M10x1.25``, ``3/8``.
    strength_class : str
        As typed; all classes that are listed if empty.

    Raises
    ------
    NotUnderstood
        If there is no such thread or class, or not this class for this thread.
    """
    return tuple(_page(book, found, strength_class) for found in book.candidates(thread))


def _page(book: "Book", thread: Thread, strength_class: str) -> SizePage:
    classes = book.strengths(thread.family, thread.d_mm)
    if strength_class:
        classes = (book.strength(strength_class, thread.d_mm, thread.family),)
    others = [other for other in book.threads(thread.family, thread.d_mm) if other != thread]
    return SizePage(
        thread,
        _heads(book, thread),
        book.hole(thread.d_mm),
        book.drill_mm(thread),
        _loads(thread, classes),
        tuple(sorted(others, key=lambda other: -other.pitch_mm)),
    )


def _heads(book: "Book", thread: Thread) -> tuple[HeadSize, ...]:
    """Return what takes a spanner or a key, hexagons first: the new width, then the old."""
    turned = [head for head in book.heads(thread) if head.across_flats_mm or head.key_mm]
    return tuple(sorted(turned, key=lambda head: not head.head.startswith("hexagon")))


def _loads(thread: Thread, classes: tuple[StrengthClass, ...]) -> tuple[Loads, ...]:
    """Return the loads, with classes of the same strength together."""
    alike: dict[tuple[float, float, float], list[StrengthClass]] = {}
    for one in classes:
        alike.setdefault((one.proof_mpa, one.yield_mpa, one.tensile_mpa), []).append(one)
    area = thread.stress_area_mm2
    return tuple(
        Loads(
            tuple(group),
            proof_load(area, proof_mpa),
            yield_load(area, yield_mpa),
            tensile_load(area, tensile_mpa),
        )
        for (proof_mpa, yield_mpa, tensile_mpa), group in alike.items()
    )
