"""One mistake at a time in the torques of a correct list, as print and practice know them.

Each kind takes a row and returns the row with the mistake in it, the severity that the
mistake deserves, and a word that the message should hold where a simpler reading explains
it; or None where the mistake cannot be made in that row. What is deserved follows from
the ratio of the wrong to the right torque alone, never from what the program says.
Mistakes in other columns, and the list of all kinds: ``planted_kinds.py``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from torquebook.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Callable
    from random import Random

    from printed_lists import Row

# Factors typed here on purpose, apart from torquebook.units (NIST SP 811, table B.8).
NM = {
    "N.m": 1.0,
    "lb-ft": 1.355818,
    "lb-in": 0.1129848,
    "in-lb": 0.1129848,
    "kgf.m": 9.80665,
    "kgf.cm": 0.0980665,
}
# As a ratio to the right torque: breaks, or its inverse drops something. Right torques lie at
# 0.45 to 0.95 of proof and bolts break at 1.2 to 1.4 times proof (ISO 898-1, SAE J429).
BREAKS = 5.0


@dataclass(frozen=True)
class Mistake:
    """A row with one mistake in it, what it deserves, and a word that explains it."""

    row: Row
    deserves: Severity
    word: str = ""


@dataclass(frozen=True)
class Neighbours:
    """What a mistake may copy from: the other rows of the same list."""

    rows: list[Row]
    index: int
    random: Random


def numbers(row: Row) -> tuple[list[float], str] | None:
    """Return the torque values and the unit of a row as printed."""
    match = re.fullmatch(r"([\d.]+)(?:-([\d.]+))? (\S+)", row["tighten"])
    if match is None:
        return None
    return [float(value) for value in match.groups()[:2] if value], match[3]


def _text(values: list[float], unit: str) -> str:
    return (
        "-".join(f"{value:.3g}" if value < 1000 else f"{value:.0f}" for value in values)
        + f" {unit}"
    )


def by_ratio(ratio: float) -> Severity:
    """Return what a torque deserves that is wrong by this ratio."""
    return Severity.STOP if ratio >= BREAKS or ratio <= 1 / BREAKS else Severity.ASK


def wrong_unit(meant: str, written: str) -> Callable[[Row, Neighbours], Mistake | None]:
    """Return the mistake of a number in one unit that is written down in another."""

    def make(row: Row, _: Neighbours) -> Mistake | None:
        read = numbers(row)
        if read is None:
            return None
        values, unit = read
        moved = [value * NM[unit] / NM[meant] for value in values]
        return Mistake(
            row | {"tighten": _text(moved, written)}, by_ratio(NM[written] / NM[meant]), meant
        )

    return make


def lost_digit(factor: float) -> Callable[[Row, Neighbours], Mistake | None]:
    """Return the mistake of a decimal point in the wrong place."""

    def make(row: Row, _: Neighbours) -> Mistake | None:
        read = numbers(row)
        if read is None:
            return None
        values, unit = read
        moved = [value * factor for value in values]
        return Mistake(row | {"tighten": _text(moved, unit)}, by_ratio(factor), "")

    return make


def _ratio(row: Row, other: Row) -> float:
    first, second = numbers(row), numbers(other)
    if first is None or second is None:
        return 1.0
    return (second[0][0] * NM[second[1]]) / (first[0][0] * NM[first[1]])


def _swapped(row: Row, near: Neighbours, fits: Callable[[Row], bool]) -> Mistake | None:
    """Return the row with the torque of another row that fits and differs by 15 % or more."""
    keys = ("friction", "nut", "head", "joint")
    others = [
        other for other in near.rows
        if fits(other)
        and all(other.get(key) == row.get(key) for key in keys[:3])
        and abs(_ratio(row, other) - 1) >= 0.15
        and _kind(other) == _kind(row)
    ]  # fmt: skip
    if not others:
        return None
    other = near.random.choice(others)
    return Mistake(row | {"tighten": other["tighten"]}, by_ratio(_ratio(row, other)))


def _kind(row: Row) -> str:
    return row["joint"].rsplit(" ", 1)[-1] if row.get("joint") else ""


def other_class(row: Row, near: Neighbours) -> Mistake | None:
    """Take the value of another class of the same thread."""
    if not row["class"]:
        return None
    return _swapped(
        row,
        near,
        lambda other: (
            other["thread"] == row["thread"]
            and other["class"] not in ("", row["class"])
            and other["source"] == row["source"]
        ),
    )


def diameter(row: Row) -> float:
    """Return the nominal diameter of a row's thread [mm]."""
    text = row["thread"].split(" ")[0]
    if text.startswith("M"):
        return float(text[1:].split("x")[0])
    match = re.fullmatch(r"(?:(\d+)-)?(\d+)/(\d+)(?:-\d+)?|(\d+)(?:-\d+)?", text)
    if match is None:
        raise ValueError(text)
    whole, top, bottom, plain = (int(part or 0) for part in match.groups())
    if plain > 2:  # numbered sizes, ASME B1.1: 0.060 in + 0.013 in a number
        return (0.060 + 0.013 * plain) * 25.4
    return (plain or whole + top / bottom) * 25.4


def next_size(row: Row, near: Neighbours) -> Mistake | None:
    """Take the value of the next larger or smaller size of the same class."""
    own = diameter(row)
    return _swapped(
        row,
        near,
        lambda other: (
            other["class"] == row["class"]
            and other["source"] == row["source"]
            and other.get("joint") == row.get("joint")
            and other["thread"] != row["thread"]
            and 0.6 < diameter(other) / own < 1.6
        ),
    )


def dry_value_oiled(row: Row, _: Neighbours) -> Mistake | None:
    """Keep the dry value, but oil the thread."""
    if row["friction"] != "dry" or not row["class"]:
        return None
    return Mistake(row | {"friction": "oiled"}, Severity.ASK)


def diameter_typed(row: Row, _: Neighbours) -> Mistake | None:
    """Type the diameter where the torque belongs."""
    read = numbers(row)
    if read is None or not row["thread"].startswith("M"):
        return None
    number = diameter(row)
    ratio = number / (read[0][0] * NM[read[1]])
    if ratio > 0.5:  # M6 at 6 N·m is hardly wrong
        return None
    return Mistake(row | {"tighten": f"{number:g} N.m"}, by_ratio(ratio), "diameter")


def angle_typed(row: Row, _: Neighbours) -> Mistake | None:
    """Type the angle of a second stage as a torque."""
    read = numbers(row)
    if read is None or len(read[0]) > 1 or not row["class"]:
        return None
    right_nm = read[0][0] * NM[read[1]]
    ratio = 90 / right_nm
    if not ratio >= 1.5:
        return None
    return Mistake(row | {"tighten": f"{right_nm / 2:.3g} N.m, 90 N.m"}, by_ratio(ratio), "angle")


def torque_as_angle(row: Row, _: Neighbours) -> Mistake | None:
    """Write degrees behind a torque."""
    read = numbers(row)
    if read is None or len(read[0]) > 1:
        return None
    number = f"{read[0][0]:g}"
    return Mistake(row | {"tighten": f"{number} deg"}, Severity.ASK, f"{number} N·m")


def unit_left_out(row: Row, _: Neighbours) -> Mistake | None:
    """Leave the unit out."""
    read = numbers(row)
    if read is None:
        return None
    return Mistake(row | {"tighten": row["tighten"].split(" ")[0]}, Severity.ASK, "N.m")


def reworded(template: str, *, least: float = 0) -> Callable[[Row, Neighbours], Mistake | None]:
    """Return the mistake of stages in a wrong order; the template takes t, h, m and u."""

    def make(row: Row, _: Neighbours) -> Mistake | None:
        read = numbers(row)
        if read is None or read[0][0] < least:
            return None
        value, unit = read[0][-1], read[1]
        text = template.format(
            t=f"{value:.4g}", h=f"{value / 2:.4g}", m=f"{value * 0.9:.3g}", u=unit
        )
        return Mistake(row | {"tighten": text}, Severity.ASK)

    return make
