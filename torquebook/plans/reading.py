"""Read a plan: find out what a file is, whatever it is called, and hand it to its reader."""

from __future__ import annotations

import re
from pathlib import PurePath
from typing import TYPE_CHECKING, Final

from torquebook.errors import Unreadable
from torquebook.plans import csvfile, intake, table
from torquebook.plans.model import Plan

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from typing import BinaryIO

    from torquebook.plans.table import Row

_PACKED: Final = b"PK\x03\x04"
_EMPTY_PACKED: Final = b"PK\x05\x06"
_WORKBOOKS: Final = frozenset({".xlsx", ".xlsm", ".xltx", ".xltm"})
_BY_SUFFIX: Final = {
    ".yaml": "yaml",
    ".yml": "yaml",
    ".json": "json",
    ".csv": "csv",
    ".tsv": "csv",
    ".tab": "csv",
}
_START: Final = 4096  # bytes that tell what a text is
_YAML_LINE: Final = re.compile(r"#|---|-\s|[A-Za-z_ -]+:(?:\s|\Z)")


def read_plan(source: str | Path, *, stdin: BinaryIO | None = None) -> Plan:
    """Read a plan from a file or from standard input.

    Parameters
    ----------
    source : str or Path
        A CSV, XLSX, YAML or JSON file, or ``-`` for standard input.
    stdin : BinaryIO, optional
        What to read for ``-``; the process's standard input if not given.

    Returns
    -------
    Plan

    Raises
    ------
    Unreadable
        If the plan cannot be taken in as a whole. A cell that cannot be read is a problem of
        its line instead.
    """
    content, name = intake.take_in(source, stdin)
    notes: list[str] = []
    suffix = PurePath(source).suffix.lower()
    kind = kind_of(content, source)
    if kind == "xlsx":
        if suffix and suffix not in _WORKBOOKS:
            notes.append(f"read as a workbook, though its name ends in {suffix}")
        from torquebook.plans import sheet  # noqa: PLC0415 - a CSV needs no archive's reader

        plan = _table_plan(sheet.iter_sheet(content, name, notes), name, notes)
    elif suffix in _WORKBOOKS:
        raise Unreadable(name, "no workbook, whatever its name says", "save it as .xlsx or as CSV")
    else:
        plan = _text_plan(intake.decode(content, name, notes), name, kind, notes)
    if not plan.lines:
        raise Unreadable(name, "a header and nothing below it", "write a row for each joint")
    return plan


def read_line(text: str) -> Plan:
    """Read a plan of one line, such as ``M10x1.25 10.9 60 N.m + 90 deg``.

    Parameters
    ----------
    text : str
        Thread, class, count (``x4`` or ``4 off``), ``column=value``, and the shorthand of
        ``notation``, in any order.

    Returns
    -------
    Plan

    Raises
    ------
    Unreadable
        If nothing says how to tighten, or a word has no place in a line.
    """
    from torquebook.plans import oneline  # noqa: PLC0415 - nor one for a line alone

    return Plan(oneline.NAME, (oneline.one_line(text),))


def kind_of(content: bytes, source: str | Path) -> str:
    """Return a plan's format, ``xlsx``, ``yaml``, ``json`` or ``csv``.

    Parameters
    ----------
    content : bytes
        The plan, or its first few lines.
    source : str or Path
        A file's path, whose ending tells where the content does not, or ``-``.
    """
    if content.startswith((_PACKED, _EMPTY_PACKED)):
        return "xlsx"
    named = _BY_SUFFIX.get(PurePath(source).suffix.lower())
    if named:
        return named
    wide = content.startswith((b"\xff\xfe", b"\xfe\xff"))
    start = content[:_START].decode("utf-16" if wide else "utf-8-sig", "replace").lstrip()
    if start.startswith(("{", "[")):
        return "json"
    return "yaml" if _YAML_LINE.match(start) else "csv"


def _text_plan(text: str, name: str, kind: str, notes: list[str]) -> Plan:
    """Return the plan in a text of a known format."""
    if kind == "csv":
        lines = (f"{line}\n" for line in text.removesuffix("\n").split("\n"))
        return _table_plan(csvfile.iter_csv(lines, name), name, notes)
    from torquebook.catalogue import strict  # noqa: PLC0415 - a CSV needs no YAML parser
    from torquebook.plans import jsontext, tree  # noqa: PLC0415 - as above

    load = jsontext.load if kind == "json" else strict.load
    return tree.tree_plan(text, name, load(text, name), notes)


def _table_plan(rows: Iterator[Row], name: str, notes: list[str]) -> Plan:
    """Return the plan in a table's rows."""
    header = table.read_header(rows, name)
    lines = tuple(table.iter_lines(rows, header))
    return Plan(name, lines, header.unknown, tuple(notes))
