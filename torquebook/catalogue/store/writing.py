"""Put what records say into an index, and take it out again: standard library only.

The build of the wheel uses this module too, where there are no models and no parser.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

from torquebook.catalogue.lookup import plain
from torquebook.catalogue.store.layout import FOLDER
from torquebook.catalogue.store.words import kind_word, may_be_misspelt, words

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Iterable, Iterator

    from torquebook.catalogue.store.marks import Mark
    from torquebook.catalogue.store.scanning import Scan

#: Facts that are made of others.
_SAID_TWICE = frozenset({"stages"})
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


class Filed(NamedTuple):
    """A card as an index files it.

    Parameters
    ----------
    id, kind, name : str
        The name without the differences that mean nothing.
    text : str
        The card in JSON.
    called : tuple of str
        All its names, as ``name``.
    cut : tuple of str
        The words in its names, in its title, and in all of it.
    """

    id: str
    kind: str
    name: str
    text: str
    called: tuple[str, ...]
    cut: tuple[str, ...]


class Content(NamedTuple):
    """All that an index keeps of one file; the rows are a shelf's name and JSON."""

    rows: tuple[tuple[str, str], ...]
    names: tuple[NameOf, ...]
    cards: tuple[Filed, ...]
    faults: tuple[Wrong, ...]
    digest: bytes


def filed(card: Card) -> Filed:
    """Return a card as an index files it."""
    called = {plain(name) for name in (card["name"], *card["also"])}
    facts = {key: card["facts"][key] for key in card["facts"] if key not in _SAID_TWICE}
    names = " ".join(words("\n".join((card["name"], *card["also"]))))
    title = " ".join([kind_word(card["kind"]), *words(card["title"])])
    body = words("\n".join((card["kind"], card["id"], *_texts(facts))))
    cut = names, title, " ".join([names, title, *body])
    about = card["id"], card["kind"], plain(card["name"]), as_json(card)
    return Filed(*about, tuple(sorted(called)), cut)


def as_json(value: Any) -> str:
    """Return a row or a card as an index holds it."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


class Writer:
    """Writes into an index that nobody reads yet.

    Parameters
    ----------
    connection : sqlite3.Connection
    """

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self._met: set[str] = set()
        ((last,),) = connection.execute("SELECT ifnull(max(n), 0) FROM cards")
        self._last: int = last
        connection.execute("BEGIN")

    def put(self, path: str, name: str, mark: Mark, content: Content) -> None:
        """Put in what one file says; ``name`` is its id."""
        run = self._connection.execute
        sql = "INSERT INTO files (path, id, size, mtime, ctime, hash) VALUES (?, ?, ?, ?, ?, ?)"
        number = run(sql, (path, name, *mark, content.digest)).lastrowid
        many = self._connection.executemany
        many("INSERT INTO rows VALUES (?, ?, ?)", [(number, *row) for row in content.rows])
        many("INSERT INTO names VALUES (?, ?, ?, ?)", [(number, *one) for one in content.names])
        faults = [(number, path, *fault) for fault in content.faults]
        many("INSERT INTO faults VALUES (?, ?, ?, ?, ?, 0)", faults)
        for card in content.cards:
            self.card(card, number)

    def card(self, card: Filed, file: int | None = None) -> None:
        """Put in one card."""
        self._last += 1
        run = self._connection.execute
        run("INSERT INTO cards VALUES (?, ?, ?, ?, ?, ?)", (self._last, file, *card[:4]))
        called = [(name, self._last) for name in card.called]
        self._connection.executemany("INSERT INTO called VALUES (?, ?)", called)
        name, title, body = card.cut
        self._met.update(body.split())
        run("INSERT INTO named (rowid, name, title) VALUES (?, ?, ?)", (self._last, name, title))
        run("INSERT INTO words (rowid, body) VALUES (?, ?)", (self._last, body))

    def drop(self, path: str) -> None:
        """Take out what one file said."""
        run = self._connection.execute
        ((number,),) = run("SELECT n FROM files WHERE path = ?", (path,))
        for n, text in run("SELECT n, card FROM cards WHERE file = ?", (number,)).fetchall():
            name, title, body = filed(json.loads(text)).cut
            sql = "INSERT INTO named (named, rowid, name, title) VALUES ('delete', ?, ?, ?)"
            run(sql, (n, name, title))
            run("INSERT INTO words (words, rowid, body) VALUES ('delete', ?, ?)", (n, body))
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
        found = [(word,) for word in sorted(filter(may_be_misspelt, self._met))]
        many("INSERT OR IGNORE INTO spellings VALUES (?)", found)
        run("COMMIT")


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
