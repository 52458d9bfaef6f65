"""A joint's fasteners as the rulebook takes them: what its record says, and what follows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook import notation
from torquebook.bands import Band
from torquebook.catalogue.lookup import plain
from torquebook.errors import TorquebookError
from torquebook.reuse.model import STRAIN, Measured, Used
from torquebook.reuse.yielding import strained

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Held
    from torquebook.catalogue.shelves import Thread
    from torquebook.records.joint import JointRecord
    from torquebook.records.reuse import Feature, History

#: Words for a locking nut where a joint names its nut's class.
_NUTS: Final[dict[str, Feature]] = {
    "self locking": "locking nut",
    "locking": "locking nut",
    "prevailing": "locking nut",
    "nylon insert": "nylon-insert nut",
    "all metal": "all-metal locking nut",
}


def used_of(held: Held[JointRecord], book: Book) -> Used:
    """Return the fasteners of a joint as they come out of it.

    Parameters
    ----------
    held : Held of JointRecord
    book : Book

    Raises
    ------
    NotUnderstood
        If the thread is not in the book.
    """
    joint = held.record
    fastener = joint.fastener
    thread = book.thread(fastener.thread)
    history = set(fastener.history)
    notes: list[str] = []
    computed = False
    if not history & STRAIN and fastener.kind in {None, "stretch"}:
        computed = _strain(joint, thread, book, history, notes)
    return Used(
        thread,
        fastener.strength_class or "",
        frozenset(_features(joint)),
        frozenset(history),
        _limits(joint),
        tuple(notes),
        computed,
    )


def _features(joint: JointRecord) -> set[Feature]:
    """Return what is special on a joint's fasteners, said or to be read off its stages."""
    fastener = joint.fastener
    found = set(fastener.features)
    if fastener.kind == "stretch":
        found.add("stretch")
    if any(isinstance(stage, notation.Angle) for stage in notation.read(joint.tighten)):
        found.add("angle tightened")
    if nut := _NUTS.get(plain(fastener.nut or "")):
        found.add(nut)
    return found


def _strain(
    joint: JointRecord, thread: Thread, book: Book, history: set[History], notes: list[str]
) -> bool:
    """Add whether the joint's own stages take its bolts past yield; return if that is known."""
    fastener = joint.fastener
    if not fastener.strength_class:
        notes.append("whether it went past yield is not known: no strength class")
        return False
    grip_mm = _clamp_mm(joint)
    try:
        found = strained(
            book,
            thread.size,
            fastener.strength_class,
            joint.tighten,
            None if grip_mm is None else Band.exact(grip_mm),
            joint.friction or "",
            fastener.head or "",
        )
    except TorquebookError as trouble:
        notes.append(f"whether it went past yield is not known: {trouble}")
        return False
    history.add(found.history)
    notes.append(found.said)
    return True


def _clamp_mm(joint: JointRecord) -> float | None:
    """Return the thickness of what is clamped, None where the record does not say [mm]."""
    return sum(layer.thickness_mm for layer in joint.stack) or None


def _limits(joint: JointRecord) -> Measured:
    """Return what the maker allows, before anything was measured."""
    limits = joint.reuse
    if limits is None:
        return Measured(stretched_mm=_clamp_mm(joint))
    return Measured(
        new_length_mm=limits.length_new_mm,
        limit_length_mm=limits.length_limit_mm,
        stretched_mm=_clamp_mm(joint),
        uses_allowed=limits.uses_allowed,
        always_new=limits.always_new,
    )
