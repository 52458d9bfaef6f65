"""Make the bank: lists and fasteners with what the rules and the reuse rulebook say of them.

Run ``python -m torquebook.quiz.build`` after every change of a rule, of a record, or of what is
asked of them; a test compares. Both need the models, which take longer than all questions of a
class may; so what they say is written down, as the index of the catalogue is.
"""

from __future__ import annotations

import csv
import json
import re
import sys
from functools import cache
from io import BytesIO, StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.findings import Severity
from torquebook.plans.reading import read_plan
from torquebook.quiz.bank import BANK, LISTS, REUSE
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import ANGLES_FROM, CLASSES, COUNTRIES, units_of
from torquebook.quiz.listed import KINDS, right_rows
from torquebook.quiz.model import LEVELS
from torquebook.quiz.stock import founded, sizes
from torquebook.quiz.takenout import outs
from torquebook.quiz.verdicts import verdict_on
from torquebook.rules.judge import judge
from torquebook.rules.registry import RULES
from torquebook.unitnames import FACTORS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.quiz.listed import Kind, Row
    from torquebook.rules.judge import LineAnswer

MADE_BY: Final = "made from specs/, listed.py and takenout.py by: python -m torquebook.quiz.build"
_EACH: Final = 4  # lists of one kind, level and unit
_TRIES: Final = 16
_SHOWN: Final = ("thread", "class", "tighten", "friction", "count", "order")
_MORE: Final = ("nut", "into", "engagement")


def lines() -> Iterator[str]:
    """Yield the bank's lines: what made it, then a list or a fastener a line."""
    yield json.dumps({"//": MADE_BY})
    book, library = Book.open(), Library()
    found = [
        *(one for level in LEVELS for unit in COUNTRIES for one in _lists(book, level, unit)),
        *_reuse(book, library),
    ]
    for entry in found:
        yield json.dumps(entry, ensure_ascii=False, separators=(",", ":"))


def _lists(book: Book, level: int, unit: str) -> Iterator[list[Any]]:
    for kind in KINDS:
        draw = Draw(f"bank|{level}|{unit}|{kind.name}")
        found = (
            _list(draw, book, level, unit, kind)
            for _ in range(_TRIES if kind.level <= level else 0)
        )
        made = [one for one in found if one][:_EACH]
        for one in made:
            yield [LISTS, level, unit, *one]


def _list(draw: Draw, book: Book, level: int, unit: str, kind: Kind) -> list[Any] | None:
    """Return a list with one mistake, or None where the rules do not find exactly that line."""
    rows = right_rows(draw, book, level, unit)
    at = draw.below(len(rows))
    plain, rows[at] = dict(rows[at]), kind.make(rows[at], unit)
    if rows[at] == plain:
        return None
    rows = [row if row is rows[at] else kind.beside(row) for row in rows]
    answers = judge(read_plan("-", stdin=BytesIO(_csv(rows))), book).answers
    wrong = [answer for answer in answers if _serious(answer)]
    if len(wrong) != 1 or wrong[0] is not answers[at]:
        return None
    first = _serious(wrong[0])[0]
    if first.rule not in kind.rules:
        return None
    source = kind.source or RULES[first.rule].source or first.source
    steps = [
        _unit_marks(first.message),
        *([f"Instead: {_unit_marks(first.instead)}"] if first.instead else []),
    ]
    if not founded(source) or not _within(level, unit, *steps, rows[at]["class"]):
        return None
    columns = [name for name in (*_SHOWN, *_MORE) if name in _SHOWN or _says(rows, name)]
    cells = [[row.get(name, "") for name in columns] for row in rows]
    shares = [round(100 * one.utilisation.nominal) if one.utilisation else None for one in answers]
    return [columns, cells, at, kind.said, first.rule, steps, source, shares]


def _unit_marks(text: str) -> str:
    """Return a message with its units as sheets print them, not as a plan takes them."""
    return re.sub(r"\b(N|lbf|kgf)\.(?=(?:m|ft|in|cm)\b)", r"\1·", text)


def _serious(answer: LineAnswer) -> list[Any]:
    return [one for one in answer.findings if one.severity in {Severity.STOP, Severity.ASK}]


def _says(rows: list[Row], name: str) -> bool:
    """Return whether a column says anything."""
    return any(row.get(name) for row in rows)


def _csv(rows: list[Row]) -> bytes:
    names = list(dict.fromkeys(name for row in rows for name in row))
    out = StringIO()
    writer = csv.DictWriter(out, names, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue().encode()


_CLASS: Final = re.compile(
    r"\b(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9|SAE \d|A[124]-\d0)\b"
)


def _within(level: int, unit: str, *texts: str) -> bool:
    """Return whether texts keep to the units, classes, threads and angles of a level.

    A text that counts lines counts a file's, and its header is one.
    """
    whole = " ".join(texts).replace("·", ".")
    if _LINE.search(whole) or any(size not in _names(level) for size in _SIZE.findall(whole)):
        return False
    if level < ANGLES_FROM and re.search(r"°|\bangle", whole):
        return False
    known = units_of(level, unit)
    named = [name for name, (kind, _) in FACTORS.items() if kind == "torque" and "." in name]
    foreign = [name for name in named if name not in known]
    if any(re.search(rf"(?<![A-Za-z]){re.escape(name)}\b", whole) for name in foreign):
        return False
    return all(found in CLASSES[level] for found in _CLASS.findall(whole))


_LINE: Final = re.compile(r"\blines? \d")
_SIZE: Final = re.compile(r"\bM\d+(?:x[\d.]*\d)?")


@cache
def _names(level: int) -> frozenset[str]:
    return frozenset(size.name for size in sizes(Book.open(), level))


def _reuse(book: Book, library: Library) -> Iterator[list[Any]]:
    for out in outs():
        if entry := verdict_on(book, library, out):
            said, _, steps, *_, asks = entry
            if not _within(out.level, out.unit or COUNTRIES[0], said, *steps, *asks):
                raise SystemExit(f"{said}: not within level {out.level}: {steps}")
            yield [REUSE, out.level, out.unit, *entry]


def build() -> int:
    """Write the bank; return the exit code."""
    Path(BANK).write_text("\n".join(lines()) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(build())
