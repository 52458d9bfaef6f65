"""What is asked of the validator and of the reuse rulebook when the bank of questions is made.

Torque lists with one mistake each, as the trade makes it, and fasteners that came out. What is
right of them is never said here: ``build`` asks the rules.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.quiz.answering import given, in_unit, round_torques, sheet_value, to_nm
from torquebook.quiz.levels import ANGLES_FROM, COUNTRIES, FULL
from torquebook.quiz.stock import classes, nm_per_kn, proof_n, seated

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw

Row = dict[str, str]
ROWS: Final = 5
_MUS: Final = {"dry": 0.151, "oiled": 0.11}
_SHARE: Final = 0.7
_KN: Final = 1000.0
_ORDERS: Final = {"4": "1-3-2-4", "6": "1-4-2-5-3-6", "8": "1-5-3-7-2-6-4-8"}


def right_rows(draw: Draw, book: Book, level: int, unit: str) -> list[Row]:
    """Return a torque list in which nothing is wrong."""
    every = [one for one in seated(book, level) if one.thread.d_mm >= 6]  # noqa: PLR2004 - small ones round badly
    picked = sorted(draw.mixed(every)[:ROWS] if len(every) > ROWS else every)
    rows: list[Row] = []
    for at in range(ROWS):
        size = picked[at % len(picked)]
        strength = draw.pick([one for one in classes(book, level, size.thread) if "." in one.name])
        condition = ("dry", "oiled")[at // len(picked) if len(picked) < ROWS else draw.below(2)]
        torque_nm = nm_per_kn(size, _MUS[condition]) * _SHARE * proof_n(size, strength) / _KN
        count = draw.pick(tuple(_ORDERS))
        rows.append({
            "joint": f"joint {'ABCDE'[at]}", "thread": size.name, "class": strength.name,
            "tighten": given(sheet_value(torque_nm, unit), unit), "friction": condition,
            "head": "hexagon", "count": count, "order": _ORDERS[count], "kind": "bolt",
        })  # fmt: skip
    return rows


def _torque(row: Row) -> float:
    return float(row["tighten"].partition(" ")[0])


def _scaled(factor: float) -> Callable[[Row, str], Row]:
    def make(row: Row, unit: str) -> Row:
        return row | {"tighten": given(round(_torque(row) * factor, 3), unit)}

    return make


def _other_unit(row: Row, unit: str) -> Row:
    other = "lbf.ft" if unit == "N.m" else "N.m"
    number = sheet_value(to_nm(_torque(row), unit), other)
    return row | {"tighten": given(number, unit)}


def _two_stages(row: Row, unit: str) -> Row:
    torque = _torque(row)
    low = max(value for value in round_torques(unit, 0.5, 500) if value < 0.6 * torque)
    return row | {"tighten": f"{given(torque, unit)}, {given(low, unit)}"}


def _diameter(row: Row, unit: str) -> Row:
    number = row["thread"].removeprefix("M").partition("x")[0]
    return row | {"tighten": given(float(number), unit)}


def _cells(**values: str) -> Callable[[Row, str], Row]:
    return lambda row, unit: row | {name.rstrip("_"): value for name, value in values.items()}


def _short(row: Row, unit: str) -> Row:
    number = float(row["thread"].removeprefix("M").partition("x")[0])
    return row | {"into": "aluminium", "engagement": f"{0.8 * number:g} mm"}


def _angle_first(row: Row, unit: str) -> Row:
    return row | {"tighten": f"+60°, {row['tighten']}"}


def _plated(row: Row, unit: str) -> Row:
    if row["class"] != "12.9":
        return row
    zinc = {"dry": 1.0, "oiled": 1.4}[row["friction"]]
    torque = sheet_value(to_nm(_torque(row), unit) * zinc, unit)
    return row | {"tighten": given(torque, unit), "friction": "zinc plated"}


def _angle_then_torque(row: Row, unit: str) -> Row:
    half = given(sheet_value(to_nm(_torque(row), unit) / 2, unit), unit)
    return row | {"tighten": f"{half}, +60°, {row['tighten']}"}


class Kind(NamedTuple):
    """A mistake that lists have.

    Parameters
    ----------
    name : str
        What was done to the line.
    said : str
        What is wrong with it then, for who reads the key.
    level : int
        From which on it is asked for.
    rules : frozenset of str
        The rules that are to find it.
    make : callable
        Makes a line with it out of a right one.
    beside : callable
        What the other lines then say in the same columns.
    """

    name: str
    said: str
    level: int
    rules: frozenset[str]
    make: Callable[[Row, str], Row]
    beside: Callable[[Row], Row] = dict


_UNFIT: Final = "its torque does not fit the bolt"
_TORQUE: Final = frozenset({"unit-doubtful", "over-proof", "past-yield", "clamp-too-low"})
_PAIRED: Final = {
    "4.6": "5",
    "5.6": "5",
    "5.8": "5",
    "6.8": "6",
    "8.8": "8",
    "9.8": "9",
    "10.9": "10",
}


def _nut(row: Row) -> Row:
    return row | {"nut": _PAIRED.get(row["class"], "12")}


def _weak_nut(row: Row, unit: str) -> Row:
    return row | {"nut": "8" if row["class"] in {"10.9", "12.9"} else "5"}


def _in_steel(row: Row) -> Row:
    number = float(row["thread"].removeprefix("M").partition("x")[0])
    return row | {"into": "steel", "engagement": f"{1.5 * number:g} mm"}


def _state(state: str) -> Callable[[Row], Row]:
    return lambda row: row | {"state": state}


def _rules(*slugs: str) -> frozenset[str]:
    return frozenset(slugs)


KINDS: Final = (
    Kind("a digit lost", _UNFIT, 1, _TORQUE, _scaled(0.1)),
    Kind("a digit too many", _UNFIT, 1, _TORQUE, _scaled(10)),
    Kind("the row of a size far larger", _UNFIT, 1, _TORQUE, _scaled(2.5)),
    Kind("a number of another unit", _UNFIT, 1, _TORQUE, _other_unit),
    Kind("the diameter typed", "the diameter stands where the torque belongs", 1,
         _rules("diameter-as-torque"), _diameter),
    Kind("stages fall", "its stages fall", 1, _rules("stage-falls"), _two_stages),
    Kind("no unit", "its torque has no unit", 1, _rules("unit-unsaid"),
         lambda row, unit: row | {"tighten": f"{_torque(row):g}"}),
    Kind("missed", "a bolt is missing from its order", 1, _rules("position-missed"),
         _cells(count="6", order="1-4-2-5-3")),
    Kind("twice", "a bolt comes twice in its order", 1, _rules("position-twice"),
         _cells(count="6", order="1-4-2-5-3-6-4")),
    Kind("other count", "its order is for another number of bolts", 1, _rules("count-differs"),
         _cells(count="6", order="1-5-3-7-2-6-4-8")),
    Kind("round", "its first pass goes round the circle", 1, _rules("round-the-circle"),
         _cells(count="8", order="1-2-3-4-5-6-7-8")),
    Kind("weak nut", "its nut is too weak", 2, _rules("nut-weaker"), _weak_nut, _nut),
    Kind("short", "too little thread engages", 2, _rules("engagement-short"), _short, _in_steel),
    Kind("angle first", "an angle stands before the snug torque", 2, _rules("angle-before-snug"),
         _angle_first),
    Kind("torque last", "a torque stands after the angle", 2, _rules("torque-after-angle"),
         _angle_then_torque),
    Kind("stretch again", "stretch bolts are used again", 2, _rules("stretch-again"),
         _cells(kind="stretch", state="used"), _state("used")),
    Kind("mixed", "old and new bolts are mixed", 2, _rules("old-and-new-mixed"),
         _cells(state="2 new, 2 used", count="4", order="1-3-2-4"), _state("new")),
    Kind("drag", "the drag of its nut was not added", 2, _rules("drag-unadded"),
         _cells(nut="self-locking"), _nut),
    Kind("plated", "bolts of the strongest class are zinc plated", 3, _rules("brittle-plating"),
         _plated),
    Kind("magnesium", "steel is screwed into magnesium", 3, _rules("steel-in-magnesium"),
         _cells(into="magnesium"), lambda row: row | {"into": "steel"}),
)  # fmt: skip


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
