"""Write an index beside the one that it is to replace, and put it in its place."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from torquebook.catalogue.store import layout
from torquebook.catalogue.store.cache import fresh_path, put_in_place

if TYPE_CHECKING:
    from collections.abc import Callable

    Fill = Callable[[sqlite3.Connection], None]


def replaced(path: str, fill: Fill, *, anew: bool) -> sqlite3.Connection | None:
    """Return an index that has taken the place of the one at a path; None where none can.

    Processes that do so at once each put a whole index in place; the last one stays.

    Parameters
    ----------
    path : str
        Where it is to lie; empty for nowhere.
    fill : callable
        Brings an index up to date: the old one, or an empty one.
    anew : bool
        Whether to begin with an empty one.
    """
    if not path:
        return None
    try:
        fresh = fresh_path(path)
    except OSError:
        return None
    try:
        if anew:
            connection = layout.new(fresh)
        else:
            from shutil import copyfile  # noqa: PLC0415 - only where an index is made

            copyfile(path, fresh)
            connection = layout.writable(fresh)
        try:
            fill(connection)
        finally:
            connection.close()
        put_in_place(fresh, path)
        return layout.readable(path)
    except (OSError, sqlite3.Error):
        return None
    finally:
        if os.path.exists(fresh):  # noqa: PTH110 - pathlib costs the start
            os.unlink(fresh)  # noqa: PTH108 - as above


def for_once(path: str, fill: Fill, *, anew: bool) -> sqlite3.Connection:
    """Return an index in memory, from the one at a path where that serves."""
    if not anew:
        connection = sqlite3.connect(":memory:", isolation_level=None)
        try:
            with closing(layout.readable(path)) as old:
                old.backup(connection)
            fill(connection)
        except sqlite3.Error:
            connection.close()
        else:
            return connection
    connection = layout.new(":memory:")
    fill(connection)
    return connection
