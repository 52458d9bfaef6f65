"""Numerals: numbers as people write and print them, and back.

A decimal comma and a decimal point, groups of thousands, fractions; what may be either of
two numbers ("1,350"), and what no sheet prints ("1e3"), is asked back.
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
# 1,350 but neither 0,350 nor 1,3500
_DOUBTFUL: Final = re.compile(r"(?<!\d)(?<!\d[.,])(?=0*[1-9])(\d{1,3})([.,])(\d{3})(?![.,]?\d)")
_APART: Final = re.compile(
    r"(?=0*[1-9])\d{1,3}(?P<mark>[ '’])\d{3}(?:(?P=mark)\d{3})*(?:[.,]\d+)?(?!\d)"
)
_POWER: Final = re.compile(r"(?:\d+(?:[.,]\d+)?|[.,]\d+)e[-−+]?\d+", re.IGNORECASE)
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


class Doubt(NamedTuple):
    """Digits that may be more than one number, or that nobody writes so."""

    what: str
    readings: tuple[str, ...]
    """What they may be; of two, the first takes the mark for thousands."""
    end: int


def doubt_at(text: str, offset: int = 0, *, sheet: bool = False) -> Doubt | None:
    """Return what is doubtful about the number that starts at an offset, or None.

    Parameters
    ----------
    text : str
    offset : int
    sheet : bool
        Whether the text is copied from a sheet, where "1.350" may mark thousands as "1,350"
        does; a point that is typed as a number marks decimals.
    """
    if power := _POWER.match(text, offset):
        value = float(power[0].replace(",", ".").replace("−", "-"))
        if not 0 < value < LARGEST:
            return Doubt(f"{power[0]} is no number that a sheet prints", (), power.end())
        what = f"{power[0]} is written with a power of ten"
        return Doubt(what, (sheet_text(value),), power.end())
    if apart := _APART.match(text, offset):
        mark = "space" if apart["mark"] == " " else "apostrophe"
        joined = re.sub(r"[ '’]", "", apart[0]).replace(",", ".")
        return Doubt(f"the {mark} in {apart[0]} may mark thousands", (joined,), apart.end())
    found = _DOUBTFUL.match(text, offset)
    if found and (sheet or found[2] == ","):
        mark = "comma" if found[2] == "," else "point"
        what = f"the {mark} in {found[0]} may mark thousands or decimals"
        readings = tuple(settled(found[0], thousands=thousands) for thousands in (True, False))
        return Doubt(what, readings, found.end())
    return None


def settled(text: str, *, thousands: bool) -> str:
    """Return a text with every mark that may be of thousands or decimals read as one of them."""
    if thousands:
        return _DOUBTFUL.sub(r"\1\3", text)
    return _DOUBTFUL.sub(lambda found: sheet_text(float(f"{found[1]}.{found[3]}")), text)


def number_at(text: str, offset: int = 0, *, sheet: bool = False) -> Number | None:
    """Return the number that starts at an offset, or None where none does.

    Decimal point and decimal comma are taken, groups of thousands where they cannot be
    decimals ("1,350.5"), and fractions ("1 1/4", "½"); the value stays below ``LARGEST``.
    ``sheet`` is as in ``doubt_at``.

    Raises
    ------
    NotUnderstood
        If there is a doubt about the number, or the digits are none.
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
    if doubt := doubt_at(text, offset, sheet=sheet):
        raise NotUnderstood(text, doubt.what, doubt.readings, offset)
    value, decimals = _plain_number(text, digits[0], offset)
    return Number(value, digits.end(), decimals, slashed=False)


def _plain_number(text: str, digits: str, offset: int) -> tuple[float, int]:
    """Return the value of digits with marks between them, and its count of decimals."""
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
    if value < 0:
        return f"-{number_text(-value)}"
    text = repr(float(value)).removesuffix(".0")
    if "e-" not in text:
        return f"{value:.0f}" if "e" in text else text
    digits, _, power = text.partition("e-")
    return "0." + "0" * (int(power) - 1) + digits.replace(".", "")


def limits_text(low: float | None, high: float | None) -> str:
    """Return the limits of a reading in words, without their unit; one of them may be missing.

    Examples
    --------
    >>> limits_text(None, 0.1), limits_text(-0.5, 0.5), limits_text(23.0, None)
    ('at most 0.1', '-0.5 to 0.5', 'at least 23')
    """
    if low is None:
        return f"at most {number_text(high or 0.0)}"
    if high is None:
        return f"at least {number_text(low)}"
    return f"{number_text(low)} to {number_text(high)}"


def sheet_text(value: float) -> str:
    """Return the shortest plain decimal that nobody takes for thousands: 1.3560 for 1.356."""
    text = number_text(value)
    return f"{text}0" if _DOUBTFUL.fullmatch(text) else text


def fraction_text(value: float) -> str:
    """Return a number as a whole and a fraction ("1 1/4") where it is one, else as a decimal."""
    whole = int(value)
    for bottom in _WRITTEN if value < _LARGEST_MIXED else ():
        top = round((value - whole) * bottom)
        if 0 < top < bottom and (whole * bottom + top) / bottom == value:
            return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    return sheet_text(value)
