"""Numerals: numbers as people write and print them, and back.

A decimal comma and a decimal point, groups of thousands, fractions; what may be either of
two numbers ("1,350") is asked back.
"""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from torquebook.errors import NotUnderstood

LARGEST: Final = 1e9
"""Numbers from here up are refused: no sheet prints them."""

_GROUP: Final = "\u00a0\u2009\u202f"  # spaces that hold the groups of one number together
_DIGITS: Final = re.compile(rf"(?:[.,]?\d)(?:[.,{_GROUP}]?\d)*")
_DECIMAL: Final = re.compile(r"\d*(?:[.,]\d+)?")
_DOUBTFUL: Final = re.compile(r"(?=0*[1-9])\d{1,3},\d{3}")  # 1,350 but not 0,350
_THOUSANDS: Final = re.compile(r"\d{1,3}(?:,\d{3}){2,}")
_GROUPED: Final = re.compile(
    rf"\d{{1,3}}(?:(?:,\d{{3}})+\.\d+|(?:\.\d{{3}})+,\d+|(?:[{_GROUP}]\d{{3}})+(?:[.,]\d+)?)"
)
_VULGAR: Final = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4),
    "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6),
    "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
_FRACTION: Final = re.compile(
    rf"(?:(\d{{1,4}})(?:[ {_GROUP}]?|-))?([{''.join(_VULGAR)}])"
    r"|(?:(\d{1,4})[ \u00a0-])?(\d{1,2})[/⁄](\d{1,2})(?![\d.,/⁄])"
)
_DENOMINATORS: Final = (2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64)

_WRITTEN: Final = (2, 3, 4, 6, 8, 12)  # fifths and tenths read better as decimals
_LARGEST_MIXED: Final = 1000


class Number(NamedTuple):
    """A number found in a text."""

    value: float
    end: int
    """Offset just behind it."""
    decimals: int
    """Digits printed behind the decimal mark."""
    slashed: bool
    """Whether it is printed as a plain a/b, which could be two numbers."""


def number_at(text: str, offset: int = 0) -> Number | None:
    """Return the number that starts at an offset, or None where none does.

    Decimal point and decimal comma are taken, groups of thousands where they cannot be
    decimals ("1,350.5"), and fractions ("1 1/4", "½"); the value stays below ``LARGEST``.

    Raises
    ------
    NotUnderstood
        If a comma may be either ("1,350"), or the digits are no number.
    """
    if fraction := _FRACTION.match(text, offset):
        whole = fraction[1] or fraction[3] or "0"
        top, bottom = _VULGAR.get(fraction[2]) or (int(fraction[4]), int(fraction[5]))
        if bottom in _DENOMINATORS and 0 < top < bottom:
            value = (int(whole) * bottom + top) / bottom
            return Number(value, fraction.end(), 2, not fraction[2] and not fraction[3])
    digits = _DIGITS.match(text, offset)
    if not digits:
        return None
    value, decimals = _plain_number(text, digits[0], offset)
    return Number(value, digits.end(), decimals, slashed=False)


def _plain_number(text: str, digits: str, offset: int) -> tuple[float, int]:
    """Return the value of digits with marks between them, and its count of decimals."""
    if _DOUBTFUL.fullmatch(digits):
        readings = (digits.replace(",", ""), digits.replace(",", "."))
        raise NotUnderstood(
            text, f"the comma in {digits} may mark thousands or decimals", readings, offset
        )
    mark = max(digits.rfind("."), digits.rfind(","))
    if _THOUSANDS.fullmatch(digits):
        mark = -1
    elif not _GROUPED.fullmatch(digits) and not _DECIMAL.fullmatch(digits):
        raise NotUnderstood(text, f"{digits} is no number", offset=offset)
    whole, part = (digits[:mark], digits[mark + 1 :]) if mark >= 0 else (digits, "")
    value = float("".join(re.findall(r"\d", whole)) + "." + part + "0")
    if value >= LARGEST:
        raise NotUnderstood(text, f"a number of {LARGEST:g} or more", offset=offset)
    return value, len(part)


def number_text(value: float) -> str:
    """Return the shortest plain decimal that reads back as the same number."""
    text = repr(float(value)).removesuffix(".0")
    if "e-" not in text:
        return f"{value:.0f}" if "e" in text else text
    digits, _, power = text.partition("e-")
    return "0." + "0" * (int(power) - 1) + digits.replace(".", "")


def fraction_text(value: float) -> str:
    """Return a number as a whole and a fraction ("1 1/4") where it is one, else as a decimal."""
    whole = int(value)
    for bottom in _WRITTEN if value < _LARGEST_MIXED else ():
        top = round((value - whole) * bottom)
        if 0 < top < bottom and (whole * bottom + top) / bottom == value:
            return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    return number_text(value)
