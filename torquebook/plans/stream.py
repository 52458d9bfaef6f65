"""A CSV plan line by line: as long as it likes, in the memory of a few lines."""

from __future__ import annotations

import codecs
import sys
from dataclasses import dataclass, field
from pathlib import PurePath
from typing import TYPE_CHECKING, BinaryIO

from torquebook.errors import Unreadable
from torquebook.plans import csvfile, intake, table

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.plans.model import PlanLine

#: Endings of plans that are read as a whole.
NO_CSV = frozenset({".xlsx", ".xlsm", ".yaml", ".yml", ".json"})
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
        If it cannot be opened, or its header is none.
    """
    name = intake.STDIN_NAME if str(source) == "-" else str(source)
    suffix = PurePath(name).suffix.lower()
    if suffix in NO_CSV:
        what = f"line by line only a CSV is read, and {suffix} is none"
        raise Unreadable(name, what, "leave --json-lines out, or save it as CSV")
    file = (stdin or sys.stdin.buffer) if str(source) == "-" else intake.open_file(source)
    rows = csvfile.iter_csv(_text_lines(file, name), name)
    header = table.read_header(rows, name)
    return PlanStream(name, table.iter_lines(rows, header), header.unknown)


def _text_lines(file: BinaryIO, name: str) -> Iterator[str]:
    """Yield a file's lines, each ended by a line feed; close the file at its end."""
    decoder = codecs.getincrementaldecoder("utf-8-sig")()
    rest, number = "", 0
    with file:
        while True:
            block = file.read(_BLOCK)
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


def _check(line: str, name: str, number: int) -> None:
    odd = intake.CONTROL.search(line)
    if odd:
        what = f"the character U+{ord(odd[0]):04X} cannot stand in a plan"
        raise Unreadable(f"{name}:{number}:{odd.start() + 1}", what, "take it out")
