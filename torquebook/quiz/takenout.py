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
    ("", "was tightened in its elastic range and looks sound"),
    ("pits", "has pits of rust in its shank"),
    ("rusty", "is rusty, but without pits"),
    ("damaged thread", "has a damaged thread"),
    ("tapered shank", "has a shank that has become thinner at one place"),
    ("nylon patch", "has a polyamide patch on its thread"),
    ("adhesive patch", "has an adhesive patch that was put on at the works"),
)
_PARTS: Final = (
    ("spring washer", "A spring washer"),
    ("toothed washer", "A toothed lock washer"),
    ("copper washer", "A copper sealing washer"),
    ("bonded seal", "A bonded seal"),
    ("cotter pin", "A cotter pin"),
    ("lock wire", "A lock wire"),
    ("roll pin", "A roll pin"),
    ("dowel", "A dowel"),
    ("circlip", "A circlip"),
    ("tab washer", "A tab washer"),
)
_SPECIAL: Final = (
    (1, "{t} staked nut", "A staked nut {t} came out."),
    (1, "{t} castellated nut", "A castellated nut {t} came out; its pin is renewed."),
    (1, "{t} locking nut found loose", "A self-locking nut {t} was found loose."),
    (1, "{t} locking nut, rotating part", "A part turns on the bolt of a self-locking nut {t}."),
    (2, "{t} 10.9 stretch", "A stretch bolt {t} of class 10.9 came out."),
    (2, "{t} 10.9 by angle", "A bolt {t} of class 10.9 was tightened by angle."),
    (2, "{t} 10.9 past yield", "A plain bolt {t} of class 10.9 was stretched past yield."),
    (2, "{t} 10.9 driveshaft bolt", "A plain driveshaft bolt {t} of class 10.9 came out."),
    (2, "{t} 10.9 driveshaft bolt ribbed", "A driveshaft bolt {t}, 10.9, has ribs under its head."),
    (2, "{t} 10.9 flywheel bolt", "A flywheel bolt {t} of class 10.9 came out."),
    (2, "{t} 8.8 clutch cover bolt", "A plain clutch-cover bolt {t} of class 8.8 came out."),
    (
        2,
        "{t} 8.8 clutch cover bolt by angle",
        "A clutch-cover bolt {t}, 8.8, is tightened by angle.",
    ),
    (
        2,
        "{t} 8.8 zinc plated tightened repeatedly",
        "A zinc-plated bolt {t}, 8.8, was tightened often.",
    ),
    (2, "{t} exhaust nut", "A copper-plated exhaust nut {t} came out."),
    (2, "{t} exhaust stud came out with its nut", "An exhaust stud {t} came out with its nut."),
    (3, "{t} 12.9 electroplated", "An electroplated bolt {t} of class 12.9 came out."),
    (3, "{t} aluminium bolt", "A bolt {t} of aluminium came out."),
    (3, "{t} wheel bolt", "A wheel bolt {t} came out."),
)
_STRUCTURAL: Final = (
    ("3/4-10 A325", "A plain structural bolt 3/4-10 of grade A325"),
    ("3/4-10 A325, galvanised", "A galvanised structural bolt 3/4-10 of grade A325"),
    ("3/4-10 A490", "A structural bolt 3/4-10 of grade A490"),
)
_SIZES: Final = ("M6", "M8", "M10", "M12")
#: Drags of steel nuts: the rules say which are enough.
_DRAGS_NM: Final = {
    "M6": (0.15, 0.2, 0.4, 0.6), "M8": (0.3, 0.5, 0.7, 1.0), "M10": (0.6, 0.8, 1.2, 1.6),
    "M12": (0.9, 1.3, 1.9, 2.6),
}  # fmt: skip
_DRAGS_IN: Final = {"7/16-20": (6, 8, 10), "1/2-20": (7, 9, 12), "5/8-18": (15, 20, 25)}


def outs() -> Iterator[Out]:
    """Yield the fasteners that are asked for; those with a torque once for each unit."""
    for size in _SIZES:
        for words, said in _PLAIN:
            yield Out(1, f"{size} 8.8 {words}".strip(), f"A bolt {size} of class 8.8 {said}.", {})
        for level, words, said in _SPECIAL:
            yield Out(level, words.format(t=size), said.format(t=size), {})
    for words, said in _PARTS:
        yield Out(1, words, f"{said} came out.", {})
    for words, said in _STRUCTURAL:
        yield Out(FULL, words, f"{said} came out.", {})
    yield from _measured()
    for unit in COUNTRIES:
        yield from _drags(unit)


def _measured() -> Iterator[Out]:
    """Yield fasteners with lengths, diameters and uses."""
    for size, new, now in (
        ("M8", 60, 60.02), ("M8", 60, 60.2), ("M10", 100, 100.3), ("M10", 80, 80.05),
        ("M12", 120, 120.4), ("M12", 90, 90.1),
    ):  # fmt: skip
        said = f"A plain bolt {size} of class 8.8 is {now:g} mm long, a new one {new} mm."
        yield Out(1, f"{size} 8.8", said, {"length_mm": now, "new_length_mm": float(new)})
    for size, new, limit, now in (
        ("M10", 168, 171, 169.5), ("M10", 168, 171, 171.2), ("M8", 126, 126.5, 126.4),
        ("M8", 126, 126.5, 126.7), ("M12", 145, 146.5, 146.5), ("M12", 145, 146.5, 147),
    ):  # fmt: skip
        said = (
            f"A stretch bolt {size} of class 10.9 is {now:g} mm long; new it has {new} mm, and its "
            f"maker allows {limit:g} mm."
        )
        lengths = {"length_mm": float(now), "new_length_mm": float(new), "limit_length_mm": limit}
        yield Out(ANGLES_FROM, f"{size} 10.9 stretch", said, lengths)
    for uses, allowed in ((1, 2), (2, 2), (3, 4), (4, 4), (2, 3)):
        said = (
            f"A stretch bolt M10 of class 10.9 was tightened {uses} time{'s' * (uses > 1)}; its "
            f"maker allows {allowed}."
        )
        yield Out(ANGLES_FROM, "M10 10.9 stretch", said, {"uses": uses, "uses_allowed": allowed})
    for least, limit in ((7.6, 7.5), (7.4, 7.5), (7.5, 7.6)):
        said = (
            f"A stretch bolt M8 of class 10.9 has a diameter of 7.95 mm where it is whole and of "
            f"{least} mm where it is thinnest; its maker allows {limit} mm."
        )
        found = {"diameters_mm": (7.95, least), "least_diameter_mm": limit}
        yield Out(ANGLES_FROM, "M8 10.9 stretch", said, found)


def _drags(unit: str) -> Iterator[Out]:
    """Yield self-locking nuts with the drag that was measured."""
    for size, drags in _DRAGS_NM.items():
        for nm in drags:
            shown = round(in_unit(nm, unit), 3 if unit == "kgf.m" else 2 if unit != "lbf.in" else 1)
            said = (
                f"A self-locking steel nut {size} of class 04 was taken off for the fifth time. "
                f"It drags with {given(shown, unit)}."
            )
            found = {"drag_nm": round(to_nm(shown, unit), 2), "uses": 5, "table": "ISO 2320"}
            yield Out(ANGLES_FROM, f"{size} locking nut", said, found, "ISO 2320", unit)
    for size, every in _DRAGS_IN.items():
        for inches in every if unit == "lbf.in" else ():
            said = f"A self-locking nut {size} is to be used again. It drags with {inches} lbf·in."
            found = {"drag_nm": to_nm(inches, "lbf.in")}
            yield Out(FULL, f"{size} locking nut", said, found, "FAA")
