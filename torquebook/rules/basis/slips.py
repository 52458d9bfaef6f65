"""Simple slips that explain a wrong torque: another unit, a lost digit, a neighbouring row.

A technician mends a slip faster than a percentage, so the likeliest one is named first.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log
from typing import TYPE_CHECKING

from torquebook import units
from torquebook.notation import Torque
from torquebook.rules.basis import neighbours, say
from torquebook.rules.basis.deviation import USUAL_SHARES, Measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case
    from torquebook.rules.basis.deviation import Deviation

# Units that a number may have been in, with what speaks against each beside a reading that
# fits as well: rarer units are rarer slips (common practice); 0.1 is a tenth of the torque.
UNITS = {"N.m": 0.0, "lbf.ft": 0.0, "lbf.in": 0.1, "kgf.m": 0.2, "kgf.cm": 0.4}
RARE_DIGIT = 0.1
# Angles that stand in tightening procedures (real/C_*: 15 to 210 degrees).
ANGLES_DEG = (30, 45, 60, 75, 90, 105, 120, 135, 150, 180, 210, 270)
LARGEST_SLIPS = 3
LEVEL_WIDTH = 1.05  # how far lines of one list are apart, see Peers
USUAL_SNUG = 0.1  # share of proof at which a snug torque before an angle may stand
_NEAR = 0.06
BEYOND = 6.0  # a window of what is right is as wide as this, from loose to proof


@dataclass(frozen=True)
class Slip:
    """One reading of a wrong value that would be right.

    Parameters
    ----------
    kind : str
        ``unit``, ``decimal``, ``diameter``, ``angle`` or ``row``.
    text : str
        The reading in words, to follow "; ".
    instead : str
        The value that would be right.
    """

    kind: str
    text: str
    instead: str


def find_slips(case: Case, deviation: Deviation) -> tuple[Slip, ...]:
    """Return the slips that explain a deviation, likeliest first."""
    torque = case.torque
    if torque is None:
        return ()
    low, high = _window(case, deviation)
    right = say.torque((low * high) ** 0.5, torque.unit)
    found = [*_diameters(case, torque, deviation), *_angles(case, torque, deviation)]
    found += [Slip("row", text, right) for text in neighbours.same_elsewhere(case)]
    weighed = sorted(_units_and_digits(case, torque, deviation), key=lambda pair: pair[0])
    found += [slip for _, slip in weighed]
    found += [Slip("row", text, right) for text in neighbours.belongs_to(case, deviation)]
    return tuple(found[:LARGEST_SLIPS])


def _window(case: Case, deviation: Deviation) -> tuple[float, float]:
    """Return what would be right, in N·m: the printed rows, the list's level, a usual load."""
    rows = case.table_rows if case.angle_deg is None else ()
    lows = [row.low_nm for row in rows]
    highs = [max(row.high_nm, row.row.max_nm or 0.0) for row in rows]
    if deviation.measure is Measure.LIST:
        lows, highs = [deviation.low_nm / LEVEL_WIDTH], [deviation.high_nm * LEVEL_WIDTH]
    elif case.fastener.classes and (case.strength is not None or not rows):
        least = USUAL_SHARES[0] if case.angle_deg is None else USUAL_SNUG
        proof = case.proof_torque_nm
        lows.append(least * proof.low)
        highs.append(USUAL_SHARES[1] * proof.high)
    return min(lows) * (1 - _NEAR), max(highs) * (1 + _NEAR)


def _diameters(case: Case, torque: Torque, deviation: Deviation) -> Iterator[Slip]:
    thread = case.thread
    if thread is None or (deviation.over and not deviation.gross) or torque.form != "exact":
        return
    number = torque.printed[0]
    low, high = _window(case, deviation)
    right = f"{say.torque((low * high) ** 0.5, torque.unit)} or so"
    if number == thread.d_mm:
        yield Slip("diameter", f"{number:g} is the thread's diameter", right)
    elif case.line.length_mm == number:
        yield Slip("diameter", f"{number:g} is the bolt's length in mm", right)


def _angles(case: Case, torque: Torque, deviation: Deviation) -> Iterator[Slip]:
    stages = case.final_stages
    if not deviation.over or torque.form != "exact" or len(stages) < 2:  # noqa: PLR2004 - snug, then angle
        return
    number = torque.printed[0]
    if stages[-1] is torque and number in ANGLES_DEG and isinstance(stages[-2], Torque):
        yield Slip("angle", f"{number:g} may be an angle: {number:g}°", f"+ {number:g}°")


def _units_and_digits(
    case: Case, torque: Torque, deviation: Deviation
) -> Iterator[tuple[float, Slip]]:
    low, high = _window(case, deviation)
    middle = log(low * high) / 2
    number_nm = torque.band.nominal
    here = units.Quantity(1.0, torque.unit).si
    for unit, rarity in UNITS.items():
        value_nm = number_nm / here * units.Quantity(1.0, unit).si
        if (
            unit != torque.unit
            and low <= value_nm <= high
            and _explains(value_nm / number_nm, deviation)
        ):
            right = say.as_typed(number_nm / here, unit)
            weight = abs(log(value_nm) - middle) + rarity
            yield weight, Slip("unit", f"{right} would fit", right)
    for factor in (0.1, 10.0):
        if low <= number_nm * factor <= high and _explains(factor, deviation):
            right = say.as_typed(number_nm / here * factor, torque.unit)
            weight = abs(log(number_nm * factor) - middle) + RARE_DIGIT
            yield weight, Slip("decimal", f"{right} would fit, a digit off", right)


def _explains(factor: float, deviation: Deviation) -> bool:
    """Return whether a slip by a factor is of the deviation's size, and not far beyond it."""
    lower = factor < 1
    return lower is deviation.over and abs(log(factor)) <= abs(log(deviation.ratio)) + log(BEYOND)
