"""What lies in a folder of records, and when it was last changed."""

from __future__ import annotations

import os
import os.path
import time
from typing import Final, NamedTuple

from torquebook.catalogue.store.marks import Mark, mark
from torquebook.errors import Unreadable

SUFFIX: Final = ".yaml"
#: Folders at the top that hold no records of the book.
OTHER_FOLDERS: Final = frozenset({"plans"})
_NS: Final = 1_000_000_000
#: A change so soon after another one may leave the time of a file as it was: the clock of a
#: file system ticks in milliseconds, where it shows parts of a second at all, else in 2 s.
_TICK_NS: Final = 20_000_000
_COARSE_TICK_NS: Final = 2 * _NS
_TRIES: Final = 3


class Scan(NamedTuple):
    """The folders with their times, and the files, by their paths in the folder, with ``/``."""

    dirs: dict[str, tuple[int, int]]
    files: dict[str, Mark]


def scan(folder: str) -> Scan:
    """Return what lies in a folder, once its youngest change is old enough to be told apart.

    Raises
    ------
    Unreadable
        If it is no folder, or cannot be read.
    """
    if not os.path.isdir(folder):  # noqa: PTH112 - pathlib costs the start
        raise Unreadable(folder, "no folder", "name a folder of records")
    found = _scan(folder)
    for _ in range(_TRIES):
        wait = _too_young(found)
        if not wait:
            break
        time.sleep(wait)
        found = _scan(folder)
    return found


def _scan(folder: str) -> Scan:
    dirs: dict[str, tuple[int, int]] = {}
    files: dict[str, Mark] = {}
    waiting = [""]
    while waiting:
        here = waiting.pop()
        path = os.path.join(folder, here) if here else folder  # noqa: PTH118 - as above
        times = mark(path)
        try:
            with os.scandir(path) as entries:
                for entry in entries:
                    _refuse(entry.name, path)
                    name = f"{here}/{entry.name}" if here else entry.name
                    if entry.is_dir(follow_symlinks=False):
                        hidden = entry.name.startswith(".")
                        waiting += [] if hidden or name in OTHER_FOLDERS else [name]
                    elif name.endswith(SUFFIX) and not entry.is_dir():
                        files[name] = mark(entry.path) or Mark(0, 0, 0)
        except OSError as fault:
            what = f"cannot be read ({fault.strerror})"
            raise Unreadable(path, what, "name a folder that can") from fault
        dirs[here] = times[1:] if times else (0, 0)
    return Scan(dirs, files)


def _refuse(name: str, where: str) -> None:
    """Refuse a name that no text can hold, and so no index and no message."""
    if not name.isascii() and name != name.encode("utf-8", "replace").decode():
        path = f"{where}/{ascii(name)[1:-1]}"
        raise Unreadable(path, "its name is no UTF-8", "give it another name")


def _too_young(found: Scan) -> float:
    """Return how long a change still lies within the tick of its clock [s]."""
    now = time.time_ns()
    times = {mtime for mtime, _ in found.dirs.values()}
    times.update(one.mtime for one in found.files.values())
    return max(_left(mtime, now) for mtime in times) / _NS


def _left(mtime: int, now: int) -> int:
    """Return how long a time lies within the tick of its clock [ns]; 0 for none, and for later."""
    tick = _TICK_NS if mtime % _NS else _COARSE_TICK_NS
    left = mtime + tick - now
    return left if 0 < left <= tick else 0
