"""Fasteners that came out, of which the reuse rulebook is asked what becomes of them.

What is right of them is never said here: ``build`` asks the rulebook.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.quiz.answering import given, in_unit, to_nm
from torquebook.quiz.levels import ANGLES_FROM, COUNTRIES, FULL

if TYPE_CHECKING:
    from collections.abc import Iterator


class Out(NamedTuple):
    """A fastener that came out.

    Parameters
    ----------
    level : int
        From which on it is asked for.
    words : str
        As ``torquebook reuse`` takes it.
    said : str
        The same in a sentence.
    measured : dict
        What was measured, by the names of ``reuse.model.Measured``.
    prefer : str
        The source that the workshop goes by; empty for the strictest.
    unit : str
        The country's unit that a torque stands in; empty where there is none.
    """

    level: int
    words: str
    said: str
    measured: dict[str, Any]
    prefer: str = ""
    unit: str = ""


_PLAIN: Final = (
    ("", "was tightened in its elastic range. It is oily and dirty"),
    ("", "was tightened in its elastic range. Old sealant sticks in its thread"),
    ("pits", "is clean, and has pits in its shank"),
    ("rusty", "was tightened in its elastic range. It is rusty, and the rust wipes off"),
    ("damaged thread", "is clean, and has a damaged thread"),
    ("tapered shank", "is clean, and its shank has become thinner at one place"),
    ("adhesive patch", "has an adhesive patch that was put on at the works"),
)
_PARTS: Final = (
    ("spring washer", "A spring washer"),
    ("toothed washer", "A toothed lock washer"),
    ("cotter pin", "A cotter pin"),
    ("lock wire", "A lock wire"),
    ("tab washer", "A tab washer"),
)
_STRUCTURAL: Final = (
    ("3/4-10 A325, galvanised", "A galvanised structural bolt 3/4-10 of grade A325"),
    ("3/4-10 A490", "A structural bolt 3/4-10 of grade A490"),
)
_SIZES: Final = ("M6", "M8", "M10", "M12")
#: Drags of steel nuts: the rules say which are enough. Off for the fourth time, so that the next
#: removal is the last one that the standard tests.
_DRAGS_NM: Final = {
    "M6": (0.15, 0.2, 0.4, 0.6), "M8": (0.3, 0.5, 0.7, 1.0), "M10": (0.6, 0.8, 1.2, 1.6),
    "M12": (0.9, 1.3, 1.9, 2.6),
}  # fmt: skip
_DRAGS_IN: Final = {"7/16-20": (6, 8, 10), "1/2-20": (7, 9, 12), "5/8-18": (15, 20, 25)}


_LENGTHS: Final = (
    ("M10", 168, 171, 169.5), ("M10", 168, 171, 171.2), ("M8", 126, 126.5, 126.4),
    ("M8", 126, 126.5, 126.7), ("M12", 145, 146.5, 146.5), ("M12", 145, 146.5, 147),
)  # fmt: skip
_CLEAN: Final = "It is clean, and looks sound."


def outs() -> Iterator[Out]:
    """Yield the fasteners that are asked for; those with a torque once for each unit."""
    for size in _SIZES:
        for words, said in _PLAIN:
            yield Out(1, f"{size} 8.8 {words}".strip(), f"A bolt {size} of class 8.8 {said}.", {})
        loose = f"A self-locking nut {size} was found loose."
        yield Out(1, f"{size} locking nut found loose", loose, {})
        off = f"A self-locking nut {size} was taken off. {_CLEAN}"
        yield Out(1, f"{size} locking nut", off, {}, "TB 43-0218")
    for words, said in _PARTS:
        yield Out(1, words, f"{said} came out.", {})
    for words, said in _STRUCTURAL:
        yield Out(FULL, words, f"{said} was tightened to its full preload and came out.", {})
    yield from _stretched()
    yield from _inserts()
    for unit in COUNTRIES:
        yield from _drags(unit)


def _stretched() -> Iterator[Out]:
    """Yield stretch bolts with what their maker allows and, but for some, what was measured."""
    for size, new, limit, now in _LENGTHS:
        allowed = f"new it has {new} mm, and its maker allows {limit:g} mm"
        said = f"A stretch bolt {size} of class 10.9 is {now:g} mm long; {allowed}. {_CLEAN}"
        limits = {"new_length_mm": float(new), "limit_length_mm": float(limit)}
        words = f"{size} 10.9 stretch"
        yield Out(ANGLES_FROM, words, said, {"length_mm": float(now)} | limits)
    for size, new, limit, _ in _LENGTHS[::2]:
        allowed = f"new it is {new} mm long, and its maker allows {limit:g} mm"
        said = f"A stretch bolt {size} of class 10.9 came out; {allowed}. {_CLEAN}"
        limits = {"new_length_mm": float(new), "limit_length_mm": float(limit)}
        yield Out(ANGLES_FROM, f"{size} 10.9 stretch", said, limits)
    for marks, allowed_uses in ((1, 2), (2, 2), (3, 4), (4, 4), (2, 3)):
        said = (
            f"A stretch bolt M10 of class 10.9 carries {marks} punch mark{'s' * (marks > 1)}, one "
            f"for each tightening; its maker allows {allowed_uses} tightenings in all. {_CLEAN}"
        )
        found = {"uses": marks, "uses_allowed": allowed_uses}
        yield Out(ANGLES_FROM, "M10 10.9 stretch", said, found)


def _inserts() -> Iterator[Out]:
    """Yield locking coil inserts with how often a bolt was in them."""
    for size in ("M8", "M10"):
        for uses in (4, 9, 15):
            said = (
                f"A screw-locking coil insert {size} is qualified for 15 cycles. A bolt was "
                f"screwed into it {uses} times so far. {_CLEAN} Its drag was not measured."
            )
            yield Out(ANGLES_FROM, f"{size} coil insert", said, {"uses": uses})


def _drags(unit: str) -> Iterator[Out]:
    """Yield self-locking nuts with the drag that was measured, and some where it was not."""
    for size, drags in _DRAGS_NM.items():
        start = f"An all-metal locking nut {size} of class 04 was taken off for the fourth time."
        known: dict[str, Any] = {"uses": 4, "table": "ISO 2320"}
        words, by = f"{size} all-metal locking nut", "ISO 2320"
        for nm in drags:
            shown = round(in_unit(nm, unit), 3 if unit == "kgf.m" else 2 if unit != "lbf.in" else 1)
            said = f"{start} {_CLEAN} It drags with {given(shown, unit)}."
            drag = {"drag_nm": round(to_nm(shown, unit), 2)}
            yield Out(1, words, said, known | drag, by, unit)
        yield Out(1, words, f"{start} {_CLEAN} Its drag was not measured.", known, by, unit)
    for size, every in _DRAGS_IN.items() if unit == "lbf.in" else ():
        words = f"{size} all-metal locking nut"
        start = f"An all-metal locking nut {size} was taken off. {_CLEAN}"
        for inches in every:
            said = f"{start} It drags with {inches} lbf·in."
            yield Out(
                FULL, words, said, {"drag_nm": to_nm(inches, "lbf.in")}, "FAA AC 43.13-1B", unit
            )
        yield Out(FULL, words, f"{start} Its drag was not measured.", {}, "FAA AC 43.13-1B", unit)
