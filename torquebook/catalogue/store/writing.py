"""Put what records say into an index, and take it out again: standard library only.

The build of the wheel uses this module too, where there are no models and no parser.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

from torquebook.catalogue.lookup import plain
from torquebook.catalogue.store.words import may_be_misspelt, words

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterable, Iterator

    from torquebook.catalogue.index import Rows
    from torquebook.catalogue.store.scanning import Mark, Scan

Card = dict[str, Any]
"""What is shown of one thing in the book: ``id``, ``kind``, ``name``, ``also`` (other names),
``title``, ``source`` in one line, and ``facts`` as the record has them."""


class NameOf(NamedTuple):
    """A name that stands for one thing on its shelf: the key, and how it is written."""

    shelf: str
    key: str
    written: str


class Wrong(NamedTuple):
    """A fault: the place behind the file's path (``:7:19`` or nothing), and the message."""

    place: str
    what: str
    right: str


class Content(NamedTuple):
    """All that an index keeps of one file."""

    rows: Rows
    names: tuple[NameOf, ...]
    cards: tuple[Card, ...]
    faults: tuple[Wrong, ...]
    digest: bytes


class Writer:
    """Writes into an index that nobody reads yet.

    Parameters
    ----------
    connection : sqlite3.Connection
    """

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self._spellings: set[str] = set()
        ((last,),) = connection.execute("SELECT ifnull(max(n), 0) FROM cards")
        self._last: int = last
        connection.execute("BEGIN")

    def put(self, path: str, name: str, mark: Mark, content: Content) -> None:
        """Put in what one file says; ``name`` is its id."""
        run = self._connection.execute
        sql = "INSERT INTO files (path, id, size, mtime, ctime, hash) VALUES (?, ?, ?, ?, ?, ?)"
        number = run(sql, (path, name, *mark, content.digest)).lastrowid
        many = self._connection.executemany
        many(
            "INSERT INTO rows VALUES (?, ?, ?)",
            [(number, shelf, _json(row)) for shelf, rows in content.rows.items() for row in rows],
        )
        many("INSERT INTO names VALUES (?, ?, ?, ?)", [(number, *one) for one in content.names])
        many(
            "INSERT INTO faults VALUES (?, ?, ?, ?, ?, 0)",
            [(number, path, *fault) for fault in content.faults],
        )
        for card in content.cards:
            self.card(card, number)

    def card(self, card: Card, file: int | None = None) -> None:
        """Put in one card."""
        self._last += 1
        about = self._last, file, card["id"], card["kind"], plain(card["name"]), _json(card)
        run = self._connection.execute
        run("INSERT INTO cards VALUES (?, ?, ?, ?, ?, ?)", about)
        names = {plain(name) for name in (card["name"], *card["also"])}
        self._connection.executemany(
            "INSERT INTO called VALUES (?, ?)", [(name, self._last) for name in sorted(names)]
        )
        cut = searched(card)
        self._spellings.update(word for part in cut for word in part if may_be_misspelt(word))
        sql = "INSERT INTO words (rowid, name, title, kind, body) VALUES (?, ?, ?, ?, ?)"
        run(sql, (self._last, *map(" ".join, cut)))

    def drop(self, path: str) -> None:
        """Take out what one file said."""
        run = self._connection.execute
        ((number,),) = run("SELECT n FROM files WHERE path = ?", (path,))
        for n, text in run("SELECT n, card FROM cards WHERE file = ?", (number,)).fetchall():
            sql = "INSERT INTO words (words, rowid, name, title, kind, body) VALUES ('delete', ?, ?, ?, ?, ?)"
            run(sql, (n, *map(" ".join, searched(json.loads(text)))))
            run("DELETE FROM called WHERE n = ?", (n,))
        for table in ("rows", "names", "faults", "cards"):
            run(f"DELETE FROM {table} WHERE file = ?", (number,))  # noqa: S608 - our own names
        run("DELETE FROM files WHERE n = ?", (number,))

    def touch(self, path: str, mark: Mark) -> None:
        """Note that a file has other times, but says the same."""
        sql = "UPDATE files SET size = ?, mtime = ?, ctime = ? WHERE path = ?"
        self._connection.execute(sql, (*mark, path))

    def finish(self, scan: Scan | None, **about: str) -> None:
        """Note the folders and what the index is of, find names given twice, and close it off."""
        run, many = self._connection.execute, self._connection.executemany
        run("DELETE FROM dirs")
        run("DELETE FROM faults WHERE second = 1")
        if scan:
            dirs = [(path, *times) for path, times in sorted(scan.dirs.items())]
            many("INSERT INTO dirs VALUES (?, ?, ?)", dirs)
        many("INSERT INTO faults VALUES (?, ?, '', ?, ?, 1)", list(_given_twice(self._connection)))
        many("INSERT OR REPLACE INTO about VALUES (?, ?)", sorted(about.items()))
        found = [(word,) for word in sorted(self._spellings)]
        many("INSERT OR IGNORE INTO spellings VALUES (?)", found)
        run("COMMIT")


#: Stands for the path of the folder in a message, since it may be reached by another path.
FOLDER = "\0"


def _given_twice(connection: sqlite3.Connection) -> Iterator[tuple[int, str, str, str]]:
    """Yield a fault for each name that a file further up in the folder has too."""
    sql = """
        SELECT names.shelf, names.name, names.written, file, path FROM names
        JOIN files ON files.n = names.file
        JOIN (SELECT name, shelf FROM names GROUP BY name, shelf HAVING count(*) > 1) AS twice
            ON twice.name = names.name AND twice.shelf = names.shelf
        ORDER BY files.id, names.rowid
    """
    before: dict[tuple[str, str], str] = {}
    for shelf, name, written, file, path in connection.execute(sql).fetchall():
        if (shelf, name) in before:
            what = f'the name "{written}" stands in {FOLDER}{before[shelf, name]} too'
            yield file, path, what, "give one of them another name"
        before[shelf, name] = path


def searched(card: Card) -> tuple[list[str], list[str], list[str], list[str]]:
    """Return the words that a card is found by: in its names, title, kind, and all else."""
    names = [word for name in (card["name"], *card["also"]) for word in words(name)]
    body = [word for text in (card["id"], *_texts(card["facts"])) for word in words(text)]
    return names, words(card["title"]), words(card["kind"]), body


def _texts(value: Any) -> Iterable[str]:
    """Yield every text in nested facts; a band's unit and a number are nothing to look for."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from _texts(item)
    elif isinstance(value, list):
        for item in value:
            yield from _texts(item)


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
