"""What a file system says of folders and files, and whether it is what it was.

Annotations are not postponed here: a named tuple would compile each of them from its text, at
every start.
"""

import os
import os.path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable


class Mark(NamedTuple):
    """What a file system says of a file: size, and when content and entry changed [ns]."""

    size: int
    mtime: int
    ctime: int


def mark(path: str) -> Mark | None:
    """Return a file's mark, None where there is no such file."""
    try:
        found = os.stat(path)  # noqa: PTH116 - pathlib costs the start
    except (OSError, ValueError):
        return None
    return Mark(found.st_size, found.st_mtime_ns, found.st_ctime_ns)


def changed_dirs(folder: str, dirs: "Iterable[tuple[str, int, int]]") -> bool:
    """Return whether any folder has other entries than it had, or is gone."""
    for path, mtime, ctime in dirs:
        try:
            now = os.stat(f"{folder}/{path}")  # noqa: PTH116 - as above
        except OSError:
            return True
        if now.st_mtime_ns != mtime or now.st_ctime_ns != ctime:
            return True
    return False


def changed_files(folder: str, files: "Iterable[tuple[str, int, int, int, bytes]]") -> bool:
    """Return whether any of some files holds something else than it did.

    Where size and time of the content are the same, but the entry was touched since, the
    content is compared: a copy that keeps times, or a time that was set back.
    """
    for path, *before, digest in files:
        full = os.path.join(folder, path)  # noqa: PTH118 - as above
        now = mark(full)
        if now is None or [*now[:2]] != before[:2]:
            return True
        if now.ctime != before[2] and not holds_still(full, digest):
            return True
    return False


def digest_of(raw: bytes) -> bytes:
    """Return a short digest of what a file holds."""
    from hashlib import blake2b  # noqa: PLC0415 - only where a file is in doubt

    return blake2b(raw, digest_size=16).digest()


def holds_still(path: str, digest: bytes) -> bool:
    """Return whether a file's content is the one of a digest."""
    try:
        with open(path, "rb") as file:  # noqa: PTH123 - pathlib costs the start
            return digest_of(file.read()) == digest
    except OSError:
        return False
