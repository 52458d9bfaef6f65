"""How a worked-out number becomes an answer: to choose among the trade's mistakes, or to give."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.numerals import number_text
from torquebook.quiz.model import Choice, Number, Option, Slip, with_decimals
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from torquebook.quiz.draws import Draw
    from torquebook.quiz.model import Answer

MOST_WRONG: Final = 3
_LEAST_WRONG: Final = 2
EXACT: Final = 0.0
_LEAST_APART: Final = 0.01  # of two answers, as a share
_PERCENT: Final = 100.0
_TENFOLD: Final = 10.0
_WORDS: Final = {"mm2": "mm²", "deg": "degrees", "turn": "turns", "flat": "flats"}
#: Torques in these units are written as round numbers of their own.
LBF_FT: Final = "lbf.ft"

Wrong = tuple[float, str]
"""A number that a mistake leads to, and the mistake in half a sentence."""


class Asked(NamedTuple):
    """An answer, what the question has to say of it at its end, and the key in print."""

    answer: Answer
    tail: str
    shown: str


def decimals_of(value: float) -> int:
    """Return the decimals that give a value three figures, also once it is rounded."""
    if not value:
        return 0
    power = int(f"{value:.2e}".partition("e")[2])
    return min(max(2 - power, 0), 4)


def figure(value: float, unit: str) -> str:
    """Return a value to three figures with its unit.

    >>> figure(9.999, "kN"), figure(0.9999, "kN")
    ('10.0 kN', '1.00 kN')
    """
    return with_decimals(value, decimals_of(value), unit)


def unit_text(unit: str) -> str:
    """Return a unit as a text prints it: ``lbf·ft``."""
    return unit.replace(".", "·")


def unit_word(unit: str) -> str:
    """Return the unit that an answer is asked for in, as a sentence says it: ``degrees``."""
    return _WORDS.get(unit) or unit_text(unit)


def given(value: float, unit: str) -> str:
    """Return a value as a question states it, with no digit more than it has."""
    text = number_text(value)
    return with_decimals(value, len(text.partition(".")[2]), unit)


def asked(
    draw: Draw, value: float, unit: str, slips: Iterable[Wrong], share: float = 0.03
) -> Asked:
    """Return a number as a choice or to be given.

    Parameters
    ----------
    draw : Draw
    value : float
        The key before it is rounded, above 0.
    unit : str
        Plain name.
    slips : iterable of (float, str)
        What mistakes lead to; those that come too near to the key or to one another are left out.
    share : float
        How far an answer may be off, as a share of the key, and in points where the key is in
        per cent; ``EXACT`` where it comes out without rounding.
    """
    key = round(value, 6 if share == EXACT else decimals_of(value))
    places = _decimals_in(key) if share == EXACT else decimals_of(value)
    margin = _PERCENT * share if unit == "%" else share * key
    apart = max(2 * margin / key, _LEAST_APART)
    step = 0.0 if share == EXACT else _TENFOLD**-places
    values, kept = [key], []
    for slip in slips:
        if _stands_apart(slip[0], values, apart, step):
            values.append(slip[0])
            kept.append(slip)
    if kept and draw.below(2):
        kept += [one for one in _fill(key, kept) if _stands_apart(one[0], values, apart, step)]
        shown = among(draw, key, kept)
        if share == EXACT:
            places = max(places, *(min(_decimals_in(float(f"{one:.3g}")), 2) for one, _ in shown))
        options = {with_decimals(one, places, unit): why for one, why in shown}
        right = with_decimals(key, places, unit)
        wrong_ones = (Option(text, why) for text, why in options.items() if text != right)
        return Asked(chosen(draw, right, wrong_ones), "", right)
    digits = ".4g" if share == EXACT else ".3g"
    found = tuple(Slip(float(f"{wrong:{digits}}"), mistake) for wrong, mistake in kept)
    within, tail = _told(unit, share)
    number = Number(key, unit, round(margin, 6), places, found, within)
    return Asked(number, tail, number.shown)


def _decimals_in(value: float) -> int:
    return len(number_text(value).partition(".")[2])


def _stands_apart(value: float, others: list[float], share: float, step: float) -> bool:
    """Return whether a value is told from others, by a share of the greater one and a step."""
    for one in others:
        far = abs(value - one)
        if far <= step or far <= share * max(value, one):
            return False
    return value >= 0


def _fill(key: float, kept: list[Wrong]) -> list[Wrong]:
    """Return decimal slips for the sides of the key that have too few wrong answers."""
    below = sum(wrong < key for wrong, _ in kept)
    sides = (below, key / _TENFOLD), (len(kept) - below, key * _TENFOLD)
    return [(wrong, "a decimal slip") for count, wrong in sides if count < _LEAST_WRONG]


def among(draw: Draw, key: float, kept: Sequence[Wrong]) -> list[Wrong]:
    """Return the wrong answers to show, so that the key is the greatest as often as the least."""
    below = [one for one in kept if one[0] < key]
    above = [one for one in kept if one[0] > key]
    count = MOST_WRONG if min(len(below), len(above)) >= MOST_WRONG else _LEAST_WRONG
    least = max(0, count - len(above))
    less = least + draw.below(min(count, len(below)) - least + 1)
    return draw.mixed(below)[:less] + draw.mixed(above)[: count - less]


@lru_cache(maxsize=256)
def _told(unit: str, share: float) -> tuple[str, str]:
    """Return a tolerance in print, and what a question says of it: nothing of the key's size."""
    if share == EXACT:
        return "", f" Answer in {unit_word(unit)}, exactly."
    said = f"{_PERCENT * share:g}"
    points = "point" if said == "1" else "points"
    within = f"{said} {points}" if unit == "%" else f"{said} %"
    return within, f" Answer in {unit_word(unit)}; within {within} counts as right."


def chosen(draw: Draw, right: str, wrong: Iterable[Option]) -> Choice:
    """Return the right text among wrong options, in a drawn order."""
    return Choice(tuple(draw.mixed((Option(right), *wrong))))


def in_unit(torque_nm: float, unit: str) -> float:
    """Return a torque in N·m in another unit."""
    return torque_nm / FACTORS[unit][1]


def to_nm(value: float, unit: str) -> float:
    """Return a torque in N·m."""
    return value * FACTORS[unit][1]


def unit_slip(torque_nm: float, unit: str) -> tuple[float, str]:
    """Return the number that comes of writing one unit's number behind another unit."""
    if unit == "N.m":
        return in_unit(torque_nm, LBF_FT), "the number in lbf·ft, written as N·m"
    return torque_nm, f"the number in N·m, written as {unit_text(unit)}"


_ROUND: Final = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)


@lru_cache(maxsize=64)
def round_torques(unit: str, low_nm: float, high_nm: float) -> tuple[float, ...]:
    """Return the torques of a range that a sheet would print in a unit, smallest first."""
    low, high = in_unit(low_nm, unit), in_unit(high_nm, unit)
    every = (number * _TENFOLD**power for power in range(-2, 5) for number in _ROUND)
    return tuple(round(value, 3) for value in every if low <= value <= high)


@lru_cache(maxsize=1024)
def sheet_value(torque_nm: float, unit: str) -> float:
    """Return a torque in a unit, rounded to what a wrench can be set to by eye."""
    value = in_unit(torque_nm, unit)
    step = next(step for above, step in _SETTINGS if value >= above)
    return round(round(value / step) * step, 3)


_SETTINGS: Final = ((200.0, 10.0), (50.0, 5.0), (20.0, 1.0), (5.0, 0.5), (0.0, 0.1))
