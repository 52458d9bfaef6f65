"""Numbers for a person: the digits that matter, and no more."""

from __future__ import annotations

from math import floor, log10
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

DIGITS: Final = 3
MULTIPLE: Final = 3.0  # shares from here up are printed as multiples


def figures(value: float, digits: int = DIGITS) -> str:
    """Return a number to so many significant digits, without idle zeros or an exponent.

    Examples
    --------
    >>> figures(48912.0), figures(0.10446), figures(24.0)
    ('48900', '0.104', '24')
    """
    text = _rounded(value, digits)
    return text.rstrip("0").rstrip(".") if "." in text else text


def three_digits(value: float) -> str:
    """Return a number to three significant digits, idle zeros and all, for a column."""
    return _rounded(value, DIGITS)


def _rounded(value: float, digits: int) -> str:
    if value == 0:
        return "0"
    places = digits - 1 - floor(log10(abs(value)))
    return f"{round(value, places):.{max(places, 0)}f}"


def millimetres(value: float) -> str:
    """Return a length to a thousandth of a millimetre, without idle zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def kilonewtons(value_n: float) -> str:
    """Return a force in kN to three digits, without the unit."""
    return three_digits(value_n / 1000)


def percent(share: float) -> str:
    """Return a share in per cent, without the sign."""
    return f"{share * 100:.0f}"


def share(value: float) -> str:
    """Return a share with its sign, or a multiple from three up."""
    return f"{percent(value)} %" if value < MULTIPLE else f"{figures(value, 2)} times"


def span(low: str, high: str) -> str:
    """Return two printed numbers as a range, or as one where they are alike."""
    return low if low == high else f"{low}–{high}"


def on_the_point(numbers: Sequence[str]) -> list[str]:
    """Return numbers padded at their end, so that their points align flush right."""
    tails = [len(number) - number.index(".") if "." in number else 0 for number in numbers]
    return [number + " " * (max(tails) - tail) for number, tail in zip(numbers, tails, strict=True)]
