"""A quantity in other units."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from torquebook import units
from torquebook.errors import NotUnderstood
from torquebook.unitnames import USUAL

if TYPE_CHECKING:
    from collections.abc import Sequence


class Conversion(NamedTuple):
    """A quantity as it was given, and the same in other units."""

    given: units.Quantity
    results: tuple[units.Quantity, ...]


def conversion(words: Sequence[str]) -> Conversion:
    """Return what a command line asks to convert.

    Parameters
    ----------
    words : sequence of str
        A quantity, and a unit; without one, every usual unit of the quantity's kind.

    Returns
    -------
    Conversion

    Raises
    ------
    NotUnderstood
        If the quantity or the unit cannot be read, or the quantity was not put in quotes.
    """
    quantity, *more = words
    if more and _splits(words):
        raise _unquoted(words)
    given = units.read(quantity)
    if more:
        return Conversion(given, (units.convert(given, more[0]),))
    others = (units.convert(given, unit) for unit in USUAL[given.kind] if unit != given.unit)
    return Conversion(given, tuple(others))


def _splits(words: Sequence[str]) -> bool:
    """Return whether a quantity and its unit stand in two words."""
    if len(words) > 2:  # noqa: PLR2004 - a quantity and a unit are two
        return True
    return words[0].strip()[-1:].isdigit()


def _unquoted(words: Sequence[str]) -> NotUnderstood:
    typed = " ".join(words)
    readings: tuple[str, ...] = (f'"{" ".join(words[:-1])}" {words[-1]}',)
    if len(words) == 2:  # noqa: PLR2004 - as above
        readings = (f'"{typed}"', f'"{words[0]} lbf.ft" {words[1]}')
    return NotUnderstood(typed, "the quantity and its unit belong in quotes", readings)
