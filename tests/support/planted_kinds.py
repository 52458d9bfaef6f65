"""Mistakes in the other columns of a correct list and in its angles, and all kinds by name.

Mistakes in the torques, and what a kind is: ``planting.py``.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from planting import (
    NM,
    Mistake,
    Neighbours,
    angle_typed,
    diameter,
    diameter_typed,
    dry_value_oiled,
    lost_digit,
    next_size,
    numbers,
    other_class,
    reworded,
    torque_as_angle,
    unit_left_out,
    wrong_unit,
)

from torquebook.findings import Severity

if TYPE_CHECKING:
    from collections.abc import Callable

    from printed_lists import Row


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
        row | {"into": "aluminium", "engagement": f"{0.9 * diameter(row):.1f} mm"}, Severity.ASK
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
        clamp = f"{2 * diameter(row):.0f} mm"
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
    engaged = f"{0.4 * diameter(row):.1f} mm"
    return Mistake(row | {"into": "aluminium", "engagement": engaged}, Severity.STOP)


def lengths(clamp_d: float, length_d: float, hole_d: float) -> Callable[[Row, Neighbours], Mistake]:
    """Return the mistake of a length that does not suit the grip and the hole, in diameters."""

    def make(row: Row, _: Neighbours) -> Mistake:
        d = diameter(row)
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
    if row["class"] not in ("10.9", "12.9") or diameter(row) > 24:
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
