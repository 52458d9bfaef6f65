"""One run of one record at a time: a lock that the system itself lets go of.

The lock is on a file beside the journal, which says who holds it. A process that is killed
holds nothing any more, whatever the file still says.
"""

from __future__ import annotations

import errno
import json
import os
from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path
    from typing import BinaryIO, Self

_HELD: Final = frozenset((errno.EACCES, errno.EAGAIN, errno.EDEADLK))
_BYTE: Final = 1 << 20
"""Where Windows locks: beyond the words, which others are to read while it is held."""


class Lock:
    """The right to write to a journal; taken with ``with``, or :meth:`take` and :meth:`free`.

    Parameters
    ----------
    journal : Path
    holder : mapping of str to Any
        Who takes it: user, host, pid, since.
    """

    def __init__(self, journal: Path, holder: Mapping[str, Any]) -> None:
        self.path = journal.with_name(f"{journal.name}.lock")
        self._journal = journal
        self._holder = dict(holder)
        self._stream: BinaryIO | None = None

    def take(self) -> None:
        """Take the lock.

        Raises
        ------
        Unreadable
            If another run holds it, or it cannot be taken in this folder.
        """
        try:
            stream = self.path.open("a+b", buffering=0)
        except OSError as fault:
            raise self._no_place(fault) from fault
        try:
            _lock(stream)
        except OSError as fault:
            held = fault.errno in _HELD
            stream.seek(0)
            words = stream.read(10_000)
            stream.close()
            raise (self._taken(words) if held else self._no_place(fault)) from fault
        self._stream = stream
        try:
            stream.truncate(0)
            stream.write(json.dumps(self._holder).encode("ascii"))
        except OSError as fault:
            self.free()
            raise self._no_place(fault) from fault

    def free(self) -> None:
        """Let go of the lock."""
        if self._stream:
            self._stream.close()
            self._stream = None

    def __enter__(self) -> Self:
        """Take it."""
        self.take()
        return self

    def __exit__(self, *_: object) -> None:
        """Let go of it."""
        self.free()

    def _taken(self, words: bytes) -> Unreadable:
        try:
            held = json.loads(words)
            who = (
                f"by {held['user']} on {held['host']}, process {held['pid']}, since {held['since']}"
            )
        except (ValueError, KeyError, TypeError, RecursionError):
            who = "by another run"
        right = "go on there, or begin another record with --new or --record FILE"
        return Unreadable(str(self._journal), f"is being written {who}", right)

    def _no_place(self, fault: OSError) -> Unreadable:
        what = f"cannot be locked ({fault.strerror or fault})"
        right = "make room, or name a folder that can be written to with --record FILE"
        return Unreadable(str(self._journal), what, right)


def _lock(stream: BinaryIO) -> None:
    """Lock an open file for this process alone, or raise at once."""
    if os.name == "nt":
        _lock_windows(stream)
    else:
        _lock_posix(stream)


def _lock_posix(stream: BinaryIO) -> None:
    fcntl: Any = import_module("fcntl")
    fcntl.flock(stream.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)


def _lock_windows(stream: BinaryIO) -> None:
    msvcrt: Any = import_module("msvcrt")
    stream.seek(_BYTE)
    msvcrt.locking(stream.fileno(), msvcrt.LK_NBLCK, 1)
