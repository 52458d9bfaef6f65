"""Paper: the lines of one answer, wrapped, aligned and safe to show."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.render.plain import ascii_only, inert, width

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

WIDTH: Final = 80
_GAP: Final = 2
_UNIT: Final = (
    r"(?<=\d) (?=(?:%|°|deg|times|turns?|flats?|k?N|MPa|mm[2²]?|c?m|in|[cd]?N[.·]m|daN[.·]m"
    r"|(?:lbf|kgf|ozf)[.·](?:ft|in|c?m))(?!\w))"
)
_FILLER: Final = "\0"  # inert text holds none
_KEPT: Final = "\N{NO-BREAK SPACE}"


class Paper:
    """Takes the lines of one answer; no line is wider than ``WIDTH``.

    Parameters
    ----------
    plain : bool
        Whether to keep to ASCII.
    bold : bool
        Whether headings may be set in bold, which they never depend on.
    """

    def __init__(self, *, plain: bool = False, bold: bool = False) -> None:
        self.plain = plain
        self.bold = bold
        self.lines: list[str] = []

    def __str__(self) -> str:
        """Return the lines as one text."""
        return "".join(f"{line}\n" for line in self.lines)

    def torn_off(self) -> str:
        """Return the lines so far, and go on with an empty paper."""
        text = str(self)
        self.lines.clear()
        return text

    def said(self, text: str) -> str:
        """Return text as it will stand: inert, and ASCII where that is asked for."""
        text = inert(text)
        return ascii_only(text) if self.plain else text

    def gap(self) -> None:
        """Leave one line empty, unless the last one is."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def heading(self, text: str) -> None:
        """Write a heading, after an empty line."""
        self.gap()
        for line in wrapped(self.said(text), WIDTH):
            self.lines.append(f"\x1b[1m{line}\x1b[22m" if self.bold else line)

    def text(self, text: str, indent: int = 0, hang: int | None = None) -> None:
        """Write a paragraph.

        Parameters
        ----------
        text : str
        indent : int
            Columns left of the first line.
        hang : int, optional
            Columns left of the others; as the first if not given.
        """
        rest = indent if hang is None else hang
        lines = wrapped(self.said(text), WIDTH - max(indent, rest))
        for index, line in enumerate(lines):
            self.lines.append(f"{'':{rest if index else indent}}{line}")

    def columns(
        self, rows: Sequence[Sequence[str]], *, right: Collection[int] = (), indent: int = 2
    ) -> None:
        """Write rows in aligned columns; the last column is wrapped where it is too long.

        Parameters
        ----------
        rows : sequence of sequence of str
            As many cells in each.
        right : collection of int
            The columns that stand flush right, counted from 0.
        indent : int
            Columns left of the first.
        """
        shown = [[self.said(cell) for cell in row] for row in rows]
        widths = [max(width(cell) for cell in column) for column in zip(*shown, strict=True)]
        before = indent + sum(widths[:-1]) + _GAP * (len(widths) - 1)
        for row in shown:
            cells = [
                _padded(cell, widths[index], right=index in right)
                for index, cell in enumerate(row[:-1])
            ]
            last = row[-1]
            if len(row) - 1 in right:
                last = _padded(last, widths[-1], right=True)
            first, *others = wrapped(last, max(WIDTH - before, WIDTH // 4)) if last else [""]
            self.lines.append((" " * indent + (" " * _GAP).join([*cells, first])).rstrip())
            self.lines += [f"{'':{before}}{line}" for line in others]

    def grid(
        self,
        rows: Sequence[Sequence[str]],
        heads: Sequence[str],
        widths: Sequence[int],
        *,
        right: Collection[int] = (),
        indent: int = 2,
    ) -> None:
        """Write a table whose cells are wrapped, each to the width of its column.

        Parameters
        ----------
        rows : sequence of sequence of str
            As many cells in each as there are heads.
        heads : sequence of str
        widths : sequence of int
            The widest that each column may be.
        right : collection of int
            The columns that stand flush right, counted from 0.
        indent : int
            Columns left of the first.
        """
        from tabulate import tabulate  # noqa: PLC0415 - twice as slow to import as click

        shown = [
            [_cell(self.said(text), to) for text, to in zip(row, widths, strict=True)]
            for row in (heads, *rows)
        ]
        aligned = ["right" if index in right else "left" for index in range(len(heads))]
        # Cells are text: tabulate would print the class 8.10 as 8.1.
        table = tabulate(shown, tablefmt="plain", disable_numparse=True, colalign=aligned)
        for line in table.replace(_FILLER, "").splitlines():
            self.lines.append(f"{'':{indent}}{line}".rstrip())


def _cell(text: str, columns: int) -> str:
    """Return a cell in lines of so many columns, in which ``len`` counts a terminal's columns."""
    lines = wrapped(text, columns)
    if not text.isascii():
        lines = ["".join(c + _FILLER * (width(c) - 1) for c in line) for line in lines]
    return "\n".join(lines)


def _padded(text: str, to: int, *, right: bool) -> str:
    space = " " * (to - width(text))
    return space + text if right else text + space


def kept(text: str) -> str:
    """Return text in which no line ends between a number and its unit."""
    import re  # noqa: PLC0415 - short answers need no pattern

    return re.sub(_UNIT, _KEPT, text)


def wrapped(text: str, columns: int) -> list[str]:
    """Return text in lines of so many columns; a number and its unit stay together."""
    if width(text) <= columns:
        return [text]
    lines: list[list[str]] = [[]]
    used = 0
    for word, wide in _words(kept(text), columns):
        used += wide + bool(lines[-1])
        if used > columns:
            lines.append([])
            used = wide
        if word or lines[-1]:
            lines[-1].append(word)
    # Two spaces before a word that begins the next line leave one behind.
    return [" ".join(line).rstrip(" ").replace(_KEPT, " ") for line in lines]


def _words(text: str, columns: int) -> Iterator[tuple[str, int]]:
    """Yield the words of a text, broken only where one is longer than a line, and their widths."""
    for word in text.split(" "):
        wide = width(word)
        if wide <= columns:
            yield word, wide
            continue
        part = ""
        for character in word:
            if width(part + character) > columns:
                yield part, width(part)
                part = ""
            part += character
        yield part, width(part)
