"""Bytes from a file or a stream, within bounds, and the text in them."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO, Final

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable

#: The largest plan that is read.
MAX_BYTES: Final = 64 * 1024 * 1024
#: What stands for the file's name where there is none.
STDIN_NAME: Final = "standard input"

_TOO_LARGE: Final = f"larger than {MAX_BYTES // 2**20} MiB, the most that a plan may have"
_SPLIT: Final = "split it into several files"
_SAVE: Final = "save the plan as CSV or .xlsx"
#: What files begin with that are no text.
_MARKS: Final = (
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an old .xls workbook, or one with a password",
     "save it as .xlsx without a password, or as CSV"),
    (b"\x89PNG", "a picture (PNG)", "name the plan itself, not a picture of it"),
    (b"\xff\xd8\xff", "a picture (JPEG)", "name the plan itself, not a picture of it"),
    (b"%PDF-", "a PDF", _SAVE),
    (b"\x1f\x8b", "a packed file (gzip)", "unpack it first"),
)  # fmt: skip
#: Characters that no plan can hold: controls, and halves of characters.
CONTROL: Final = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\U0010ffff]")


def take_in(source: str | Path, stdin: BinaryIO | None = None) -> tuple[bytes, str]:
    """Return a plan's bytes and the name that stands for it.

    Parameters
    ----------
    source : str or Path
        A file's path, or ``-`` for standard input.
    stdin : BinaryIO, optional
        What to read for ``-``; the process's standard input if not given.

    Returns
    -------
    tuple of bytes and str

    Raises
    ------
    Unreadable
        If it cannot be opened, is larger than ``MAX_BYTES``, is empty, or is of a kind that
        holds no plan. A file that is too large is refused before it is read.
    """
    if str(source) == "-":
        name = STDIN_NAME
        content = _within((stdin or sys.stdin.buffer).read, name)
    else:
        name = str(source)
        content = _from_file(Path(source), name)
    refuse_marked(content, name)
    if not content.strip():
        raise Unreadable(name, "the file is empty", "a plan has a header row and a row a joint")
    return content, name


def refuse_marked(content: bytes, name: str) -> None:
    """Raise ``Unreadable`` if a file's first bytes are those of a kind that holds no plan."""
    for mark, what, right in _MARKS:
        if content.startswith(mark):
            raise Unreadable(name, what, right)


def _within(read: Callable[[int], bytes], name: str) -> bytes:
    """Read no more than a plan may have."""
    content = read(MAX_BYTES + 1)
    if len(content) > MAX_BYTES:
        raise Unreadable(name, _TOO_LARGE, _SPLIT)
    return content


def _from_file(path: Path, name: str) -> bytes:
    """Return a file's bytes."""
    with open_file(path) as file:
        if os.fstat(file.fileno()).st_size > MAX_BYTES:
            raise Unreadable(name, _TOO_LARGE, _SPLIT)
        return _within(file.read, name)


def open_file(source: str | Path) -> BinaryIO:
    """Open a file to read its bytes.

    Raises
    ------
    Unreadable
        If there is none, or it cannot be opened.
    """
    name, path = str(source), Path(source)
    try:
        if path.is_dir():
            raise Unreadable(name, "a folder", "name a file in it")
        return path.open("rb")
    except FileNotFoundError as fault:
        right = "name a file, - for standard input, or give one line in quotes"
        raise Unreadable(name, "there is no such file", right) from fault
    except OSError as fault:
        reason = fault.strerror or type(fault).__name__
        raise Unreadable(name, f"cannot be opened ({reason})", "name a file that can") from fault
    except ValueError as fault:
        if isinstance(fault, Unreadable):
            raise
        raise Unreadable(repr(name), "this is no file name", "name a file") from fault


def decode(content: bytes, name: str, notes: list[str]) -> str:
    """Return the text in a plan's bytes, with a line feed at the end of every line.

    Parameters
    ----------
    content : bytes
        UTF-8 with or without a mark at its beginning, UTF-16 with one, or Windows-1252.
    name : str
        The file's name, as it stands in messages.
    notes : list of str
        Takes in that the text was read as Windows-1252.

    Returns
    -------
    str

    Raises
    ------
    Unreadable
        If it is none of these, or holds a character that no plan can.
    """
    text = _decode(content, name, notes).replace("\r\n", "\n").replace("\r", "\n")
    odd = CONTROL.search(text)
    if odd:
        if odd[0] == "\0":
            raise Unreadable(where(name, text, odd.start()), "this is no text", _SAVE)
        what = f"the character U+{ord(odd[0]):04X} cannot stand in a plan"
        raise Unreadable(where(name, text, odd.start()), what, "take it out")
    if not text.strip():
        raise Unreadable(name, "the file is empty", "a plan has a header row and a row a joint")
    return text


def _decode(content: bytes, name: str, notes: list[str]) -> str:
    """Return the text, by its mark, as UTF-8, or else as Windows-1252."""
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return content.decode("utf-16")
        except UnicodeDecodeError as fault:
            raise Unreadable(name, "damaged UTF-16 text", "save it as UTF-8") from fault
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = content.count(b"\n", 0, fault.start) + 1
        notes.append(f"read as Windows-1252: line {line} is no UTF-8")
    try:
        return content.decode("cp1252")
    except UnicodeDecodeError as fault:
        line = content.count(b"\n", 0, fault.start) + 1
        what = "neither UTF-8 nor Windows-1252 text"
        raise Unreadable(f"{name}:{line}", what, "save it as UTF-8") from fault


def where(name: str, text: str, offset: int) -> str:
    """Return ``name:line:column`` of a place in a text."""
    line = text.count("\n", 0, offset) + 1
    line_start = text.rfind("\n", 0, offset) + 1
    return f"{name}:{line}:{offset - line_start + 1}"
