"""Delimited text: any separator that spreadsheets write, every cell with its line and column."""

from __future__ import annotations

import re
from itertools import chain, islice
from typing import TYPE_CHECKING, Final

from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.plans.model import COLUMNS, Cell
from torquebook.plans.table import SEARCH, Flaw, Row, column_name, letters

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

#: In the order in which a tie between them is settled.
SEPARATORS: Final = (";", "\t", "|", ",")
#: As many columns as a spreadsheet has.
MOST_CELLS: Final = 16_384
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
    rest = iter(lines)
    top = list(islice(rest, SEARCH + 1))
    told = _SEP_LINE.fullmatch(top[0]) if top else None
    scanner = _Scanner(chain(top, rest), name, told[1] if told else separator_of(top))
    if told:
        scanner.next_line()
    row = 0
    while scanner.next_line():
        row += 1
        yield scanner.row(row)


def separator_of(lines: Sequence[str]) -> str:
    """Return the separator of a table.

    Parameters
    ----------
    lines : sequence of str
        The table's first lines.

    Returns
    -------
    str
        The one of ``SEPARATORS`` that parts the header into most known columns; a line feed,
        at which no line parts, if the header holds none of them. The header is the first of
        the lines to name ``tighten``, or else the first that is not empty.
    """
    filled = [line.rstrip("\n") for line in lines if line.strip()] or [""]
    return next(
        (separator for line in filled for separator, named in [_parted(line)] if named),
        _parted(filled[0])[0],
    )


def _parted(header: str) -> tuple[str, bool]:
    """Return the separator that suits a header best, and whether ``tighten`` is then named."""
    plain = _QUOTED.sub(lambda quoted: re.sub(r"[;\t|,]", " ", quoted[0]), header)

    def names(separator: str) -> list[str]:
        return [column_name(part.strip(' "')) for part in plain.split(separator)]

    def weight(separator: str) -> tuple[int, int]:
        found = names(separator)
        return sum(name in COLUMNS for name in found), len(found)

    best = max((s for s in SEPARATORS if s in plain), key=weight, default="\n")
    return best, "tighten" in names(best)


class _Scanner:
    """Part lines into cells; a quoted cell may take in further lines."""

    def __init__(self, lines: Iterator[str], name: str, separator: str) -> None:
        self.lines = lines
        self.name = name
        self.separator = separator
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
            if len(cells) > MOST_CELLS:
                what = f"more than {MOST_CELLS} cells in one row"
                raise Unreadable(f"{self.name}:{number}", what, "a plan has a column a fact")
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
