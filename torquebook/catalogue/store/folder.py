"""A user's folder, whose records may change at any time.

What is compared, so that 100,000 records need not be looked at at every start:

- always: the times of every folder in it (a new, removed or renamed record shows there), and
  the records with faults;
- up to ``MOST_COMPARED`` records: all of them, by size and times, and by content where only
  the time of the directory's entry differs;
- above that: those behind the rows and cards that an answer uses, before it uses them.

What can slip through, in a folder of more records than that: a record that was written over in
place (most editors put a new file there, which shows), and is not part of the answer. A word
that is new in it is not found until it is shown once, or anything is added to its folder or
taken out; and if it has a fault now, that is not said until then. What is shown is always as its
file is now.
"""

from __future__ import annotations

from os import fspath
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.store.kept import Kept
from torquebook.catalogue.store.layer import Layer
from torquebook.catalogue.store.marks import changed_dirs, changed_files
from torquebook.catalogue.store.stamp import STAMP
from torquebook.errors import first_of

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Sequence
    from os import PathLike

    from torquebook.catalogue.store.hits import Hit
    from torquebook.catalogue.store.kept import Say

MOST_COMPARED: Final = 1000
_FILES: Final = "SELECT path, size, mtime, ctime, hash FROM files"


def open_folders(
    folders: Sequence[str | PathLike[str]], say: Say | None = None
) -> list[FolderLayer]:
    """Open folders of the user's records.

    Parameters
    ----------
    folders : sequence of path
    say : callable, optional
        Takes a word where an index had to be made anew.

    Raises
    ------
    Unreadable
        If a folder is none; or if a record has a fault or the name of another one in its
        folder: the first such fault, and how many more there are.
    """
    return [FolderLayer(fspath(folder), say or (lambda _: None)) for folder in folders]


class FolderLayer(Kept):
    """A user's folder, answered from its index.

    Parameters
    ----------
    folder : str
    say : callable
        Takes a word on what is done about the index, and why.

    Raises
    ------
    Unreadable
        If the folder is none, or a record in it has a fault: at the first one.
    """

    def __init__(self, folder: str, say: Say) -> None:
        self._compared = False
        super().__init__(folder, STAMP, say)
        if self._stale():
            self._renew()
        self._refuse_faults(self._connection)

    def rows(self, shelf: str) -> list[list[Any]]:
        """Return a shelf's rows, as their files are now."""
        self._compare("n IN (SELECT file FROM rows WHERE shelf = ?)", shelf)
        return super().rows(shelf)

    def current(self, hits: Sequence[Hit]) -> bool:
        """Return whether cards are as their files are now; if not, the index is made anew."""
        marks = ", ".join("?" * len(hits))
        where = f"n IN (SELECT file FROM cards WHERE id IN ({marks}))"  # noqa: S608 - only marks
        return self._compare(where, *(hit.id for hit in hits))

    def _made(self, *, anew: bool = True) -> sqlite3.Connection:
        """Return an index that is up to date; one with faults is kept, but is no use."""
        self._news = ""
        found = super()._made(anew=anew)
        if self._news:
            self.say(self._news)
        self._refuse_faults(found)
        return found

    def _refuse_faults(self, connection: sqlite3.Connection) -> None:
        """Refuse a folder in which a record has a fault."""
        faults = Layer(self.folder, connection).faults()
        if faults:
            raise first_of(faults)

    def _compare(self, where: str, *values: object) -> bool:
        """Return whether the files behind an answer are as they were; else make all anew."""
        if self._compared:
            return True
        files = self.ask(f"{_FILES} WHERE {where}", *values)
        if not changed_files(self.folder, files):
            return True
        self._renew()
        return False

    def _stale(self) -> bool:
        """Return whether folders or files are not as they were, as far as is always compared."""
        if changed_dirs(self.folder, self.ask("SELECT path, mtime, ctime FROM dirs")):
            return True
        more = self.ask("SELECT 1 FROM files LIMIT 1 OFFSET ?", MOST_COMPARED)
        self._compared = not more
        where = "" if self._compared else " WHERE n IN (SELECT file FROM faults)"
        return changed_files(self.folder, self.ask(_FILES + where))

    def _fill(self, connection: sqlite3.Connection) -> None:
        """Read what changed, and say how many records that were."""
        from torquebook.catalogue.layers import content_of  # noqa: PLC0415 - brings the models
        from torquebook.catalogue.processors import MANY  # noqa: PLC0415 - as above
        from torquebook.catalogue.store.making import bring_up_to_date  # noqa: PLC0415 - as above
        from torquebook.catalogue.store.scanning import scan  # noqa: PLC0415 - as above

        before = connection.execute("SELECT 1 FROM files LIMIT 1").fetchall()
        found = scan(self.folder)
        self._compared = True
        if not before and len(found.files) >= MANY:
            self.say(f"reading {len(found.files)} records of {self.folder}, this once")
        done = bring_up_to_date(connection, self.folder, found, content_of, **self._about)
        if before and done:
            some = f"{done} record{'s' if done > 1 else ''} changed"
            self._news = f"{some} in {self.folder}; its index is made anew"
