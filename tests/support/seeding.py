"""One mistake at a time in a correct list, as tests/published and trade practice know them.

Each kind takes a row and returns the row with the mistake in it, the severity that the
mistake deserves, and a word that the message should hold where a simpler reading explains
it; or None where the mistake cannot be made in that row. What is deserved follows from
the ratio of the wrong to the right torque alone, never from what the program says.
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


def _diameter(row: Row) -> float:
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
    own = _diameter(row)
    return _swapped(
        row,
        near,
        lambda other: (
            other["class"] == row["class"]
            and other["source"] == row["source"]
            and other.get("joint") == row.get("joint")
            and other["thread"] != row["thread"]
            and 0.6 < _diameter(other) / own < 1.6
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
    diameter = _diameter(row)
    ratio = diameter / (read[0][0] * NM[read[1]])
    if ratio > 0.5:  # M6 at 6 N·m is hardly wrong
        return None
    return Mistake(row | {"tighten": f"{diameter:g} N.m"}, by_ratio(ratio), "diameter")


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


def cells(deserves: Severity, **values: str) -> Callable[[Row, Neighbours], Mistake | None]:
    """Return the mistake of wrong values in other columns."""

    def make(row: Row, _: Neighbours) -> Mistake | None:
        return Mistake(row | {name.rstrip("_"): value for name, value in values.items()}, deserves)

    return make


def weak_nut(row: Row, _: Neighbours) -> Mistake | None:
    """Pair the bolt with a nut two classes down."""
    nut = {"8.8": "5", "10.9": "8", "12.9": "10"}.get(row["class"])
    return Mistake(row | {"nut": nut}, Severity.ASK, f"nut of class {nut}") if nut else None


def short_engagement(row: Row, _: Neighbours) -> Mistake | None:
    """Screw the bolt into aluminium by nine tenths of its diameter."""
    return Mistake(
        row | {"into": "aluminium", "engagement": f"{0.9 * _diameter(row):.1f} mm"}, Severity.ASK
    )


def unlisted_pitch(row: Row, _: Neighbours) -> Mistake | None:
    """Misprint the pitch."""
    text = row["thread"]
    if text.startswith("M"):
        size = text.split("x")[0]
        return Mistake(row | {"thread": f"{size}x1.3"}, Severity.ASK, f"write {size}")
    if re.search(r"/\d+-\d+$", text):
        return Mistake(row | {"thread": text.rsplit("-", 1)[0] + "-17"}, Severity.ASK)
    return None


def small_wrench(row: Row, _: Neighbours) -> Mistake | None:
    """Name a wrench that ends below the torque."""
    read = numbers(row)
    if read is None:
        return None
    top = 0.8 * read[0][0] * NM[read[1]]
    return Mistake(row | {"wrench": f"{top / 5:.1f}-{top:.1f} N.m"}, Severity.ASK, "scale")


def tight_tolerance(row: Row, _: Neighbours) -> Mistake | None:
    """Ask for 1 % of a wrench that holds 4 or 6 %."""
    read = numbers(row)
    if read is None:
        return None
    value = read[0][0]
    high = 4 * value * NM[read[1]]
    return Mistake(
        row | {
            "tighten": f"{value:g} ±{value / 100:.2g} {read[1]}",
            "wrench": f"{high / 10:.3g}-{high:.3g} N.m",
        },
        Severity.ASK,
    )  # fmt: skip


def pair_disagrees(row: Row, _: Neighbours) -> Mistake | None:
    """Print a second unit that is a tenth off."""
    read = numbers(row)
    if read is None or len(read[0]) > 1:
        return None
    value, unit = read[0][0], read[1]
    other = "lb-ft" if unit == "N.m" else "N.m"
    wrong = value * NM[unit] / NM[other] * 1.1
    if wrong < 20:  # a tenth of a small number is its rounding
        return None
    return Mistake(row | {"tighten": f"{value:g} {unit} ({wrong:.0f} {other})"}, Severity.ASK)


def by_angle(degrees: float, **values: str) -> Callable[[Row, Neighbours], Mistake | None]:
    """Return the mistake in an angle after half the torque, in a bolt of a known class."""

    def make(row: Row, _: Neighbours) -> Mistake | None:
        read = numbers(row)
        if read is None or row["class"] not in ("8.8", "10.9", "12.9"):
            return None
        clamp = f"{2 * _diameter(row):.0f} mm"
        text = f"{read[0][0] / 2:.3g} {read[1]} + {degrees:g} deg"
        changed = row | {"tighten": text, "clamp_length": clamp} | values
        return Mistake(changed, Severity.ASK)

    return make


def angle_beyond_the_wrench(row: Row, near: Neighbours) -> Mistake | None:
    """Turn the angle with a wrench that ends just above the snug torque."""
    mistake, read = by_angle(90, kind="stretch")(row, near), numbers(row)
    if mistake is None or read is None:
        return None
    snug = read[0][0] / 2 * NM[read[1]]
    wrench = f"{snug / 4:.3g}-{snug * 1.1:.4g} N.m"
    return Mistake(mistake.row | {"wrench": wrench}, Severity.ASK, "end of the angle")


def next_to_no_engagement(row: Row, _: Neighbours) -> Mistake | None:
    """Screw the bolt into aluminium by four tenths of its diameter."""
    if not row["class"]:
        return None
    engaged = f"{0.4 * _diameter(row):.1f} mm"
    return Mistake(row | {"into": "aluminium", "engagement": engaged}, Severity.STOP)


def lengths(clamp_d: float, length_d: float, hole_d: float) -> Callable[[Row, Neighbours], Mistake]:
    """Return the mistake of a length that does not suit the grip and the hole, in diameters."""

    def make(row: Row, _: Neighbours) -> Mistake:
        d = _diameter(row)
        changed = row | {
            "clamp_length": f"{clamp_d * d:.1f} mm",
            "length": f"{length_d * d:.1f} mm",
            "hole_depth": f"{hole_d * d:.1f} mm",
            "into": "aluminium",
        }
        return Mistake(changed, Severity.STOP if length_d - clamp_d > hole_d else Severity.ASK)

    return make


def hard_head_on_aluminium(row: Row, _: Neighbours) -> Mistake | None:
    """Press the hexagon head of a strong bolt on aluminium."""
    if row["class"] not in ("10.9", "12.9") or _diameter(row) > 24:
        return None
    return Mistake(row | {"head": "hexagon", "under": "aluminium"}, Severity.ASK, "MPa")


def oil_twice(row: Row, _: Neighbours) -> Mistake | None:
    """Take a tenth off the dry value twice."""
    read = numbers(row)
    if read is None or not row["class"] or "F-1" not in row["source"]:
        return None
    value = read[0][0] * 0.81
    if value < 20:  # small numbers are lost in rounding
        return None
    changed = row | {"tighten": f"{value:.0f} {read[1]}", "friction": "oiled"}
    return Mistake(changed, Severity.ASK, "twice")


def plated_12_9(row: Row, _: Neighbours) -> Mistake | None:
    """Have the strongest class zinc plated."""
    if row["class"] != "12.9":
        return None
    return Mistake(row | {"friction": "zinc plated"}, Severity.ASK, "electroplated")


KINDS: dict[str, Callable[[Row, Neighbours], Mistake | None]] = {
    "lbf.ft number as N.m": wrong_unit("lb-ft", "N.m"),
    "N.m number as lbf.ft": wrong_unit("N.m", "lb-ft"),
    "lbf.in number as lbf.ft": wrong_unit("lb-in", "lb-ft"),
    "lbf.ft number as lbf.in": wrong_unit("lb-ft", "lb-in"),
    "lbf.in number as N.m": wrong_unit("lb-in", "N.m"),
    "N.m number as lbf.in": wrong_unit("N.m", "lb-in"),
    "kgf.m number as N.m": wrong_unit("kgf.m", "N.m"),
    "N.m number as kgf.m": wrong_unit("N.m", "kgf.m"),
    "kgf.cm number as N.m": wrong_unit("kgf.cm", "N.m"),
    "digit lost": lost_digit(0.1),
    "digit added": lost_digit(10.0),
    "row of another class": other_class,
    "row of the next size": next_size,
    "dry value on oil": dry_value_oiled,
    "diameter as torque": diameter_typed,
    "angle as torque": angle_typed,
    "torque as angle": torque_as_angle,
    "unit left out": unit_left_out,
    "low above high": reworded("{t}-{m} {u}"),
    "stage falls": reworded("{t} {u}, {h} {u}"),
    "torque after angle": reworded("{h} {u} + 60 deg, {t} {u}"),
    "angle without its sign": reworded("{h} {u} + 900 deg"),
    "position missed": cells(Severity.STOP, count="6", order="1-4-2-5-3"),
    "position twice": cells(Severity.ASK, count="6", order="1-4-2-5-3-6-4"),
    "order of another count": cells(Severity.ASK, count="6", order="1-5-3-7-2-6-4-8"),
    "round the circle": cells(Severity.ASK, count="8", order="1-2-3-4-5-6-7-8"),
    "weak nut": weak_nut,
    "short engagement": short_engagement,
    "unlisted pitch": unlisted_pitch,
    "wrench too small": small_wrench,
    "tolerance too tight": tight_tolerance,
    "units disagree": pair_disagrees,
    "angle too far": by_angle(330),
    "stretch bolt again": by_angle(60, kind="stretch", state="used"),
    "stretch bolt retorqued": by_angle(60, kind="stretch", note="retorque after 1000 km"),
    "angle beyond the wrench": angle_beyond_the_wrench,
    "next to no engagement": next_to_no_engagement,
    "bolt bottoms": lengths(2, 4, 1.5),
    "bolt too short": lengths(2, 2.8, 2.5),
    "hard head on aluminium": hard_head_on_aluminium,
    "old and new mixed": cells(Severity.ASK, count="6", state="4 new, 2 used"),
    "drag not added": cells(Severity.ASK, nut="self-locking"),
    "steel in magnesium": cells(Severity.ASK, into="magnesium"),
    "oil factor twice": oil_twice,
    "plated 12.9": plated_12_9,
}
