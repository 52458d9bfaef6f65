"""Make the index of a folder, or make it anew for what changed in it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Protocol

from torquebook.catalogue.processors import MANY, in_order
from torquebook.catalogue.store import layout
from torquebook.catalogue.store.marks import Mark, holds_still
from torquebook.catalogue.store.scanning import scan
from torquebook.catalogue.store.writing import Writer

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Mapping

    from torquebook.catalogue.store.scanning import Scan
    from torquebook.catalogue.store.writing import Content

    class Reader(Protocol):
        """Reads one record of a folder, strictly."""

        def __call__(self, folder: str, name: str, /) -> Content:
            """Return what an index keeps of it."""


def in_memory(folder: str, read: Reader) -> sqlite3.Connection:
    """Return an index of a folder in memory.

    Raises
    ------
    Unreadable
        If the folder is none.
    """
    found = scan(folder)
    connection = layout.new(":memory:")
    bring_up_to_date(connection, folder, found, read)
    return connection


def bring_up_to_date(
    connection: sqlite3.Connection, folder: str, found: Scan, read: Reader, **about: str
) -> int:
    """Read the records that an index does not hold as they are now, and drop those that are gone.

    Parameters
    ----------
    connection : sqlite3.Connection
        An index of this folder, or an empty one.
    folder : str
    found : Scan
        What lies in the folder.
    read : callable
        Reads one record.
    **about : str
        What the index says of itself.

    Returns
    -------
    int
        How many records are new, gone, or say something else.
    """
    held = {
        path: (Mark(*times), digest)
        for path, *times, digest in connection.execute(
            "SELECT path, size, mtime, ctime, hash FROM files"
        )
    }
    writer = Writer(connection)
    gone = held.keys() - found.files.keys()
    for path in sorted(gone):
        writer.drop(path)
    todo = []
    for path in sorted(found.files, key=_own):
        mark = found.files[path]
        if path not in held:
            todo.append(path)
        elif not _same(folder, path, mark, held):
            writer.drop(path)
            todo.append(path)
        elif mark != held[path][0]:
            writer.touch(path, mark)
    with in_order(partial(read, folder), todo, many=MANY) as every:
        for path, content in zip(todo, every, strict=True):
            writer.put(path, _own(path), found.files[path], content)
    writer.finish(found, **about)
    return len(gone) + len(todo)


def _own(path: str) -> str:
    """Return a record's id, from its path in the folder."""
    return path.rpartition(".")[0]


def _same(folder: str, path: str, mark: Mark, held: Mapping[str, tuple[Mark, bytes]]) -> bool:
    """Return whether a file holds what it did; where only its times differ, it is read."""
    before, digest = held[path]
    return mark == before or (mark.size == before.size and holds_still(f"{folder}/{path}", digest))
