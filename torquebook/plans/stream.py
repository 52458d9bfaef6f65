"""A CSV plan line by line: as long as it likes, in the memory of a few lines."""

from __future__ import annotations

import codecs
import sys
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, BinaryIO

from torquebook.errors import Unreadable
from torquebook.plans import csvfile, intake, table
from torquebook.plans.reading import kind_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.plans.model import PlanLine

_BLOCK = 1 << 16
_LONGEST_LINE = 1 << 20


@dataclass
class PlanStream:
    """A plan that is read while it is gone through.

    Parameters
    ----------
    name : str
        The file's name as given, or what stands for it.
    lines : iterator of PlanLine
        Can be gone through once; raises ``Unreadable`` where the text ends to be a plan.
    unknown_columns : tuple of str
        Headers that are none of ``COLUMNS``, as typed.
    """

    name: str
    lines: Iterator[PlanLine]
    unknown_columns: tuple[str, ...] = field(default=())


def stream_plan(source: str | Path, *, stdin: BinaryIO | None = None) -> PlanStream:
    """Open a CSV plan to be read line by line.

    Parameters
    ----------
    source : str or Path
        A CSV file in UTF-8, or ``-`` for standard input.
    stdin : BinaryIO, optional
        What to read for ``-``; the process's standard input if not given.

    Returns
    -------
    PlanStream

    Raises
    ------
    Unreadable
        If it cannot be opened, is no CSV, or its header is none.
    """
    name = intake.STDIN_NAME if str(source) == "-" else str(source)
    file = (stdin or sys.stdin.buffer) if str(source) == "-" else intake.open_file(source)
    start = file.read(_BLOCK)
    try:
        _refuse_all_but_csv(start, source, name)
    except Unreadable:
        file.close()
        raise
    rows = csvfile.iter_csv(_text_lines(start, file, name), name)
    header = table.read_header(rows, name)
    return PlanStream(name, table.iter_lines(rows, header), header.unknown)


def _refuse_all_but_csv(start: bytes, source: str | Path, name: str) -> None:
    """Raise ``Unreadable`` if a plan's first block is of another format."""
    intake.refuse_marked(start, name)
    kind = kind_of(start, source)
    if kind != "csv":
        what = f"this is {kind.upper()}, and --json-lines reads CSV only"
        right = "save it as CSV, or write --json in place of --json-lines"
        raise Unreadable(name, what, right)


def _text_lines(block: bytes, file: BinaryIO, name: str) -> Iterator[str]:
    """Yield the lines of a first block and the rest of its file; close the file at its end.

    Each line is ended by a line feed.
    """
    decoder = codecs.getincrementaldecoder("utf-8-sig")()
    rest, number = "", 0
    with file:
        while True:
            try:
                rest += decoder.decode(block, final=not block)
            except UnicodeDecodeError as fault:
                right = "save it as UTF-8; only a plan read as a whole may be in another code"
                raise Unreadable(f"{name}:{number + 1}", "this is no UTF-8", right) from fault
            *lines, rest = rest.replace("\r\n", "\n").split("\n")
            if not block and rest:
                lines.append(rest)
            for line in lines:
                number += 1
                _check(line, name, number)
                yield f"{line}\n"
            if not block:
                return
            if len(rest) > _LONGEST_LINE:
                what = f"a line longer than {_LONGEST_LINE} characters"
                raise Unreadable(f"{name}:{number + 1}", what, "name a plan with a row a joint")
            block = file.read(_BLOCK)


def _check(line: str, name: str, number: int) -> None:
    odd = intake.CONTROL.search(line)
    if odd:
        what = f"the character U+{ord(odd[0]):04X} cannot stand in a plan"
        raise Unreadable(f"{name}:{number}:{odd.start() + 1}", what, "take it out")
