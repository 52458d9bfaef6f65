"""Plain text: read a file as UTF-8, and refuse the characters that no record can hold."""

from __future__ import annotations

import os
import stat
from typing import TYPE_CHECKING, Final

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path

MAX_BYTES: Final = 8 * 1024 * 1024
UNREADABLE: Final = "text-unreadable"
TAB: Final = "tab-typed"
#: What is not odd, in ASCII and beyond it. Odd are control characters, halves of characters, and
#: what is not seen but changes what is read: the signs that turn the direction of writing (UAX #9,
#: 2.1 and 2.2), signs without width, and a byte order mark inside the text.
_USUAL: Final = bytes((*b"\t\n\r", *range(0x20, 0x7F)))
_USUAL_BEYOND: Final = (
    ("\xa0", "\u200a"),
    ("\u200c", "\u200d"),
    ("\u2010", "\u2027"),
    ("\u202f", "\u205f"),
    ("\u2070", "\ud7ff"),
    ("\ue000", "\ufefe"),
    ("\uff00", "\ufffd"),
    ("\U00010000", "\U0010ffff"),
)
_SHOWN: Final = 60  # characters of a text that a message shows
_MARKS: Final = (
    (b"\xff\xfe\0\0", "UTF-32"),
    (b"\0\0\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)


def read_text(path: Path) -> str:
    """Return a file's text.

    Raises
    ------
    Unreadable
        If it cannot be opened, is larger than 8 MiB, or is no UTF-8.
    """
    return decoded(read_bytes(str(path)), str(path))


def read_bytes(name: str) -> bytes:
    """Return what a file holds, cut short behind 8 MiB.

    Raises
    ------
    Unreadable
        If it is a device, a pipe or a folder, or cannot be opened.
    """
    try:
        said = os.stat(name)  # noqa: PTH116 - a hundred thousand come in a row
        if stat.S_ISREG(said.st_mode):
            with open(name, "rb") as file:  # noqa: PTH123 - as above
                # Room for what is said to be there; a file may hold more than that.
                raw = file.read(min(said.st_size, MAX_BYTES) + 1)
                return raw + file.read(MAX_BYTES + 1 - len(raw))
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        what = f"cannot be opened ({reason})"
        raise Unreadable(name, what, "name a file that can", UNREADABLE) from error
    right = "put a plain file of text in its place"
    raise Unreadable(name, "a device, a pipe or a folder, and no file", right, UNREADABLE)


def decoded(raw: bytes, name: str) -> str:
    """Return the text that a file's bytes stand for.

    Raises
    ------
    Unreadable
        If there are more than 8 MiB, or they are no UTF-8.
    """
    if len(raw) > MAX_BYTES:
        raise Unreadable(name, "larger than 8 MiB", "split it into several files", UNREADABLE)
    for mark, written in _MARKS:
        if raw.startswith(mark):
            raise Unreadable(name, f"written as {written}", "save it as UTF-8", UNREADABLE)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8-sig", "replace")
        what = f"byte {raw[error.start]:#04x} is no UTF-8"
        where = _where(name, before, len(before))
        raise Unreadable(where, what, "save it as UTF-8", UNREADABLE) from error


def _where(name: str, text: str, offset: int) -> str:
    """Return ``name:line:column`` of an offset in a text."""
    lines = text[:offset].replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return f"{name}:{len(lines)}:{len(lines[-1]) + 1}"


def refuse_characters(text: str, name: str) -> None:
    """Refuse tabs, control characters, halves of characters, and more than 8 MiB.

    Raises
    ------
    Unreadable
        With line and column of the first such character.
    """
    if len(text) > MAX_BYTES:
        raise Unreadable(name, "larger than 8 MiB", "split it into several files", UNREADABLE)
    tab = text.find("\t")
    if tab >= 0:
        right = r'write spaces, or "\t" inside double quotes'
        raise Unreadable(_where(name, text, tab), "a tab", right, TAB)
    odd = odd_character(text)
    if odd:
        what = f"the character U+{ord(odd):04X} cannot stand in a text file"
        raise Unreadable(_where(name, text, text.index(odd)), what, "take it out", UNREADABLE)


def odd_character(text: str) -> str:
    """Return the first character that cannot stand in a record, empty for none."""
    # Most texts are plain: little is left of them without what is usual.
    left = text.encode("utf-8", "surrogatepass").translate(None, _USUAL)
    odd = {
        character
        for character in set(left.decode("utf-8", "surrogatepass"))
        if not any(first <= character <= last for first, last in _USUAL_BEYOND)
    }
    return next((character for character in text if character in odd), "") if odd else ""


def excerpt(text: str) -> str:
    """Return the beginning of a text as one line of a message shows it."""
    cut = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}..."
    return cut if cut.isprintable() else cut.encode("unicode_escape").decode()
