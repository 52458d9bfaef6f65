"""One run of a journal at a time: a lock that the system lets go when a process ends."""

from __future__ import annotations

import getpass
import json
import os
import platform
from contextlib import suppress
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Self

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path
    from types import TracebackType


class Lock:
    """Holds a journal for one process, as a context manager.

    Parameters
    ----------
    journal : Path
    """

    def __init__(self, journal: Path) -> None:
        self._path = journal.with_name(f"{journal.name}.lock")

    def __enter__(self) -> Self:
        """Take the lock.

        Raises
        ------
        Unreadable
            If another process holds it; says who, where and since when.
        """
        try:
            self._file = self._path.open("a+", encoding="utf-8")
        except OSError as fault:
            what = f"cannot be locked ({fault.strerror})"
            raise Unreadable(
                str(self._path), what, "name a folder that can be written to"
            ) from fault
        try:
            _hold(self._file.fileno())
        except OSError as fault:
            self._file.seek(0)
            holder = self._file.read()
            self._file.close()
            right = "go on there, or begin another with --new"
            raise Unreadable(
                str(self._path), f"this job is being run {_said(holder)}", right
            ) from fault
        self._file.seek(0)
        self._file.truncate()
        json.dump(_who(), self._file)
        self._file.flush()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Let the lock go; the file stays, empty."""
        with suppress(OSError):
            self._file.seek(0)
            self._file.truncate()
        self._file.close()


def _who() -> dict[str, str | int]:
    try:
        user = getpass.getuser()
    except (KeyError, OSError):
        user = "somebody"
    since = datetime.now(UTC).isoformat(timespec="seconds")
    return {"user": user, "host": platform.node(), "pid": os.getpid(), "since": since}


def _said(holder: str) -> str:
    try:
        held = json.loads(holder)
        return f"by {held['user']} on {held['host']}, process {held['pid']}, since {held['since']}"
    except (ValueError, KeyError, TypeError):
        return "by another process"


if os.name == "nt":  # pragma: no cover - tested where there is such a system
    import msvcrt

    def _hold(descriptor: int) -> None:
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]

else:
    import fcntl

    def _hold(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
