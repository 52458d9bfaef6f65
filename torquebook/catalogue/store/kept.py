"""Keep an index in the cache: take it as it is, or make it anew with a word."""

from __future__ import annotations

import os.path
import sqlite3
from typing import TYPE_CHECKING, Any

from torquebook.catalogue.store import layout
from torquebook.catalogue.store.cache import index_path
from torquebook.catalogue.store.layer import Layer
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable

    Say = Callable[[str], None]

BROKEN = "the index of {} is broken or of another version; it is made anew"
UNKEPT = "the index of {} cannot be kept in {}; it is made for this answer only"


class Kept(Layer):
    """A layer whose index lies in a file that may be missing, broken or of another version.

    Parameters
    ----------
    folder : str
        What it is an index of, as it was named.
    stamp : str
        What the index must say of itself, to be of use.
    say : callable
        Takes a word on what is done about the index, and why.
    """

    def __init__(self, folder: str, stamp: str, say: Say) -> None:
        self.say = say
        self._mended = False
        self._about = {"of": ascii(os.path.abspath(folder)), "stamp": stamp}  # noqa: PTH100 - pathlib costs the start
        try:
            self._path = index_path(folder)
        except Unreadable:
            self._path = ""
        super().__init__(folder, self._opened(folder))

    def _fill(self, connection: sqlite3.Connection) -> None:
        """Bring an index up to date: an empty one, or one of before."""
        raise NotImplementedError

    def _opened(self, folder: str) -> sqlite3.Connection:
        """Return the index from the cache, or a new one where there is none that will do."""
        self.folder = folder
        if not os.path.exists(self._path):  # noqa: PTH110 - as above
            return self._made()
        try:
            connection = layout.readable(self._path)
            if self._is_of_use(connection):
                return connection
            connection.close()
        except sqlite3.Error:
            pass
        self.say(BROKEN.format(folder))
        return self._made()

    def _is_of_use(self, connection: sqlite3.Connection) -> bool:
        """Return whether an index is of this folder, and made as this program makes them."""
        try:
            return dict(connection.execute("SELECT key, value FROM about")) == self._about
        except sqlite3.Error:
            connection.close()
            raise

    def _run(self, work: Callable[[sqlite3.Connection], list[Any]]) -> list[Any]:
        """Return what comes of some work with the index; a broken one is made anew, once."""
        try:
            return super()._run(work)
        except (sqlite3.Error, ValueError):  # ValueError: what should be JSON is none
            if self._mended:
                raise
        self._mended = True
        self.say(BROKEN.format(self.folder))
        self._connection.close()
        self._connection = self._made()
        return super()._run(work)

    def _renew(self) -> None:
        """Bring the index up to date; some systems replace no file that is open."""
        self._connection.close()
        self._connection = self._made(anew=False)

    def _made(self, *, anew: bool = True) -> sqlite3.Connection:
        """Return an index that is up to date, kept in the cache where that can be written."""
        from torquebook.catalogue.store.renewing import for_once, replaced  # noqa: PLC0415 - rarely

        found = replaced(self._path, self._fill, anew=anew)
        if found is None and not anew:
            found = replaced(self._path, self._fill, anew=True)
        if found is None:
            where = os.path.dirname(self._path) or "a cache folder"  # noqa: PTH120 - as above
            self.say(UNKEPT.format(self.folder, where))
            found = for_once(self._path, self._fill, anew=anew)
        return found
