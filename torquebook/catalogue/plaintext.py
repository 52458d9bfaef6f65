"""Plain text: read a file as UTF-8, and refuse the characters that no record can hold."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path

MAX_BYTES: Final = 8 * 1024 * 1024
UNREADABLE: Final = "text-unreadable"
TAB: Final = "tab-typed"
_ODD: Final = re.compile(
    "[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"
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
        If it cannot be opened.
    """
    try:
        with open(name, "rb") as file:  # noqa: PTH123 - a hundred thousand are read in a row
            return file.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        what = f"cannot be opened ({reason})"
        raise Unreadable(name, what, "name a file that can", UNREADABLE) from error


def decoded(raw: bytes, name: str) -> str:
    """Return the text that a file's bytes stand for.

    Raises
    ------
    Unreadable
        If there are more than 8 MiB, or they are no UTF-8.
    """
    if len(raw) > MAX_BYTES:
        raise Unreadable(name, "larger than 8 MiB", "split it into several files", UNREADABLE)
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Unreadable(name, "written as UTF-16", "save it as UTF-8", UNREADABLE)
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
        what = f"the character U+{ord(odd.group()):04X} cannot stand in a text file"
        raise Unreadable(_where(name, text, odd.start()), what, "take it out", UNREADABLE)


def odd_character(text: str) -> re.Match[str] | None:
    """Return the first character that cannot stand in a record."""
    return _ODD.search(text)
