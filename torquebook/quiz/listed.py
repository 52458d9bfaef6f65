"""Torque lists with one mistake each, as the trade makes it.

What is wrong with them is never said here: ``build`` asks the rules.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.quiz.answering import given, round_torques, sheet_value, to_nm
from torquebook.quiz.stock import classes, nm_per_kn, proof_n, seated

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw

Row = dict[str, str]
ROWS: Final = 5
_MUS: Final = {"dry": 0.151, "oiled": 0.11}
_SHARES: Final = (0.6, 0.65, 0.7, 0.75, 0.8)
_KN: Final = 1000.0
_ORDERS: Final = {"4": "1-3-2-4", "6": "1-4-2-5-3-6", "8": "1-5-3-7-2-6-4-8"}


def right_rows(draw: Draw, book: Book, level: int, unit: str) -> list[Row]:
    """Return a torque list in which nothing is wrong."""
    every = [one for one in seated(book, level) if one.thread.d_mm >= 6]  # noqa: PLR2004 - small ones round badly
    pairs = draw.mixed((size, condition) for size in every for condition in _MUS)[:ROWS]
    pairs.sort(key=lambda pair: (pair[0].thread.d_mm, -pair[0].thread.pitch_mm, pair[1]))
    rows: list[Row] = []
    for at, (size, condition) in enumerate(pairs):
        strength = draw.pick([one for one in classes(book, level, size.thread) if "." in one.name])
        torque_nm = (
            nm_per_kn(size, _MUS[condition]) * draw.pick(_SHARES) * proof_n(size, strength) / _KN
        )
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


def _far_larger(row: Row, unit: str) -> Row:
    number = sheet_value(2.5 * to_nm(_torque(row), unit), unit)
    return row | {"tighten": given(number, unit)}


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


def _missed(row: Row, unit: str) -> Row:
    return row | {"order": row["order"].rpartition("-")[0]}


def _twice(row: Row, unit: str) -> Row:
    return row | {"order": f"{row['order']}-{row['order'].split('-')[1]}"}


def _other_count(row: Row, unit: str) -> Row:
    return row | {"order": _ORDERS[{"4": "6", "6": "8", "8": "6"}[row["count"]]]}


def _round(row: Row, unit: str) -> Row:
    return row | {"order": "-".join(str(at) for at in range(1, int(row["count"]) + 1))}


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
    source : str
        Where what is right is printed; empty where the rule says it.
    """

    name: str
    said: str
    level: int
    rules: frozenset[str]
    make: Callable[[Row, str], Row]
    beside: Callable[[Row], Row] = dict
    source: str = ""


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


def _rules(*slugs: str) -> frozenset[str]:
    return frozenset(slugs)


_PCC: Final = "ASME PCC-1, appendix F, as described by flange-trade pages"
_ONCE: Final = f"counted in the line; {_PCC}: each order has every position once"
_STAGED: Final = "US Army TM 10-4320-315-24, table 3-4: a torque first, then the angles"
#: Mistakes whose right way is printed nowhere (old bolts among new ones, steel in magnesium, a
#: torque after an angle) are not asked for.
KINDS: Final = (
    Kind("a digit lost", _UNFIT, 1, _TORQUE, _scaled(0.1)),
    Kind("a digit too many", _UNFIT, 1, _TORQUE, _scaled(10)),
    Kind("the row of a size far larger", _UNFIT, 1, _TORQUE, _far_larger),
    Kind("a number of another unit", _UNFIT, 1, _TORQUE, _other_unit),
    Kind("the diameter typed", "the diameter stands where the torque belongs", 1,
         _rules("diameter-as-torque"), _diameter),
    Kind("stages fall", "its stages fall", 1, _rules("stage-falls"), _two_stages,
         source=f"{_PCC}: passes at 30, 60 and 100 %"),
    Kind("no unit", "its torque has no unit", 1, _rules("unit-unsaid"),
         lambda row, unit: row | {"tighten": f"{_torque(row):g}"}),
    Kind("missed", "a bolt is missing from its order", 1, _rules("position-missed"),
         _missed, source=_ONCE),
    Kind("twice", "a bolt comes twice in its order", 1, _rules("position-twice"),
         _twice, source=_ONCE),
    Kind("other count", "its order is for another number of bolts", 1, _rules("count-differs"),
         _other_count, source=_ONCE),
    Kind("round", "its first pass goes round the circle", 1, _rules("round-the-circle"), _round,
         source=f"{_PCC}: 1-3-2-4, 1-4-2-5-3-6, 1-5-3-7-2-6-4-8"),
    Kind("weak nut", "its nut is too weak", 2, _rules("nut-weaker"), _weak_nut, _nut),
    Kind("short", "too little thread engages", 2, _rules("engagement-short"), _short, _in_steel),
    Kind("angle first", "an angle stands before the snug torque", 2, _rules("angle-before-snug"),
         _angle_first, source=_STAGED),
    Kind("plated", "bolts of the strongest class are zinc plated", 3, _rules("brittle-plating"),
         _plated),
)  # fmt: skip
