"""From the text of a line's cells to its values; what cannot be read becomes a problem."""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import TYPE_CHECKING, Final, TypeVar

from torquebook import notation, units
from torquebook.bands import Band
from torquebook.errors import NotUnderstood
from torquebook.patterns.reading import passes_of
from torquebook.plans import dates
from torquebook.plans.model import PlanLine, Problem

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from torquebook.findings import Place
    from torquebook.plans.model import Cell

Value = TypeVar("Value")
Order = tuple[tuple[int, ...], ...] | str

#: Columns that hold names and remarks: any text will do.
FREE: Final = frozenset({"joint", "wrench", "source", "spec", "note"})
#: Headers of a column that holds what belongs into ``tighten``.
UNIT_COLUMNS: Final = frozenset({"unit", "units"})

_COUNT: Final = re.compile(r"[x×]?\s?([0-9]{1,6})\s?(?:off|x|×|pcs?\.?)?", re.IGNORECASE)
_BARE: Final = re.compile(r"[-−+]?[0-9]+(?:[.,][0-9]+)?|[-−+]?[.,][0-9]+")
_NUMBER: Final = re.compile(r"[0-9.,/½¼¾⅛⅜⅝⅞][0-9.,/\s½¼¾⅛⅜⅝⅞]*")
_RANGE: Final = re.compile(r"(?<=[^\s–—…-])\s*(?:[–—…-]|\.{2,3}|\bto\b)\s*(?=[^\s–—…-])")
_PASS: Final = re.compile(r"[0-9]{1,4}(?:(?:\s*[-–,>]\s*|\s+)[0-9]{1,4})*")
_SHEET_ERROR: Final = re.compile(r"#(?:DIV/0!|N/A|NAME\?|NULL!|NUM!|REF!|VALUE!|#+)")
_DITTO: Final = frozenset({'"', "”", "″", "''", '-"-', "do.", "dito", "ditto"})
_LONGEST: Final = 2000
#: Lists repeat themselves: of so many different texts, each is read once.
_REMEMBERED: Final = 4096
_read_notation: Final = lru_cache(_REMEMBERED)(notation.read)


def plan_line(
    place: Place,
    cells: Mapping[str, Cell],
    extra: Mapping[str, Cell],
    problems: Sequence[Problem] = (),
) -> PlanLine:
    """Return a plan's line, with every value that its cells give.

    Parameters
    ----------
    place : Place
        The row.
    cells, extra : mapping of str to Cell
        The known and the unknown columns that are not empty.
    problems : sequence of Problem
        What the reader of the format has found already; these cells are not read again.

    Returns
    -------
    PlanLine
        A value is empty or None where its cell is empty or could not be read; the reason
        is then one of the line's problems.
    """
    found = list(problems)
    flawed = {problem.column for problem in problems}
    for column, cell in cells.items():
        slip = None if column in flawed else _slip(column, cell.text)
        if slip:
            found.append(Problem(column, cell.place, cell.text, *slip))
            flawed.add(column)

    def value(column: str, read: Callable[[str], Value]) -> Value | None:
        cell = cells.get(column)
        if cell is None or column in flawed:
            return None
        try:
            return read(cell.text)
        except NotUnderstood as fault:
            found.append(Problem(column, cell.place, cell.text, fault.what, fault.readings))
            return None

    if "tighten" not in cells and "tighten" not in flawed:
        found.append(Problem("tighten", place, "", "nothing says how to tighten this"))
    stages = value("tighten", lambda text: _stages(text, extra)) or ()
    count = value("count", _count)
    engagement = value("engagement", _lengths)
    clamp_length = value("clamp_length", _lengths)
    hole_depth = value("hole_depth", _length)
    length = value("length", _length)
    order = value("order", _order)
    found.sort(key=lambda problem: problem.place)
    return PlanLine(
        number=place.line,
        place=place,
        cells=cells,
        extra=extra,
        stages=stages,
        count=count,
        engagement_mm=engagement,
        clamp_length_mm=clamp_length,
        hole_depth_mm=hole_depth,
        length_mm=length,
        order=order,
        problems=tuple(found),
    )


@lru_cache(_REMEMBERED)
def _slip(column: str, text: str) -> tuple[str, tuple[str, ...]] | None:
    """Return what is wrong with a text in whatever column it stands, and what would be right."""
    what = ""
    if text.startswith("="):
        what = "a formula stands here; paste its value in its place"
    elif _SHEET_ERROR.fullmatch(text):
        what = "a spreadsheet's error stands here; mend it in the sheet"
    elif column in FREE:
        return None
    elif text.casefold() in _DITTO:
        what = "a ditto mark is not read; repeat the value of the line above"
    elif len(text) > _LONGEST:
        what = f"{len(text)} characters are too many for one value"
    elif not _is_finite(text):
        what = "this is no finite number; leave the cell empty if the value is not known"
    return (what, ()) if what else dates.date_in(column, text)


def _is_finite(text: str) -> bool:
    """Return False for NaN, infinity, and a number too large to be held."""
    try:
        return math.isfinite(float(text))
    except ValueError:
        return True


def _stages(text: str, extra: Mapping[str, Cell]) -> tuple[notation.Stage, ...]:
    """Read the shorthand; where a column of its own holds the unit, say that it belongs here."""
    try:
        return _read_notation(text)
    except NotUnderstood as fault:
        unit = next((c.text for name, c in extra.items() if name.casefold() in UNIT_COLUMNS), "")
        if not unit:
            raise
        joined = f"{text} {unit}"
        try:
            _read_notation(joined)
        except NotUnderstood:
            raise fault from None
        what = f"{fault.what}; the unit belongs in the tighten cell"
        others = tuple(reading for reading in fault.readings if reading != joined)
        raise NotUnderstood(text, what, (joined, *others), fault.offset) from None


@lru_cache(_REMEMBERED)
def _count(text: str) -> int:
    """Read a count: ``4``, ``x4`` or ``4 off``."""
    match = _COUNT.fullmatch(text)
    if not match or not int(match[1]):
        raise NotUnderstood(text, "a count is a whole number from 1 up")
    return int(match[1])


@lru_cache(_REMEMBERED)
def _length(text: str) -> float:
    """Read one length, in mm unless it carries a unit."""
    if _RANGE.search(text) and not _readable_length(text):
        raise NotUnderstood(text, "one length stands here, not a range")
    return _one_length(text, text)


@lru_cache(_REMEMBERED)
def _lengths(text: str) -> Band:
    """Read a length or a range of lengths, in mm unless they carry a unit."""
    parts = _RANGE.split(text)
    if len(parts) != 2 or _readable_length(text):  # noqa: PLR2004 -- the two ends of a range
        return Band.exact(_one_length(text, text))
    first, last = parts
    unit = _NUMBER.sub("", last, count=1)
    if unit and _NUMBER.fullmatch(first):
        first = f"{first} {unit}"
    low, high = _one_length(first, text), _one_length(last, text)
    if low > high:
        turned = f"{last.removesuffix(unit).strip()}-{parts[0]} {unit}".strip()
        raise NotUnderstood(text, "a range goes from low to high", (turned,))
    return Band.between(low, high)


def _one_length(part: str, text: str) -> float:
    """Return the mm of one length, a part of a cell's text."""
    with_unit = f"{part} mm" if _BARE.fullmatch(part) else part
    try:
        length_mm = units.read(with_unit, kind="length").si
    except NotUnderstood as fault:
        raise NotUnderstood(text, fault.what, fault.readings) from fault
    if length_mm <= 0:
        raise NotUnderstood(text, "a length is more than 0")
    return length_mm


def _readable_length(text: str) -> bool:
    """Return whether a text is one length with a unit: the hyphen of ``1-1/4 in`` is no range."""
    try:
        units.read(text, kind="length")
    except NotUnderstood:
        return False
    return True


@lru_cache(_REMEMBERED)
def _order(text: str) -> Order:
    """Read positions, ``1-3-2-4 / 1-2-3-4`` for two passes; names of patterns stay text."""
    if not text[0].isdecimal():
        return text
    parts = passes_of(text)
    if any(part[:1].isalpha() for part in parts):
        return text
    if not all(_PASS.fullmatch(part) for part in parts):
        raise NotUnderstood(text, "an order is positions or a pattern's name", ("1-3-2-4",))
    passes = tuple(tuple(int(p) for p in re.findall(r"[0-9]+", part)) for part in parts)
    if len(passes) > 1 and all(len(positions) == 1 for positions in passes):
        one = "-".join(parts)
        raise NotUnderstood(text, "a slash parts passes, a hyphen parts positions", (one,))
    return passes
