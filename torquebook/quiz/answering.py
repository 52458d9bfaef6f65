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
_STEPS: Final = ((0.1, 4), (1.0, 3), (10.0, 2), (100.0, 1))
_TENFOLD: Final = 10.0
_WORDS: Final = {"mm2": "mm²", "deg": "degrees", "turn": "turns", "flat": "flats"}
#: Torques in these units are written as round numbers of their own.
LBF_FT: Final = "lbf.ft"


class Asked(NamedTuple):
    """An answer, and what the question has to say of it at its end."""

    answer: Answer
    tail: str


def decimals_of(value: float) -> int:
    """Return the decimals that give a value three figures or more."""
    if not value:
        return 0
    return next((places for below, places in _STEPS if abs(value) < below), 0)


def figure(value: float, unit: str) -> str:
    """Return a value to three figures with its unit."""
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
    draw: Draw,
    value: float,
    unit: str,
    slips: Iterable[tuple[float, str]],
    share: float = 0.03,
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
        What mistakes lead to, the likeliest first; those that come too near to the key or to
        one another are left out.
    share : float
        How far an answer may be off, as a share of the key.
    """
    places = decimals_of(value)
    step = _TENFOLD**-places
    key = round(value, places)
    margin = max(round(share * key, places), step)
    kept: list[tuple[float, str]] = []
    for wrong, mistake in slips:
        near = 2 * margin >= abs(wrong - key)
        if not near and wrong >= 0 and all(_apart(wrong, other, share) for other, _ in kept):
            kept.append((wrong, mistake))
    if len(kept) >= _LEAST_WRONG and draw.below(2):
        return Asked(chosen(draw, figure(key, unit), _options(kept, unit)), "")
    found = tuple(Slip(round(wrong, decimals_of(wrong)), mistake) for wrong, mistake in kept)
    number = Number(key, unit, round(margin, places), places, found)
    return Asked(number, _tail(unit, number.margin))


def _apart(one: float, other: float, share: float) -> bool:
    return abs(one - other) > 2 * share * max(one, other)


def _options(kept: Sequence[tuple[float, str]], unit: str) -> list[Option]:
    return [Option(figure(wrong, unit), mistake) for wrong, mistake in kept[:MOST_WRONG]]


@lru_cache(maxsize=256)
def _tail(unit: str, margin: str) -> str:
    return f" Answer in {unit_word(unit)}; within {margin} counts as right."


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
