"""Asking back: what to say where a value or a word is not understood, and its readings."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, NoReturn

from torquebook.numerals import doubt_at, settled, sheet_text
from torquebook.unitnames import unit_at, unknown_at
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from torquebook.errors import NotUnderstood
    from torquebook.notation.cursor import Cursor, Value

CONDITION: Final = re.compile(
    r"(?:dry|wet|clean|(?:un)?oil(?:ed)?|(?:un)?greas(?:ed?|y)|(?:un)?lub(?:ed?|ricat\w+)|waxed"
    r"|moly\w*|mos2|graphite\w*|zinc|plated|phosphat\w+|cadmium|galvani[sz]ed|anti-?seize)(?!\w)",
    re.IGNORECASE,
)
"""Words that tell of friction; ``friction`` is where they are understood."""
BY_HAND: Final = re.compile(
    r"(?:hand|finger)[ -]?tight\w*|snug\w*(?:[ -]tight\w*)?|by hand(?!\w)", re.IGNORECASE
)
_NEXT: Final = re.compile(
    r"(?:then|and|plus|to|slack|loos|back|undo|release|wait|pause|stage|step|pass|max|min)",
    re.IGNORECASE,
)
_CHAIN: Final = re.compile(
    r"\d+(?:[.,]\d+)?(?:\s*(?:[,;/+&]|[-‐‑‒–—−]|then|and)\s*\+?\s*\d+(?:[.,]\d+)?)+",
    re.IGNORECASE,
)
_COMMAS: Final = re.compile(r"(\d+(?:,\d+){2,})\s*")
_TWO: Final = re.compile(r"(\d{2,3}) (\d{3})\s*(?!\d)")
_FRACTION: Final = re.compile(r"(?:\d+[ -])?\d+[/⁄]\d+")
_ONE: Final = re.compile(r"\d+(?:[.,]\d+)?")
_BELOW_ZERO: Final = re.compile(r"[-‐‑‒–—−]\s*[\d.,]")
_LONGEST_QUOTE: Final = 40


def about_number(cursor: Cursor, trouble: NotUnderstood) -> NoReturn:
    """Raise what is doubtful about the number that stands here, with the whole text mended."""
    doubt = doubt_at(cursor.text, cursor.at, sheet=True)
    if doubt is None:
        cursor.fail(trouble.what, _listed(cursor, _COMMAS))
    before, behind = cursor.text[: cursor.at], cursor.text[doubt.end :]
    behinds = (settled(behind, thousands=True), settled(behind, thousands=False))
    if len(doubt.readings) == 1:
        behinds = (behind, behind)
    readings = [f"{before}{one}{rest}" for one, rest in zip(doubt.readings, behinds, strict=False)]
    cursor.fail(doubt.what, (*_listed(cursor, _TWO), *readings))


def about_unit(cursor: Cursor, start: int, guesses: tuple[str, ...]) -> NoReturn:
    """Raise that a value has no unit, or none that is known, with the units that it may have."""
    shown = cursor.text[start : cursor.at].strip()
    if chain := _CHAIN.match(cursor.text, start):
        place, cursor.at = cursor.at, chain.end()
        if unit := cursor.unit(start):
            numbers = _ONE.findall(chain[0])
            cursor.fail("a unit for several stages", _spelled_out(numbers, unit), start)
        cursor.at = place
    if _FRACTION.fullmatch(shown):
        guesses = ("+{} turn",)
    readings = tuple(guess.format(shown) for guess in guesses)
    found = unknown_at(cursor.text, _behind_space(cursor))
    if found is None or _NEXT.match(found[0]) or CONDITION.match(found[0]):
        cursor.fail(f"{shown} has no unit", readings, start)
    word, near = found
    if near is None or FACTORS[near][0] != "torque":
        cursor.fail(f"{_short(word)} is no unit", readings, start)
    cursor.fail(f"{word} is no unit of torque", (f"{shown} {near}",), start)


def about_fraction(cursor: Cursor, value: Value) -> NoReturn:
    """Raise that "1/2 N.m" may be a fraction, or two values."""
    one, other = re.findall(r"\d+", cursor.text[value.start :])[:2]
    unit = value.unit
    readings = (f"{one} {unit}, {other} {unit}", f"{sheet_text(value.printed[0])} {unit}")
    cursor.fail(f"{one}/{other} may be a fraction or two values", readings, value.start)


def about_words(cursor: Cursor, start: int) -> NoReturn:
    """Raise that the words at an offset are no stage."""
    about_friction(cursor, start)
    if _BELOW_ZERO.match(cursor.text, start):
        cursor.fail("a value below zero")
    if by_hand := BY_HAND.match(cursor.text, start):
        cursor.fail(f"{by_hand[0]} gives no torque or angle; write the sheet's value for it")
    word = cursor.text[start:].split()[:1]
    cursor.fail(f"{word[0][:20]} is no stage" if word else "no stage")


def about_friction(cursor: Cursor, start: int) -> None:
    """Raise where the word at an offset tells of friction."""
    if word := CONDITION.match(cursor.text, start):
        told = word[0].lower()
        cursor.fail(
            f"{told} tells of friction and belongs in that column (friction={told} on one line)"
        )


def about_rest(cursor: Cursor, rest: str) -> NoReturn:
    """Raise that what follows a stage is not understood."""
    cursor.fail(f'"{_short(rest)}" is not understood')


def _short(text: str) -> str:
    """Return the beginning of a text, for quoting."""
    return text if len(text) <= _LONGEST_QUOTE else f"{text[:_LONGEST_QUOTE]}..."


def _behind_space(cursor: Cursor) -> int:
    """Return where the next word begins, behind space or a hyphen."""
    rest = cursor.text[cursor.at :]
    return cursor.at + len(rest) - len(rest.lstrip(" -"))


def _listed(cursor: Cursor, form: re.Pattern[str]) -> tuple[str, ...]:
    """Return the stages that "20,40,60 N.m" or "30 120 N.m" may stand for."""
    if numbers := form.match(cursor.text, cursor.at):
        found = unit_at(cursor.text, numbers.end())
        return _spelled_out(re.findall(r"\d+", numbers[0]), found[0]) if found else ()
    return ()


def _spelled_out(numbers: list[str], unit: str) -> tuple[str, ...]:
    """Return what numbers with one unit at their end may mean as stages."""
    if FACTORS[unit][0] == "torque":
        return (", ".join(f"{number} {unit}" for number in numbers),)
    turns = [f"+{number} {unit}" for number in numbers]
    return (", ".join(turns), ", ".join([f"{numbers[0]} N.m", *turns[1:]]))
