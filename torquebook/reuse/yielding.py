"""Whether a tightening took a fastener past yield, by the program's own computation."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook import notation
from torquebook.answers.fastening import fastening
from torquebook.answers.turned import turned
from torquebook.bands import Band
from torquebook.errors import NotUnderstood
from torquebook.mechanics.scatter import with_tool

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.records.reuse import History

_EXAMPLE: Final = ("30 N.m + 90 deg",)


class Strained(NamedTuple):
    """What a tightening did: the word for it, and the sentence with its numbers."""

    history: History
    said: str


def read_end(tighten: str) -> tuple[Band, Band]:
    """Return the last torque of a list of stages [N·m], and the whole angle after it [°].

    Raises
    ------
    NotUnderstood
        If there is no torque.
    """
    torque = None
    angle = Band.exact(0.0)
    for stage in notation.read(tighten):
        if isinstance(stage, notation.Torque):
            torque, angle = stage.band, Band.exact(0.0)
        elif isinstance(stage, notation.Angle):
            angle = Band(*(sum(ends) for ends in zip(angle, stage.band, strict=True)))
    if torque is None or torque.high <= 0:
        raise NotUnderstood(tighten, "no torque that could stretch a bolt", _EXAMPLE)
    return torque, angle


def strained(
    book: Book,
    thread: str,
    strength_class: str,
    tighten: str,
    clamp_length_mm: Band | None = None,
    friction: str = "",
    head: str = "",
) -> Strained:
    """Return whether a tightening stayed below yield, over the whole band of what is not known.

    Parameters
    ----------
    book : Book
    thread, strength_class, tighten : str
        As a list writes them.
    clamp_length_mm : Band or None
        None for the band that vehicles have.
    friction, head : str
        Empty for what stands in.

    Raises
    ------
    NotUnderstood
        If one of them is not in the book, or the class names no elongation after fracture.
    """
    what = fastening(book, thread, strength_class, friction, head, "")
    torque, angle = read_end(tighten)
    if what.strength.elongation_pct is None:
        name = what.strength.name
        raise NotUnderstood(name, "no elongation after fracture is listed for it", ("8.8", "10.9"))
    snug = with_tool(torque, what.deviation_at(torque.nominal))
    end = turned(
        what.thread, what.strength, what.friction, what.bearing_mm, snug, angle, clamp_length_mm
    )
    share = end.yield_share
    shown = notation.write(notation.read(tighten))
    numbers = f"{shown} took it to {100 * share.low:.0f} to {100 * share.high:.0f} % of yield"
    if share.low >= 1:
        return Strained("past yield", f"{numbers}: past it over the whole band")
    if share.high < 1:
        return Strained("elastic", f"{numbers}: below it over the whole band")
    return Strained("may be past yield", f"{numbers}: it may have gone past it")
