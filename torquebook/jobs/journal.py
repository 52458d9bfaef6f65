"""The journal of a job: what was done, a line an entry, none of it lost and none of it edited.

Each line is a JSON object that carries the hash of the line before. It is on the disk before
the next step shows; a process that is killed leaves at worst one line torn, which is kept
aside. What is edited later no longer fits the chain, and is named.
"""

from __future__ import annotations

import errno
import hashlib
import json
import os
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from io import FileIO
    from pathlib import Path

START: Final = "0" * 64
"""What the first entry carries in place of a hash before it."""
_CHAIN: Final = frozenset({"seq", "prev", "hash"})


@dataclass(frozen=True)
class Entry:
    """One entry of a journal.

    Parameters
    ----------
    seq : int
        From 1 up.
    facts : mapping of str to Any
        What was done: plain values by name.
    prev, hash : str
        SHA-256 of the entry before, and of this one with it, in hex.
    """

    seq: int
    facts: Mapping[str, Any]
    prev: str
    hash: str

    @property
    def line(self) -> str:
        """The entry as a line of the file, without the line feed."""
        ends = {"prev": self.prev, "hash": self.hash}
        return json.dumps({"seq": self.seq, **self.facts, **ends}, ensure_ascii=True)


def entry_after(last: Entry | None, facts: Mapping[str, Any]) -> Entry:
    """Return the entry that follows another one.

    Parameters
    ----------
    last : Entry or None
        None for the first.
    facts : mapping of str to Any
        Without the names of the chain: seq, prev, hash.
    """
    seq, prev = (last.seq + 1, last.hash) if last else (1, START)
    return Entry(seq, dict(facts), prev, _hash(seq, facts, prev))


def _hash(seq: int, facts: Mapping[str, Any], prev: str) -> str:
    """Return the hash of an entry: of its values by name in order, behind the hash before."""
    body = json.dumps({"seq": seq, **facts}, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(f"{prev}\n{body}".encode("ascii")).hexdigest()


def read_entries(text: str, name: str) -> tuple[Entry, ...]:
    """Return the entries of a journal's whole lines, and verify their chain.

    Parameters
    ----------
    text : str
    name : str
        The file's name, as it stands in messages.

    Raises
    ------
    Unreadable
        At the first line that is no entry, or does not fit the one before: it was edited,
        taken out or put in.
    """
    entries: list[Entry] = []
    for number, line in enumerate(text.splitlines(), 1):
        entry = _read(line, f"{name}:{number}")
        wanted = entry_after(entries[-1] if entries else None, entry.facts)
        if (entry.seq, entry.prev) != (wanted.seq, wanted.prev):
            raise _broken(f"{name}:{number}", "does not follow the line before: one is missing")
        if entry.hash != wanted.hash:
            raise _broken(f"{name}:{number}", "was edited: its hash is that of other words")
        entries.append(entry)
    return tuple(entries)


def read_journal(path: Path) -> tuple[tuple[Entry, ...], str]:
    """Return a journal's entries and a last line that was never finished, and change nothing.

    Raises
    ------
    Unreadable
        If the file cannot be read, or its chain is broken.
    """
    try:
        content = path.read_bytes()
    except OSError as fault:
        what = f"cannot be read ({fault.strerror or fault})"
        raise Unreadable(str(path), what, "name the file of a record") from fault
    whole, torn = _whole_lines(content)
    return _entries_of(whole, path), torn.decode("utf-8", "replace")


def _entries_of(whole: bytes, path: Path) -> tuple[Entry, ...]:
    try:
        text = whole.decode("ascii")
    except UnicodeDecodeError as fault:
        number = whole[: fault.start].count(b"\n") + 1
        raise _broken(f"{path}:{number}", "holds bytes that no journal has") from fault
    return read_entries(text, str(path))


def _broken(where: str, what: str) -> Unreadable:
    return Unreadable(where, f"this entry {what}", "go by the paper, and begin a new record")


def _read(line: str, where: str) -> Entry:
    try:
        held = json.loads(line)
        seq, prev, stamp = held["seq"], held["prev"], held["hash"]
    except (ValueError, KeyError, TypeError, RecursionError) as fault:
        raise _broken(where, "is none") from fault
    if not (isinstance(seq, int) and isinstance(prev, str) and isinstance(stamp, str)):
        raise _broken(where, "is none")
    facts = {key: value for key, value in held.items() if key not in _CHAIN}
    return Entry(seq, facts, prev, stamp)


class Journal:
    """A journal that is written to; open one with :meth:`open`.

    Parameters
    ----------
    path : Path
    stream : FileIO
        The open file, at its end.
    entries : iterable of Entry
        What it holds.
    torn : str
        A last line that was never finished, as it was found; empty if there was none.
    """

    def __init__(self, path: Path, stream: FileIO, entries: Iterable[Entry], torn: str) -> None:
        self.path = path
        self.entries = list(entries)
        self.torn = torn
        self._stream = stream

    @classmethod
    def open(cls, path: Path) -> Journal:
        """Open a journal to go on with it, or begin one.

        A last line that was never finished is put into a file of its own beside the journal.

        Raises
        ------
        Unreadable
            If the file cannot be opened or written to, or its chain is broken.
        """
        try:
            stream = path.open("a+b", buffering=0)
            stream.seek(0)
            content = stream.readall()
            whole, torn = _whole_lines(content)
            if torn:
                _set_aside(path, torn)
                stream.truncate(len(whole))
                os.fsync(stream.fileno())
        except OSError as fault:
            raise _unwritable(path, fault) from fault
        try:
            entries = _entries_of(whole, path)
        except Unreadable:
            stream.close()
            raise
        return cls(path, stream, entries, torn.decode("utf-8", "replace"))

    def append(self, facts: Mapping[str, Any]) -> Entry:
        """Write an entry; once this returns it is on the disk.

        Raises
        ------
        Unreadable
            If it cannot be written; then the journal is as it was before.
        """
        entry = entry_after(self.entries[-1] if self.entries else None, facts)
        before = self._stream.seek(0, os.SEEK_END)
        line = f"{entry.line}\n".encode("ascii")
        try:
            _write(self._stream, line)
        except OSError as fault:
            with suppress(OSError):
                self._stream.truncate(before)
            raise _unwritable(self.path, fault) from fault
        self.entries.append(entry)
        return entry

    def close(self) -> None:
        """Close the file."""
        self._stream.close()


def _whole_lines(content: bytes) -> tuple[bytes, bytes]:
    """Return the lines that end, and what stands behind the last of them."""
    end = content.rfind(b"\n") + 1
    return content[:end], content[end:]


def _set_aside(path: Path, torn: bytes) -> None:
    """Keep a line that was never finished in a file beside the journal."""
    with path.with_name(f"{path.name}.torn").open("ab") as aside:
        aside.write(torn + b"\n")
        aside.flush()
        os.fsync(aside.fileno())


def _write(stream: FileIO, line: bytes) -> None:
    """Write a line so that it is on the disk, or raise; a part of it may then be there."""
    if stream.write(line) != len(line):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    os.fsync(stream.fileno())


def _unwritable(path: Path, fault: OSError) -> Unreadable:
    what = f"cannot be written ({fault.strerror or fault})"
    return Unreadable(str(path), what, "make room, or name a folder that can be written to")
