"""Families about what belongs together: nut and bolt, engagement, drag, spanner."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from torquebook.errors import NotUnderstood
from torquebook.mechanics.locking import torque_with_drag
from torquebook.quiz.answering import (
    EXACT,
    MOST_WRONG,
    among,
    asked,
    chosen,
    figure,
    given,
    round_torques,
    sheet_value,
    to_nm,
)
from torquebook.quiz.levels import FULL, classes_of
from torquebook.quiz.model import Option, Question
from torquebook.quiz.stock import Unfounded, founded, sizes, sizes_beside

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Material, NutClass
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.stock import Size

_CHOICE: Final = 4
#: Thin nuts pair with no bolt, and would never be right.
_NUTS: Final = ("5", "6", "8", "10", "12")
_OLD: Final = "hexagon old DIN"
_MATERIALS: Final = {
    1: ("aluminium", "steel"),
    2: ("aluminium", "steel"),
    3: ("aluminium", "steel"),
}
DRAG_SOURCES: Final = {
    "added": "FAA AC 43.13-1B, 1998-09-08, chapter 7",
    "third": "US Army TB 43-0218",
}
_DRAG_SAID: Final = {
    "added": "By the FAA the drag, measured before the nut seats, always comes on top.",
    "third": "By the Army's bulletin drag counts only where it is a third of the torque or more.",
}


@lru_cache(maxsize=512)
def _nuts(book: Book, size: Size) -> tuple[NutClass, ...]:
    """Return the nut classes listed for a metric thread, weakest first."""
    found, fine = {}, size.thread.series == "fine"
    for name in _NUTS:
        one = _nut(book, name, size, fine=fine)
        if one and founded(one.source):
            found[name] = one
    return tuple(sorted(found.values(), key=lambda one: one.proof_mpa))


def _nut(book: Book, name: str, size: Size, *, fine: bool) -> NutClass | None:
    try:
        one = book.nut(name, size.thread.d_mm, fine=fine)
    except NotUnderstood:
        return None
    return one if one.standard.endswith("-6") == fine else None


@lru_cache(maxsize=32)
def _metric(book: Book, level: int) -> tuple[Size, ...]:
    return tuple(size for size in sizes(book, level, read=True) if size.thread.family == "metric")


def _pair(draw: Draw, book: Book, level: int) -> tuple[Size, NutClass]:
    """Return a size with a nut class that the standard pairs with a bolt of the level."""
    known = _metric(book, level)
    start = draw.below(len(known))
    for size in (*known[start:], *known[:start]):
        every = _nuts(book, size)
        fit = [nut for nut in every if nut.pairs_with in classes_of(level, read=True)]
        if fit and len(every) >= _CHOICE:
            return size, draw.pick(fit)
    raise Unfounded("no pair of nut and bolt bears a key in this book")


def nut_pairing(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the weakest nut that a bolt may have."""
    size, nut = _pair(draw, book, level)
    others = [one for one in _nuts(book, size) if one.name != nut.name]
    wrong = [
        Option(f"class {one.name}", _weak(one, nut)) for one in draw.mixed(others)[:MOST_WRONG]
    ]
    bolt = nut.pairs_with
    return Question(
        "nut-pairing", level, "Give a bolt a nut whose threads do not strip first.",
        f"A bolt {size.name} of class {bolt} is to be tightened in full. Which is the lowest class "
        "of nut that the standard pairs with it?",
        (f"{nut.standard}, edition {nut.edition}: the nut has to bear what the bolt bears.",),
        chosen(draw, f"class {nut.name}", wrong),
        (f"The nut's number is the bolt's first one: {bolt} takes a nut of class {nut.name}.",),
        (nut.source, *size.sources[:1]),
    )  # fmt: skip


def _weak(other: NutClass, nut: NutClass) -> str:
    if other.proof_mpa < nut.proof_mpa:
        return "its threads strip before the bolt is at its load"
    return "it holds as well, but a lower class is enough"


@lru_cache(maxsize=32)
def _materials(book: Book, level: int) -> tuple[Material, ...]:
    found = [
        one for one in book.materials()
        if one.name in _MATERIALS[level] and founded(one.engagement_source)
    ]  # fmt: skip
    if not found:
        raise Unfounded("no length of engagement bears a key in this book")
    return tuple(found)


def engagement(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask how far a bolt has to go into a part."""
    size = draw.pick(sizes(book, level, read=True))
    every = _materials(book, level)
    into = draw.pick(every)
    d, pitch, times = size.thread.d_mm, size.thread.pitch_mm, into.engagement_d
    source, _, else_said = into.engagement_source.partition("; ")
    said = f"By {source} a thread in {into.name} engages over {times:g} d at least."
    also = (f"Another document is stricter: {else_said}.",) if else_said else ()
    by_turns = bool(level > 1 and draw.below(2))
    value = times * d / (pitch if by_turns else 1.0)
    scale = value / (times * d)
    slips = [
        (d * scale, "one diameter, which is enough in steel only")
        if times != 1.0 else (0.5 * d * scale, "half a diameter"),
        (2 * value, "twice what is wanted"),
        (times * d / 2 * scale, "the radius taken for the diameter"),
        (times * pitch * scale, "so many pitches instead of diameters"),
        (times * d if by_turns else times * d / pitch, "turns and millimetres mixed up"),
        *((times * near.thread.d_mm * scale, f"the diameter of {near.name}")
          for near in sizes_beside(book, level, size, read=True)),
    ]  # fmt: skip
    found = asked(draw, value, "turn" if by_turns else "mm", slips, 0.03)
    least = f"the least length of engagement by {source}"
    text = (
        f"It needs {least}. How many turns are that from the first full thread on?"
        if by_turns else f"What is {least}?"
    )  # fmt: skip
    shown = given(round(pitch, 4), "mm")
    whole = figure(times * d, "mm") if by_turns else found.shown
    return Question(
        "engagement", level, "Screw a bolt in far enough that the threads of the part hold.",
        f"A bolt {size.name} is screwed into a part of {into.name}. {text}{found.tail}",
        (said, *also, f"Nominal diameter d {given(d, 'mm')}, pitch {shown}."), found.answer,
        (f"{times:g} · {given(d, 'mm')} = {whole}",
         *((f"{whole} / {shown} = {found.shown}",) if by_turns else ())),
        (into.engagement_source, *size.sources[:1]),
    )  # fmt: skip


def drag_added(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what to set for a self-locking nut that has drag."""
    rule = draw.pick(("added", "third")) if level == FULL else "added"
    torque = draw.pick(round_torques(unit, 15, 150))
    drag = sheet_value(to_nm(torque, unit) * draw.pick((0.1, 0.15, 0.2, 0.25, 0.4)), unit)
    value = torque_with_drag(torque, drag, rule)  # type: ignore[arg-type]
    slips = [
        (torque - drag, "the drag taken off"),
        (torque + 2 * drag, "the drag added twice"),
        (drag, "only the drag"),
        (torque if value > torque else torque + drag, "the other rule"),
        (torque * 4 / 3, "a third of the torque put on"),
        (torque + drag / 2, "half of the drag added"),
    ]
    found = asked(draw, value, unit, slips, EXACT)
    step = f"{given(torque, unit)} + {given(drag, unit)} = {found.shown}"
    if value == torque:
        step = f"{given(drag, unit)} is less than a third, so it does not count: {found.shown}"
    return Question(
        "drag-added", level, "Count the drag of a self-locking nut.",
        f"The table gives {given(torque, unit)} for a nut without drag. The self-locking nut turns "
        f"on at {given(drag, unit)} before it seats. What is to be set?{found.tail}",
        (_DRAG_SAID[rule],), found.answer,
        (step,),
        (DRAG_SOURCES[rule],),
    )  # fmt: skip


@lru_cache(maxsize=32)
def _spanners(
    book: Book, level: int
) -> tuple[tuple[Size, float, str, tuple[tuple[float, str], ...]], ...]:
    """Return sizes with their spanner, its source, and other widths that come to mind."""
    found = []
    for size in _metric(book, level):
        if size.head and size.head.across_flats_mm:
            own = size.head.across_flats_mm
            old = next((one for one in book.heads(size.thread) if one.head == _OLD), None)
            wrong = [(old.across_flats_mm or 0.0, "the old DIN width")] if old else []
            wrong += [(size.thread.d_mm, "the thread's diameter")]
            found.append((size, own, size.head.source, tuple(w for w in wrong if w[0] != own)))
    if not found:
        raise Unfounded("no width across flats bears a key in this book")
    return tuple(found)


def spanner(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the spanner of a hexagon head."""
    every = _spanners(book, level)
    at = draw.below(len(every))
    size, width, source, wrong = every[at]
    widths = dict(wrong)
    for of, one, _, _ in (*every[max(0, at - 3) : at], *every[at + 1 : at + 4]):
        if one != width:
            widths.setdefault(one, f"the spanner of {of.name}")
    options = [Option(given(one, "mm"), why) for one, why in among(draw, width, [*widths.items()])]
    return Question(
        "spanner", level, "Take the spanner that fits, before a corner is rounded.",
        f"Which spanner fits the hexagon head of a bolt {size.name} by {source.partition(',')[0]}?",
        ("Heads of the old DIN standards have other widths in some sizes.",),
        chosen(draw, given(width, "mm"), options),
        (f"The table prints {given(width, 'mm')} across flats for {size.name}.",),
        (source, *size.sources[:1]),
    )  # fmt: skip


FAMILY: Final = (
    ("nut-pairing", nut_pairing),
    ("engagement", engagement),
    ("drag-added", drag_added),
    ("spanner", spanner),
)
