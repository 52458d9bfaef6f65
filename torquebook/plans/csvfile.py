"""Delimited text: any separator that spreadsheets write, every cell with its line and column."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.plans.model import COLUMNS, Cell
from torquebook.plans.table import Flaw, Row, column_name, letters

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

#: In the order in which a tie between them is settled.
SEPARATORS: Final = (";", "\t", "|", ",")
_SEP_LINE: Final = re.compile(r"\"?sep=(.)\"?\s*", re.IGNORECASE)
_OPENING: Final = re.compile(r" *\"")
_QUOTED: Final = re.compile(r'"(?:[^"]|"")*"|"')


def iter_csv(lines: Iterable[str], name: str) -> Iterator[Row]:
    """Yield the rows of delimited text; the separator is the one that the header shows.

    Parameters
    ----------
    lines : iterable of str
        The text's lines, with their ends.
    name : str
        The file's name, as it stands in places.

    Yields
    ------
    Row
        Every row, the empty ones too. A cell's line is the one it starts in; the number in
        its ``cell`` counts rows, as a spreadsheet does.

    Raises
    ------
    Unreadable
        If a quoted cell is not closed.
    """
    scanner = _Scanner(lines, name)
    row = 0
    while scanner.next_line():
        if not scanner.separator and scanner.text.strip():
            told = _SEP_LINE.fullmatch(scanner.text)
            scanner.separator = told[1] if told else separator_of(scanner.text)
            if told:
                continue
        row += 1
        yield scanner.row(row)


def separator_of(header: str) -> str:
    """Return the separator of a header line: the one that parts it into most known columns.

    Parameters
    ----------
    header : str
        The first line that is not empty.

    Returns
    -------
    str
        One of ``SEPARATORS``; a line feed, at which no line parts, if it holds none of them.
    """
    plain = _QUOTED.sub(lambda quoted: re.sub(r"[;\t|,]", " ", quoted[0]), header)

    def weight(separator: str) -> tuple[int, int]:
        names = [column_name(part.strip(' "')) for part in plain.split(separator)]
        return sum(name in COLUMNS for name in names), len(names)

    if not any(separator in plain for separator in SEPARATORS):
        return "\n"
    return max((s for s in SEPARATORS if s in plain), key=weight)


class _Scanner:
    """Part lines into cells; a quoted cell may take in further lines."""

    def __init__(self, lines: Iterable[str], name: str) -> None:
        self.lines = iter(lines)
        self.name = name
        self.separator = ""
        self.text = ""
        self.number = 0

    def next_line(self) -> bool:
        """Take in one more line; False at the end."""
        line = next(self.lines, None)
        if line is None:
            return False
        self.text = line.removesuffix("\n")
        self.number += 1
        return True

    def row(self, row: int) -> Row:
        """Return the row that starts at the current line."""
        cells: list[Cell] = []
        flaws: dict[int, Flaw] = {}
        at = 0
        while at <= len(self.text):
            number = self.number
            start = at
            quoted = _OPENING.match(self.text, at)
            if quoted:
                text, at = self._quoted(quoted.end())
                end = self._end(at)
                rest = self.text[at:end]
                if rest.strip():
                    text += rest
                    what = "text follows the closing quote; double the quotes inside a quoted cell"
                    flaws[len(cells)] = Flaw(what)
            else:
                end = self._end(at)
                text = self.text[at:end]
                start += len(text) - len(text.lstrip())
            place = Place(self.name, number, start + 1, f"{letters(len(cells))}{row}")
            cells.append(Cell(text.strip(), place))
            at = end + 1
        return Row(cells, flaws)

    def _end(self, at: int) -> int:
        """Return where the cell ends that goes on at ``at``."""
        end = self.text.find(self.separator, at)
        return len(self.text) if end < 0 else end

    def _quoted(self, at: int) -> tuple[str, int]:
        """Return a quoted cell's text and where it ends; ``at`` is behind its opening quote."""
        opening = f"{self.name}:{self.number}:{at}"
        parts: list[str] = []
        while True:
            close = self.text.find('"', at)
            if close < 0:
                parts.extend((self.text[at:], "\n"))
                if not self.next_line():
                    right = 'close it; a quote inside a quoted cell is doubled (3/8"")'
                    raise Unreadable(opening, "a quoted cell is never closed", right)
                at = 0
            elif self.text.startswith('""', close):
                parts.append(self.text[at : close + 1])
                at = close + 2
            else:
                parts.append(self.text[at:close])
                return "".join(parts), close + 1
