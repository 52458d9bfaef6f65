"""The register of a folder of records: which names stand in which of its files."""

from __future__ import annotations

import os
import re
from functools import cached_property
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.catalogue.contributed import contributed, contributed_text, shelved
from torquebook.catalogue.index import KEYS, name_of
from torquebook.catalogue.lookup import plain
from torquebook.catalogue.reading import vet_text
from torquebook.catalogue.rows import rows_of
from torquebook.catalogue.strict import load
from torquebook.catalogue.tidy import SHELVES
from torquebook.errors import NotUnderstood, TorquebookError

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator

    from torquebook.catalogue.index import Rows
    from torquebook.catalogue.strict import ValuePath
    from torquebook.records.base import Record

#: Folders whose records are asked for by name or id, and hold no rows that others are judged by.
WHOLE: Final = frozenset({"joints", "jobs", "reuse", "prevailing"})
#: The list that the rows of a shelf come from, and the key there that names one; a record of any
#: other shelf is one row.
_LISTS: Final = {
    "threads": ("threads", "size"),
    "classes": ("classes", "name"),
    "nuts": ("classes", "name"),
    "heads": ("sizes", "size"),
    "holes": ("holes", "d_mm"),
    "drills": ("drills", "size"),
}
_NAMELESS: Final = frozenset({"records", "tables", "head_names"})
_SAID: Final = frozenset({"kind", "name", "title"})
#: Begins with the end of the line before, which is found much faster than ``^`` is.
_LINE: Final = re.compile(
    r"""\n(kind|title|name):[ ]*(?:"((?:[^"\\]|\\.)*)"|'((?:[^']|'')*)'|([^\s#][^#\n]*))"""
)


class Name(NamedTuple):
    """A name in a record.

    Parameters
    ----------
    key : str
        What it is a name of, and the name without the differences that mean nothing.
    said : str
        The name as it is written.
    path : tuple
        Where it stands in the record.
    unique : bool
        Whether no two records of a folder may share it.
    """

    key: str
    said: str
    path: ValuePath
    unique: bool


class Register:
    """The names of all records of one folder, read when they are first asked for.

    Parameters
    ----------
    root : str
        The folder; empty for none.
    among : collection of str, optional
        The only files of records that are read whole, such as joints, that can share a name
        with those that are asked about; all of them if not given.
    """

    def __init__(self, root: str, among: Collection[str] | None = None) -> None:
        self.root = root
        self.among = among

    def again(self, record: Record, own: str) -> Iterator[tuple[Name, str]]:
        """Yield each name of a record that another one has too, with the id of the first such.

        Parameters
        ----------
        record : Record
        own : str
            The record's own id.
        """
        seen: set[str] = set()
        for name in names_of(record, own):
            others = (other for other in self.files.get(name.key, ()) if other != own)
            other = own if name.key in seen else next(others, None)
            if other:
                yield name, other
            seen.add(name.key)

    @property
    def rows(self) -> Rows:
        """The rows of all records that others are judged by; faulty ones have none."""
        return self._words[0]

    @cached_property
    def _words(self) -> tuple[Rows, dict[str, tuple[str, ...]]]:
        rows: Rows = {shelf: [] for shelf in KEYS}
        files: dict[str, tuple[str, ...]] = {}
        for path in self._below(sorted(set(SHELVES.values()) - WHOLE)):
            own = shelved(path, roots=(self.root,)).id
            try:
                record, _ = vet_text(contributed_text(path), path)
                found = rows_of(record, own) if record else {}
            except TorquebookError:
                continue
            for shelf, every in found.items():
                rows[shelf] += every
            for name in names_of(record, own) if record else ():
                files[name.key] = (*files.get(name.key, ()), own)
        return rows, files

    @cached_property
    def files(self) -> dict[str, tuple[str, ...]]:
        """By name, the ids of the records that have it."""
        files = dict(self._words[1])
        whole = self._below(sorted(WHOLE)) if self.among is None else self.among
        for path in whole:
            own = shelved(path, roots=(self.root,)).id
            for key in _quickly(path) if own.partition("/")[0] in WHOLE else ():
                files[key] = (*files.get(key, ()), own)
        return files

    def _below(self, shelves: Iterable[str]) -> Iterator[str]:
        """Yield the records in some folders of the root."""
        folders = (f"{self.root}/{shelf}" for shelf in shelves if self.root)
        return contributed(folder for folder in folders if os.path.isdir(folder))  # noqa: PTH112 - a hundred thousand are named in a row


def readable_rows(record: Record, own: str) -> Rows:
    """Return the rows of a record; none where a size in it is no designation."""
    try:
        return rows_of(record, own)
    except NotUnderstood:
        return {}


def names_of(record: Record, own: str) -> Iterator[Name]:
    """Yield the names in a record, and its title."""
    rows = readable_rows(record, own)
    for shelf, every in rows.items():
        for index, row in enumerate(every) if shelf not in _NAMELESS else ():
            listed = _LISTS.get(shelf)
            path: ValuePath = (listed[0], index, listed[1]) if listed else ("name",)
            cells = (row[column] for column in KEYS[shelf])
            said = " ".join(f"{cell:g} mm" if isinstance(cell, float) else cell for cell in cells)
            yield Name(f"{shelf}: {name_of(shelf, row)}", f'"{said}"', path, unique=True)
            for number, alias in enumerate(getattr(record, "aliases", ()) if not listed else ()):
                key = f"{shelf}: {(plain(alias),)}"
                yield Name(key, f'"{alias}"', ("aliases", number), unique=True)
    if not rows and (name := getattr(record, "name", "")):
        yield Name(f"{record.kind}: {plain(name)}", f'"{name}"', ("name",), unique=True)
    title = f'"{record.title}"'
    yield Name(f"{record.kind}, titled: {plain(record.title)}", title, ("title",), unique=False)


def said_in(text: str) -> dict[str, str]:
    """Return kind, title and name that stand at the top of a record's text, without reading it."""
    found = _LINE.findall(f"\n{text}")
    return {key: next(filter(None, texts), "").strip() for key, *texts in found}


def _quickly(path: str) -> Iterator[str]:
    """Yield what name and title of a record are kept by, without reading it whole if it can be."""
    try:
        text = contributed_text(path)
        said = said_in(text)
        if "\\" in text or not said.keys() >= _SAID:
            data = load(text, path)[0]
            held = data if isinstance(data, dict) else {}
            said = {key: held[key] for key in _SAID if isinstance(held.get(key), str)}
    except TorquebookError:
        return
    kind = said.get("kind", "")
    if "name" in said:
        yield f"{kind}: {plain(said['name'])}"
    if "title" in said:
        yield f"{kind}, titled: {plain(said['title'])}"
