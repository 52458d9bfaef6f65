"""How an index lies in its SQLite file, and how such a file is opened."""

from __future__ import annotations

import sqlite3
from typing import Final

#: What the file says of itself: it is ours, and laid out in this way.
APPLICATION: Final = 0x54524251
LAYOUT: Final = 1
#: Stands for the path of the folder in a message, since it may be reached by another path.
FOLDER: Final = "\0"

#: Words are cut before they come here, so that the tokenizer has only to part them at spaces;
#: what they stand in is not kept twice.
_OPTIONS: Final = """
    content = '', columnsize = 0, tokenize = "unicode61 remove_diacritics 0 tokenchars './-'"
"""
#: The rows of a shelf, the faults, and the cards that are looked up, each by its file. Names and
#: titles have an index of their own, so that a name is found without going through all texts.
SCHEMA: Final = f"""
PRAGMA page_size = 4096;
PRAGMA application_id = {APPLICATION};
PRAGMA user_version = {LAYOUT};
CREATE TABLE about (key TEXT PRIMARY KEY, value TEXT) WITHOUT ROWID;
CREATE TABLE dirs (path TEXT PRIMARY KEY, mtime INTEGER, ctime INTEGER) WITHOUT ROWID;
CREATE TABLE files (
    n INTEGER PRIMARY KEY, path TEXT UNIQUE, id TEXT,
    size INTEGER, mtime INTEGER, ctime INTEGER, hash BLOB
);
CREATE TABLE rows (file INTEGER, shelf TEXT, row TEXT);
CREATE INDEX rows_by_shelf ON rows (shelf);
CREATE INDEX rows_by_file ON rows (file);
CREATE TABLE names (file INTEGER, shelf TEXT, name TEXT, written TEXT);
CREATE INDEX names_by_name ON names (name, shelf);
CREATE INDEX names_by_file ON names (file);
CREATE TABLE faults (file INTEGER, path TEXT, place TEXT, what TEXT, right TEXT, second INTEGER);
CREATE TABLE cards (
    n INTEGER PRIMARY KEY, file INTEGER, id TEXT, kind TEXT, name TEXT, card TEXT
);
CREATE INDEX cards_by_id ON cards (id);
CREATE INDEX cards_by_file ON cards (file);
CREATE TABLE called (name TEXT, n INTEGER, PRIMARY KEY (name, n)) WITHOUT ROWID;
CREATE TABLE spellings (word TEXT PRIMARY KEY) WITHOUT ROWID;
CREATE VIRTUAL TABLE named USING fts5 (name, title, {_OPTIONS});
CREATE VIRTUAL TABLE words USING fts5 (body, {_OPTIONS});
"""


def new(path: str) -> sqlite3.Connection:
    """Return an empty index in a file that does not exist yet, or in memory (``:memory:``)."""
    connection = writable(path)
    connection.executescript(SCHEMA)
    return connection


def writable(path: str) -> sqlite3.Connection:
    """Open a file that nobody else knows yet: no journal, since a torn one is thrown away."""
    connection = sqlite3.connect(path, isolation_level=None)
    pragmas = "journal_mode = OFF", "synchronous = OFF", "cache_size = -200000"
    connection.executescript("".join(f"PRAGMA {one};" for one in pragmas))
    return connection


def readable(path: str) -> sqlite3.Connection:
    """Open an index to be read: it is only ever replaced as a whole, so nothing is locked.

    Raises
    ------
    sqlite3.Error
        If there is no such file, or it is no index of this layout.
    """
    quoted = path.replace("%", "%25").replace("?", "%3f").replace("#", "%23").replace("\\", "/")
    slash = "" if quoted.startswith("/") else "/"  # a drive's letter
    uri = f"file:{slash}{quoted}?mode=ro&immutable=1"
    connection = sqlite3.connect(uri, uri=True, isolation_level=None)
    try:
        ((ours,),) = connection.execute("PRAGMA application_id")
        ((layout,),) = connection.execute("PRAGMA user_version")
        if (ours, layout) != (APPLICATION, LAYOUT):
            raise sqlite3.DatabaseError("another layout")
    except sqlite3.Error:
        connection.close()
        raise
    return connection
