"""What lies in a folder of records, and whether it is still what an index was made from."""

from __future__ import annotations

import os
import os.path
import time
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterable

SUFFIX: Final = ".yaml"
#: Folders at the top that hold no records of the book.
OTHER_FOLDERS: Final = frozenset({"plans"})
_NS: Final = 1_000_000_000
#: A change so soon after another one may leave the time of a file as it was: the clock of a
#: file system ticks in milliseconds, where it shows parts of a second at all, else in 2 s.
_TICK_NS: Final = 20_000_000
_COARSE_TICK_NS: Final = 2 * _NS
_TRIES: Final = 3


class Mark(NamedTuple):
    """What a file system says of a file: size, and when content and entry changed [ns]."""

    size: int
    mtime: int
    ctime: int


class Scan(NamedTuple):
    """The folders with their times, and the files, by their paths in the folder, with ``/``."""

    dirs: dict[str, tuple[int, int]]
    files: dict[str, Mark]


def mark(path: str) -> Mark | None:
    """Return a file's mark, None where there is no such file."""
    try:
        found = os.stat(path)  # noqa: PTH116 - pathlib costs the start
    except (OSError, ValueError):
        return None
    return Mark(found.st_size, found.st_mtime_ns, found.st_ctime_ns)


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
                    name = f"{here}/{entry.name}" if here else entry.name
                    if entry.is_dir(follow_symlinks=False):
                        waiting += [] if name in OTHER_FOLDERS else [name]
                    elif name.endswith(SUFFIX) and not entry.is_dir():
                        files[name] = mark(entry.path) or Mark(0, 0, 0)
        except OSError as fault:
            what = f"cannot be read ({fault.strerror})"
            raise Unreadable(path, what, "name a folder that can") from fault
        dirs[here] = times[1:] if times else (0, 0)
    return Scan(dirs, files)


def _too_young(found: Scan) -> float:
    """Return how long the youngest change lies within the tick of its clock [s]."""
    times = [mtime for mtime, _ in found.dirs.values()]
    times += [one.mtime for one in found.files.values()]
    youngest = max(times)
    tick = _TICK_NS if youngest % _NS else _COARSE_TICK_NS
    left = youngest + tick - time.time_ns()
    return left / _NS if 0 < left <= tick else 0.0


def changed_dirs(folder: str, dirs: Iterable[tuple[str, int, int]]) -> bool:
    """Return whether any folder has other entries than it had, or is gone."""
    for path, mtime, ctime in dirs:
        now = mark(os.path.join(folder, path) if path else folder)  # noqa: PTH118 - as above
        if now is None or now[1:] != (mtime, ctime):
            return True
    return False


def changed_files(folder: str, files: Iterable[tuple[str, int, int, int, bytes]]) -> bool:
    """Return whether any of some files holds something else than it did.

    Where size and time of the content are the same, but the entry was touched since, the
    content is compared: a copy that keeps times, or a time that was set back.
    """
    for path, *before, digest in files:
        full = os.path.join(folder, path)  # noqa: PTH118 - as above
        now = mark(full)
        if now is None or [*now[:2]] != before[:2]:
            return True
        if now.ctime != before[2] and digest_of(full) != digest:
            return True
    return False


def digest_of(path: str) -> bytes:
    """Return a short digest of a file's content, empty where it cannot be read."""
    from hashlib import blake2b  # noqa: PLC0415 - only where a file is in doubt

    try:
        with open(path, "rb") as file:  # noqa: PTH123 - as above
            return blake2b(file.read(), digest_size=16).digest()
    except OSError:
        return b""
