"""What questions are drawn from: the book's records that a level knows and that bear a key.

A key rests on nothing from memory, nothing invented and no practice that is printed nowhere;
``founded`` says so of a source.
All of it is looked up once for each book.
"""

from __future__ import annotations

from functools import lru_cache
from math import pi
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.catalogue.defaults import STAINLESS, bearing_mm
from torquebook.errors import TorquebookError
from torquebook.mechanics.preload import preload_from_torque, torque_from_preload
from torquebook.mechanics.strength import proof_load
from torquebook.quiz.levels import classes_of, may_meet

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import HeadSize, Hole, StrengthClass, Thread


class Unfounded(TorquebookError):
    """A question whose key would rest on a value from memory or on invented data."""


_BEARS_NOTHING: Final = ("memory", "invented", "common practice", "inference", "derived")


def founded(source: str) -> bool:
    """Return whether a source bears a key: somebody printed it.

    What is invented, from memory, our own inference, or practice that no source was found for
    does not.
    """
    said = source.casefold()
    unprinted = "from memory" in said or "no published source" in said
    return not said.startswith(_BEARS_NOTHING) and not unprinted


class Size(NamedTuple):
    """A thread with what is worked out of it.

    Parameters
    ----------
    thread : Thread
    d2_mm, d3_mm : float
    area_mm2, shank_mm2 : float
        Stress area, and the area of the nominal diameter.
    bearing_mm : float or None
        Effective diameter for friction under a hexagon head in a medium hole; None where no
        standard lists the head for this very thread.
    sources : tuple of str
        Of the thread, and of head and hole where there is a bearing face.
    head : HeadSize or None
        The hexagon head that a standard lists for this very thread.
    hole : Hole or None
    """

    thread: Thread
    d2_mm: float
    d3_mm: float
    area_mm2: float
    shank_mm2: float
    bearing_mm: float | None
    sources: tuple[str, ...]
    head: HeadSize | None
    hole: Hole | None

    @property
    def name(self) -> str:
        """The thread's size."""
        return self.thread.size


@lru_cache(maxsize=32)
def sizes(book: Book, level: int, *, read: bool = False) -> tuple[Size, ...]:
    """Return the threads that a level computes with or only reads, smaller ones first.

    Raises
    ------
    Unfounded
        If the book has none that bears a key.
    """
    found = [
        one for one in book.threads() if may_meet(level, one, read=read) and founded(one.source)
    ]
    found.sort(key=lambda one: (one.family != "metric", one.d_mm, -one.pitch_mm))
    if not found:
        raise Unfounded("every thread of this level is from memory or invented in this book")
    return tuple(_size(book, one) for one in found)


def _size(book: Book, thread: Thread) -> Size:
    # Heads and holes of inch threads are in no table of the book.
    metric = thread.family == "metric"
    head, hole = (book.head("", thread), book.hole(thread.d_mm)) if metric else (None, None)
    head = head if head and head.size == thread.size and founded(head.source) else None
    hole = hole if hole and founded(hole.source) else None
    seat = None
    sources = [thread.source]
    if head and hole:
        seat = bearing_mm(book, thread, head)
        sources += [head.source, hole.source]
    return Size(
        thread, thread.d2_mm, thread.d3_mm, thread.stress_area_mm2, pi / 4 * thread.d_mm**2,
        seat, tuple(sources), head, hole,
    )  # fmt: skip


@lru_cache(maxsize=32)
def seated(book: Book, level: int) -> tuple[Size, ...]:
    """Return the threads of a level whose friction under a hexagon head can be worked out."""
    found = tuple(size for size in sizes(book, level) if size.bearing_mm)
    if not found:
        raise Unfounded("no head of this level has a bearing face that bears a key in this book")
    return found


@lru_cache(maxsize=1024)
def classes(
    book: Book, level: int, thread: Thread, *, read: bool = False
) -> tuple[StrengthClass, ...]:
    """Return the strength classes of a level that are listed for a thread, weakest first.

    Raises
    ------
    Unfounded
        If the book has none that bears a key.
    """
    listed = book.strengths(thread.family, thread.d_mm)
    known = classes_of(level, read=read)
    found = [one for one in listed if one.name in known and founded(one.source)]
    if not found:
        raise Unfounded(f"no class of {thread.size} bears a key in this book")
    return tuple(found)


@lru_cache(maxsize=1024)
def proved(
    book: Book, level: int, thread: Thread, *, read: bool = False
) -> tuple[StrengthClass, ...]:
    """Return the classes whose standard prints a stress under proof load; stainless has none."""
    every = classes(book, level, thread, read=read)
    found = tuple(one for one in every if one.standard != STAINLESS)
    if not found:
        raise Unfounded(f"no proof load of {thread.size} bears a key in this book")
    return found


def same_class(
    book: Book, level: int, size: Size, like: StrengthClass, *, read: bool = False
) -> StrengthClass:
    """Return a class for another size; the weakest one where that size does not have it."""
    every = classes(book, level, size.thread, read=read)
    return next((one for one in every if one.name == like.name), every[0])


@lru_cache(maxsize=1024)
def sizes_beside(book: Book, level: int, size: Size, *, read: bool = False) -> tuple[Size, ...]:
    """Return the rows that a slip of the eye reads: the next smaller size and the next larger."""
    own = size.thread
    every = sizes(book, level, read=read)
    like = [
        one for one in every
        if one.thread.family == own.family and bool(one.bearing_mm) >= bool(size.bearing_mm)
        and (one.thread.series == "fine") == (own.series == "fine")
    ]  # fmt: skip
    smaller = [one for one in like if one.thread.d_mm < own.d_mm]
    larger = [one for one in like if one.thread.d_mm > own.d_mm]
    return (*smaller[-1:], *larger[:1])


@lru_cache(maxsize=1024)
def classes_beside(
    book: Book, level: int, thread: Thread, own: StrengthClass, *, read: bool = False
) -> tuple[StrengthClass, ...]:
    """Return the classes whose rows stand next to a class's, those that are as strong left out."""
    every = classes(book, level, thread, read=read)
    weaker = [one for one in every if one.proof_mpa < own.proof_mpa]
    stronger = [one for one in every if one.proof_mpa > own.proof_mpa]
    return (*weaker[-1:], *stronger[:1])


@lru_cache(maxsize=4096)
def proof_n(size: Size, strength: StrengthClass) -> float:
    """Return the proof load of a size in a class [N]."""
    return proof_load(size.area_mm2, strength.proof_mpa)


@lru_cache(maxsize=4096)
def nm_per_kn(size: Size, mu: float) -> float:
    """Return the torque for one kN of preload, at a friction of thread and head alike [N·m]."""
    seat = size.bearing_mm or 0.0
    return torque_from_preload(1000.0, size.thread.pitch_mm, size.d2_mm, mu, mu, seat)


@lru_cache(maxsize=4096)
def preload_per_nm(size: Size, mu: float) -> float:
    """Return the preload for one N·m of torque, at a friction of thread and head alike [N]."""
    seat = size.bearing_mm or 0.0
    return preload_from_torque(1.0, size.thread.pitch_mm, size.d2_mm, mu, mu, seat)
