"""One layer of the book: a folder of records, answered from its index."""

from __future__ import annotations

import json
import os.path
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.lookup import plain
from torquebook.catalogue.store.hits import Hit
from torquebook.catalogue.store.layout import FOLDER
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable, Sequence

    from torquebook.catalogue.store.writing import Card


#: The usual folders of records, as ``specs/`` has them.
TOPS: Final = (
    "classes", "friction", "heads", "holes", "jobs", "joints", "materials", "nuts", "patterns",
    "prevailing", "reuse", "tables", "threads", "wrenches",
)  # fmt: skip


class Layer:
    """An index that is open, and sure to be what its folder holds.

    Parameters
    ----------
    folder : str
        The folder, as it was named.
    connection : sqlite3.Connection
        The index.
    """

    def __init__(self, folder: str, connection: sqlite3.Connection) -> None:
        self.folder = folder
        self._connection = connection

    def _run(self, work: Callable[[sqlite3.Connection], list[Any]]) -> list[Any]:
        """Return what comes of some work with the index."""
        return work(self._connection)

    def ask(self, sql: str, *values: object) -> list[tuple[Any, ...]]:
        """Return the index's answer."""
        return self._run(lambda connection: connection.execute(sql, values).fetchall())

    def _documents(self, sql: str, *values: object) -> list[Any]:
        """Return what the index answers in JSON, one column a row."""
        return self._run(
            lambda connection: [json.loads(text) for (text,) in connection.execute(sql, values)]
        )

    def rows(self, shelf: str) -> list[list[Any]]:
        """Return a shelf's rows, by the ids of their records."""
        sql = (
            "SELECT row FROM rows JOIN files ON files.n = rows.file WHERE shelf = ? "
            "ORDER BY files.id, rows.rowid"
        )
        return self._documents(sql, shelf)

    def current(self, hits: Sequence[Hit]) -> bool:  # noqa: ARG002 - for layers that can change
        """Return whether cards are as their files are now; if not, ask again."""
        return True

    def faults(self) -> tuple[Unreadable, ...]:
        """Return what is wrong with the records, by their ids."""
        sql = (
            "SELECT faults.path, place, what, right FROM faults JOIN files "
            "ON files.n = faults.file ORDER BY files.id, faults.rowid"
        )
        start = os.path.join(self.folder, "")  # noqa: PTH118 - pathlib costs the start
        return tuple(
            Unreadable(f"{start}{path}{place}", what.replace(FOLDER, start), right)
            for path, place, what, right in self.ask(sql)
        )

    def matching(self, table: str, question: str, most: int) -> list[Hit]:
        """Return cards that answer a question of ``words.question``, at most so many.

        Parameters
        ----------
        table : str
            ``named`` to look in names and titles, ``words`` to look in all.
        question : str
        most : int
        """
        sql = (
            f"SELECT id, kind, cards.name FROM {table} JOIN cards "  # noqa: S608 - one of two
            f"ON cards.n = {table}.rowid WHERE {table} MATCH ? ORDER BY {table}.rowid LIMIT ?"
        )
        return [Hit(*row) for row in self.ask(sql, question, most)]

    def called(self, text: str) -> list[Hit]:
        """Return the card of an id, or else those of a name.

        The usual folder at the top of an id may be left out where another one is below it: a
        single word is rather a word to look for.
        """
        ids = [text, *(f"{top}/{text}" for top in TOPS if "/" in text)]
        marks = ", ".join("?" * len(ids))
        sql = f"SELECT id, kind, name FROM cards WHERE id IN ({marks})"  # noqa: S608 - only marks
        found = self.ask(sql, *ids)
        sql = (
            "SELECT id, kind, cards.name FROM called JOIN cards ON cards.n = called.n "
            "WHERE called.name = ? ORDER BY cards.n"
        )
        return [Hit(*row) for row in found or self.ask(sql, plain(text))]

    def covers(self, hit: Hit) -> bool:
        """Return whether a card of a layer below is covered by one of this layer."""
        sql = "SELECT 1 FROM cards WHERE id = ? UNION SELECT 1 FROM called JOIN cards "
        sql += "ON cards.n = called.n WHERE called.name = ? AND kind = ? LIMIT 1"
        return bool(self.ask(sql, hit.id, hit.name, hit.kind))

    def card(self, hit: Hit) -> Card:
        """Return a card."""
        card: Card
        (card,) = self._documents("SELECT card FROM cards WHERE id = ?", hit.id)
        return card

    def cards(self) -> list[Card]:
        """Return all cards, by the ids of their records."""
        return self._documents("SELECT card FROM cards ORDER BY n")

    def knows(self, word: str) -> bool:
        """Return whether any record has a word that begins so."""
        sql = "SELECT 1 FROM spellings WHERE word >= ? AND word < ? LIMIT 1"
        return bool(self.ask(sql, word, f"{word}\U0010ffff"))

    def spellings(self, least: int, most: int) -> list[str]:
        """Return the words of so many letters."""
        sql = "SELECT word FROM spellings WHERE length(word) BETWEEN ? AND ?"
        return [word for (word,) in self.ask(sql, least, most)]
