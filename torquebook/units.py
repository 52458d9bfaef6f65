"""Units: quantities read from text, converted by exact factors, written for a person.

Every usual spelling is taken, and what may mean two things ("60 lb", "1,350 N.m") is
asked back with its readings. Other modules take all they need of units from here.
"""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Final, NamedTuple

from torquebook.errors import NotUnderstood, TorquebookError
from torquebook.numerals import Number, doubt_at, number_at, number_text
from torquebook.unitnames import (
    FACTORS,
    LONG_LENGTHS,
    USUAL,
    Kind,
    refuse_long,
    unit_at,
    unit_named,
)

__all__ = [
    "FACTORS",
    "PAIR_TOLERANCE",
    "Kind",
    "Quantity",
    "convert",
    "pair_deviation",
    "read",
    "unit_named",
    "with_unit",
    "write",
]

_MORE: Final = re.compile(
    r"(?:(?P<half>±|\+ ?/? ?[-−–]?)|[-‐‑‒–—−]|to(?!\w)|\.{2,3}|…|[/⁄,;&]|(?=\d)) ?(?=\d)",
    re.IGNORECASE,
)
"""What stands between the first number and a second one."""
PAIR_TOLERANCE: Final = 0.03
"""Share of the value from which a torque printed in two units disagrees with itself.

Common practice: shop factors (1.4 for 1.3558, 0.1 for 0.10197) go up to 3.3 % and 2 %."""


class Quantity(NamedTuple):
    """A value and the plain name of its unit, a key of ``FACTORS``."""

    value: float
    unit: str

    @property
    def kind(self) -> Kind:
        """What the unit measures."""
        return FACTORS[self.unit][0]

    @property
    def si(self) -> float:
        """The value in N·m, N, mm or degrees, by kind."""
        return self.value * FACTORS[self.unit][1]


def read(text: str, kind: Kind | None = None) -> Quantity:
    """Return the quantity that a text gives: one number and its unit.

    Parameters
    ----------
    text : str
        "59 lbf.ft", "5,5 kgm", "1 1/4 turns"; at most 200 characters.
    kind : str, optional
        What it has to measure. A length may be in metres or feet; it comes out in mm or inches.

    Raises
    ------
    NotUnderstood
        If there is no number, no unit, more than one way to read either, or anything more.

    Examples
    --------
    >>> read("5,5 mkp")
    Quantity(value=5.5, unit='kgf.m')
    """
    refuse_long(text)
    start = len(text) - len(text.lstrip().removeprefix("+").lstrip())
    if text[start : start + 1] in {"-", "−", "–"}:
        raise NotUnderstood(text, "a value below zero", offset=start)
    try:
        number = number_at(text, start)
    except NotUnderstood as trouble:
        doubt = doubt_at(text, start)
        unit = text[doubt.end :].strip() if doubt else ""
        readings = tuple(f"{reading} {unit}".strip() for reading in trouble.readings)
        raise NotUnderstood(text, trouble.what, readings, start) from None
    if number is None:
        raise NotUnderstood(text, "no number at the start", offset=start)
    long = LONG_LENGTHS.get(text[number.end :].strip().lower()) if kind == "length" else None
    if long:
        return Quantity(round(number.value * long[1], 9), long[0])
    return Quantity(number.value, _unit_behind(text, number, kind))


def _unit_behind(text: str, number: Number, kind: Kind | None) -> str:
    """Return the unit that makes up the rest of a text behind its number."""
    spelling = text[number.end :].strip()
    at = len(text) - len(text[number.end :].lstrip())
    shown = number_text(number.value)
    if not spelling:
        readings = tuple(f"{shown} {unit}" for unit in USUAL[kind or "torque"])
        raise NotUnderstood(text, "no unit", readings, len(text))
    if more := _MORE.match(text, at):
        readings = _each_alone(text, number, more, kind)
        raise NotUnderstood(text, "one number is wanted, with its unit", readings, at)
    try:
        found = unit_at(text, at, kind)
        behind = text[found[1] :].strip() if found else ""
        if found is None or (behind and behind[0].isalpha()):
            return unit_named(spelling, kind)
    except NotUnderstood as trouble:
        readings = tuple(f"{shown} {unit}" for unit in trouble.readings)
        raise NotUnderstood(text, trouble.what, readings, at) from None
    if behind:
        what = f'one number is wanted, with its unit, not "{behind}" behind it'
        raise NotUnderstood(text, what, (f"{shown} {found[0]}",), found[1])
    return found[0]


def _each_alone(
    text: str, number: Number, more: re.Match[str], kind: Kind | None
) -> tuple[str, ...]:
    """Return the two numbers of a range with their unit, or the one before a tolerance."""
    with suppress(NotUnderstood):
        last = number_at(text, more.end())
        at = last.end if last else more.end()
        found = unit_at(text, at + len(text[at:]) - len(text[at:].lstrip()), kind)
        if last and found and found[1] == len(text.rstrip()):
            values = [number.value] if more["half"] else [number.value, last.value]
            return tuple(f"{number_text(value)} {found[0]}" for value in values)
    return ()


def convert(quantity: Quantity, unit: str) -> Quantity:
    """Return the same quantity in another unit, however that is spelled.

    Parameters
    ----------
    quantity : Quantity
    unit : str
        Any spelling of a unit of the same kind.

    Raises
    ------
    NotUnderstood
        If the unit is unknown, doubtful, or measures something else.

    Examples
    --------
    >>> convert(Quantity(100, "lbf.ft"), "Nm").value
    135.58179483
    """
    name = unit_named(unit, quantity.kind)
    if name == quantity.unit:
        return quantity
    return Quantity(quantity.si / FACTORS[name][1], name)


def write(quantity: Quantity, *, plain: bool = False) -> str:
    """Return a quantity for a person.

    Values of up to six significant figures stand as they are; longer ones, which come from
    a conversion, are rounded to four figures, but never before the decimal point.

    Parameters
    ----------
    quantity : Quantity
    plain : bool
        Whether to keep to ASCII.

    Examples
    --------
    >>> write(convert(Quantity(59, "lbf.ft"), "N.m"), plain=True)
    '79.99 N.m'
    """
    shown = number_text(quantity.value)
    if len(shown.replace(".", "").lstrip("0")) > 6:  # noqa: PLR2004 - as the docstring says
        places = max(0, 3 - _magnitude(quantity.value))
        shown = f"{quantity.value:.{places}f}"
        shown = shown.rstrip("0").rstrip(".") if "." in shown else shown
    return with_unit(shown, quantity.unit, plain=plain, many=quantity.value > 1)


def _magnitude(value: float) -> int:
    """Return the power of ten of a value's first figure."""
    return int(f"{value:e}".partition("e")[2])


def with_unit(shown: str, unit: str, *, plain: bool = False, many: bool = False) -> str:
    """Return a printed number with its unit: ``59 lbf·ft``, ``90°``, ``2 flats``."""
    if unit == "deg":
        return f"{shown} deg" if plain else f"{shown}°"
    if unit in {"turn", "flat"}:
        return f"{shown} {unit}{'s' if many else ''}"
    return f"{shown} {unit if plain else unit.replace('.', '·')}"


def pair_deviation(
    first: tuple[float, ...],
    first_unit: str,
    second: tuple[float, ...],
    second_unit: str,
    *,
    decimals: tuple[int, int] | None = None,
) -> float:
    """Return by how much a torque that is printed in two units disagrees with itself.

    Parameters
    ----------
    first, second : tuple of float
        The values as printed, one each or the two ends of a range; a tolerance is left out,
        since its half is rounded too coarsely to compare.
    first_unit, second_unit : str
        Plain unit names.
    decimals : tuple of int, optional
        Decimals printed in the first and the second; else as many as the values need.

    Returns
    -------
    float
        The worst deviation as a share of the first value; 0.0 where the rounding of the
        printed digits explains it. Above ``PAIR_TOLERANCE`` the pair disagrees.

    Raises
    ------
    TorquebookError
        If one is a single value and the other a range.
    """
    if len(first) != len(second):
        raise TorquebookError(f"{len(first)} and {len(second)} values make no pair")
    places = decimals or (max(map(_decimals, first)), max(map(_decimals, second)))
    one, other = FACTORS[first_unit][1], FACTORS[second_unit][1]
    give = one * 10.0 ** -places[0] / 2 + other * 10.0 ** -places[1] / 2
    worst = 0.0
    for a, b in zip(first, second, strict=True):
        apart = abs(b * other - a * one)
        if apart > give * (1 + 1e-9):
            worst = max(worst, apart / (a * one) if a else float("inf"))
    return worst


def _decimals(value: float) -> int:
    """Return how many decimals a value needs."""
    return len(number_text(value).partition(".")[2])
