"""Our own book's layer: its cards, which only a new version of the program changes.

The wheel ships the index, made when the wheel is built. In a checkout, and where that file is
broken, one is made from ``cards.jsonl`` and kept in the cache, as for a user's folder.
"""

from __future__ import annotations

import json
import os.path
import sqlite3
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.store import layout
from torquebook.catalogue.store.kept import Kept
from torquebook.catalogue.store.marks import mark
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from torquebook.catalogue.store.kept import Say

_HERE: Final = os.path.dirname(os.path.dirname(__file__))  # noqa: PTH120 - pathlib costs the start
CARDS: Final = os.path.join(_HERE, "cards.jsonl")  # noqa: PTH118 - as above
SHIPPED: Final = os.path.join(_HERE, "book.sqlite")  # noqa: PTH118 - as above


class OwnLayer(Kept):
    """Our own book, answered from its index."""

    def __init__(self, say: Say, cards: str = CARDS, shipped: str = SHIPPED) -> None:
        self._shipped = shipped
        super().__init__(cards, repr(mark(cards)), say)

    def _opened(self, folder: str) -> sqlite3.Connection:
        """Return the index that the wheel brought, else one from the cache."""
        if os.path.exists(self._shipped):  # noqa: PTH110 - as above
            try:
                return layout.readable(self._shipped)
            except sqlite3.Error:
                pass
        return super()._opened(folder)

    def _fill(self, connection: sqlite3.Connection) -> None:
        """Put our cards into an empty index."""
        fill(connection, self.folder, **self._about)


def ship(path: str) -> None:
    """Write our own book's index for a wheel: one library of SQLite always writes the same."""
    connection = layout.new(path)
    try:
        fill(connection, CARDS)
        connection.execute("VACUUM")
    finally:
        connection.close()


def fill(connection: sqlite3.Connection, cards: str, **about: str) -> None:
    """Put the cards of a file into an empty index.

    Raises
    ------
    Unreadable
        If the installation lacks the file, or it is damaged.
    """
    from torquebook.catalogue.store.writing import Writer, filed  # noqa: PLC0415 - rarely

    writer = Writer(connection)
    try:
        with open(cards, encoding="utf-8") as lines:  # noqa: PTH123 - as above
            next(lines)  # says how the file is made
            for line in lines:
                writer.card(filed(json.loads(line)))
    except (OSError, ValueError, KeyError, StopIteration) as fault:
        right = "install torquebook again, or run python -m torquebook.catalogue.build"
        raise Unreadable(cards, "the book's cards are missing or damaged", right) from fault
    writer.finish(None, **about)
