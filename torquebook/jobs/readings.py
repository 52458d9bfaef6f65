"""Readings: a number typed at a step, in the unit that the step shows or in one of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook import units
from torquebook.errors import NotUnderstood
from torquebook.numerals import number_at, number_text

if TYPE_CHECKING:
    from torquebook.jobs.steps import Limits

LONGEST: Final = 200
"""Longest line, in characters, that is taken for a reading."""
DOUBTFUL: Final = 10.0
"""So many times beyond a limit a reading is asked back once: a slip of the point, most likely
(inference)."""
_MINUS: Final = ("-", "−", "–")
_OWN: Final = {
    "bar": ("bar",),
    "%": ("%", "percent", "per cent"),
    "degC": ("degc", "°c", "deg c", "c"),
}
"""Units of readings that no torque, force, length or angle has, and their spellings."""


class Reading(NamedTuple):
    """A reading taken in.

    Parameters
    ----------
    value : float
        In the step's unit.
    unit : str
    typed : str
    side : int
        -1 below the limits, 1 above them, 0 within.
    """

    value: float
    unit: str
    typed: str
    side: int

    @property
    def shown(self) -> str:
        """Value and unit."""
        return shown(self.value, self.unit)


def shown(value: float, unit: str, *, plain: bool = False) -> str:
    """Return a reading's value, which may be below zero, with its unit."""
    written = units.write(units.Quantity(abs(value), unit), plain=plain)
    return f"-{written}" if value < 0 else written


def read_reading(text: str, limits: Limits) -> Reading:
    """Return the reading that a line gives; a bare number is in the unit that the step shows.

    Parameters
    ----------
    text : str
        ``0,05 mm``, ``0.05``, ``-0.2``, ``18 lbf.in``.
    limits : Limits

    Raises
    ------
    NotUnderstood
        If there is no number, more than one, or a unit that measures something else.
    """
    typed = text.strip()
    if len(typed) > LONGEST:
        raise NotUnderstood(f"{typed[:20]}...", "too long for a reading")
    below = typed.startswith(_MINUS)
    body = typed[1:].lstrip() if below or typed.startswith("+") else typed
    value = _value(body, typed, limits)
    value = -value if below else value
    low, high = limits.low, limits.high
    side = -1 if low is not None and value < low else 1 if high is not None and value > high else 0
    return Reading(value, limits.unit, typed, side)


def _value(body: str, typed: str, limits: Limits) -> float:
    """Return the value of a number and perhaps its unit, in the step's unit."""
    number = number_at(body)
    if number is None:
        raise NotUnderstood(typed, "no reading; a number is due", (f"a number of {limits.unit}",))
    behind = body[number.end :].strip()
    if not behind or behind.casefold() in _OWN.get(limits.unit, ()):
        return number.value
    if limits.unit in _OWN:
        what = f"a reading in {limits.unit} is due"
        raise NotUnderstood(typed, what, (f"{number_text(number.value)} {limits.unit}",))
    found = units.read(body, units.FACTORS[limits.unit][0])
    # Twelve figures: what a conversion adds behind them was never read off anything.
    return float(f"{units.convert(found, limits.unit).value:.12g}")


def doubt(reading: Reading, limits: Limits) -> str:
    """Return why a reading is asked back before it is believed; empty where it may be."""
    value = reading.value
    ends = [end for end in (limits.low, limits.high) if end is not None]
    if value < 0 and min(ends) >= 0 and reading.unit != "degC":
        return f"{reading.shown} is below zero"
    most, least = max(map(abs, ends)), min(map(abs, ends))
    if reading.side and most and abs(value) >= DOUBTFUL * most:
        return f"{reading.shown} is {abs(value) / most:.0f} times the limit"
    if reading.side < 0 and 0 < abs(value) <= least / DOUBTFUL:
        return f"{reading.shown} is {least / abs(value):.0f} times less than the limit"
    return ""


def verdict(reading: Reading, limits: Limits) -> str:
    """Return what a reading out of its limits is told; empty for one within them."""
    if not reading.side:
        return ""
    where = "above" if reading.side > 0 else "below"
    return f"{reading.shown} is {where} the limit: {limits.shown}"
