"""Where the indexes of the user's folders lie: in the platform's folder for such files."""

from __future__ import annotations

import os
import os.path
import sys
import time
from contextlib import suppress
from typing import Final

from torquebook.errors import Unreadable

SUFFIX: Final = ".sqlite"
_OLD_S: Final = 3600.0


def cache_folder() -> str:
    """Return the cache folder: ``XDG_CACHE_HOME`` where it is set, else as the platform has it.

    Raises
    ------
    Unreadable
        If the user has no home.
    """
    told = os.environ.get("XDG_CACHE_HOME", "")
    if os.path.isabs(told):  # noqa: PTH117 - pathlib costs the start
        return os.path.join(told, "torquebook")  # noqa: PTH118 - as above
    if sys.platform == "win32":
        parts = (os.environ.get("LOCALAPPDATA") or "~/AppData/Local", "torquebook", "cache")
    elif sys.platform == "darwin":
        parts = ("~/Library/Caches", "torquebook")
    else:
        parts = ("~/.cache", "torquebook")
    found = os.path.expanduser(os.path.join(*parts))  # noqa: PTH111, PTH118 - as above
    if found.startswith("~"):
        raise Unreadable(found, "no home folder", "set XDG_CACHE_HOME")
    return found


def index_path(folder: str) -> str:
    """Return the file of a folder's index, by the folder's absolute path.

    The index says itself which folder it is of; where two paths should have one name, each
    finds the other's index foreign, and makes its own anew.
    """
    name = f"{_hashed(os.path.abspath(folder)):016x}{SUFFIX}"  # noqa: PTH100 - as above
    return os.path.join(cache_folder(), name)  # noqa: PTH118 - as above


def _hashed(text: str) -> int:
    """Return 64 bits made from a text (FNV-1a); the modules that do so cost the start."""
    found = 0xCBF29CE484222325
    for byte in text.encode("utf-8", "surrogateescape"):
        found = (found ^ byte) * 0x100000001B3 & 0xFFFFFFFFFFFFFFFF
    return found


def fresh_path(path: str) -> str:
    """Return a name beside an index for the one that will replace it; sweep up forgotten ones.

    Raises
    ------
    OSError
        If the folder cannot be made or looked into.
    """
    folder, name = os.path.split(path)
    os.makedirs(folder, mode=0o700, exist_ok=True)  # noqa: PTH103 - as above
    with os.scandir(folder) as entries:
        for entry in entries:
            left = entry.name.startswith(f"{name}.") and entry.name.endswith(".new")
            with suppress(OSError):  # another process may sweep too
                if left and time.time() - entry.stat().st_mtime > _OLD_S:
                    os.unlink(entry.path)  # noqa: PTH108 - as above
    return f"{path}.{os.getpid()}.{time.monotonic_ns()}.new"


def put_in_place(fresh: str, path: str) -> None:
    """Let a finished file take the place of the one before, whole or not at all.

    Raises
    ------
    OSError
        If it cannot.
    """
    handle = os.open(fresh, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
    os.replace(fresh, path)  # noqa: PTH105 - as above
