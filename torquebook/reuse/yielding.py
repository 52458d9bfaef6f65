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


def read_segments(tighten: str) -> tuple[tuple[Band, Band], ...]:
    """Return each torque of a list of stages [N·m], with the whole angle after it [°].

    Raises
    ------
    NotUnderstood
        If there is no torque.
    """
    found: list[tuple[Band, Band]] = []
    for stage in notation.read(tighten):
        if isinstance(stage, notation.Torque) and stage.band.high > 0:
            found.append((stage.band, Band.exact(0.0)))
        elif isinstance(stage, notation.Angle) and found:
            torque, angle = found[-1]
            turned_by = Band(*(sum(ends) for ends in zip(angle, stage.band, strict=True)))
            found[-1] = (torque, turned_by)
    if not found:
        raise NotUnderstood(tighten, "no torque that could stretch a bolt", _EXAMPLE)
    return tuple(found)


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
    segments = read_segments(tighten)
    if what.strength.elongation_pct is None:
        name = what.strength.name
        raise NotUnderstood(
            name, "no elongation after fracture is listed for it: this cannot be computed"
        )
    shares = [
        turned(
            what.thread, what.strength, what.friction, what.bearing_mm,
            with_tool(torque, what.deviation_at(torque.nominal)), angle, clamp_length_mm,
        ).yield_share
        for torque, angle in segments
    ]  # fmt: skip
    # What a bolt went through before it was slackened, or lowered, it went through.
    share = max(shares, key=lambda one: one.nominal)
    shown = notation.write(notation.read(tighten))
    numbers = f"{shown} took it to {100 * share.low:.0f} to {100 * share.high:.0f} % of yield"
    if share.low >= 1:
        return Strained("past yield", f"{numbers}: past it over the whole band")
    if share.high < 1:
        return Strained("elastic", f"{numbers}: below it over the whole band")
    return Strained("may be past yield", f"{numbers}: it may have gone past it")
