"""The register of a folder of records: which names stand in which of its files."""

from __future__ import annotations

import re
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.catalogue.index import KEYS, name_of
from torquebook.catalogue.layers import record_id
from torquebook.catalogue.lookup import plain
from torquebook.catalogue.plaintext import decoded, read_bytes, read_text
from torquebook.catalogue.reading import vet_text
from torquebook.catalogue.rows import rows_of
from torquebook.errors import NotUnderstood, TorquebookError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.index import Rows
    from torquebook.catalogue.strict import ValuePath
    from torquebook.records.base import Record

#: Folders whose records are asked for by name or id, and hold no rows that others are judged by.
WHOLE: Final = ("joints", "jobs", "reuse", "prevailing")
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
_LINE: Final = re.compile(
    r"""^(kind|title|name):[ ]*(?:"((?:[^"\\]|\\.)*)"|'((?:[^']|'')*)'|([^\s#][^#\n]*))""",
    re.MULTILINE,
)


class Name(NamedTuple):
    """A name in a record.

    Parameters
    ----------
    key : tuple of str
        What it is a name of, and the name without the differences that mean nothing.
    said : str
        The name as it is written.
    path : tuple
        Where it stands in the record.
    unique : bool
        Whether no two records of a folder may share it.
    """

    key: tuple[str, str]
    said: str
    path: ValuePath
    unique: bool


class Register:
    """The names of all records of one folder, read when they are first asked for.

    Parameters
    ----------
    root : str
        The folder; empty for none.
    """

    def __init__(self, root: str) -> None:
        self.root = Path(root) if root else None

    def again(self, record: Record, own: str) -> Iterator[tuple[Name, str]]:
        """Yield each name of a record that another one has too, with the id of the first such.

        Parameters
        ----------
        record : Record
        own : str
            The record's own id.
        """
        seen: dict[tuple[str, str], ValuePath] = {}
        for name in names_of(record, own):
            if name.key in seen:
                yield name, own
            seen.setdefault(name.key, name.path)
            others = (other for other in self._files.get(name.key, ()) if other != own)
            if other := next(others, None):
                yield name, other

    @property
    def rows(self) -> Rows:
        """The rows of all records that others are judged by; faulty ones have none."""
        return self._words[0]

    @cached_property
    def _words(self) -> tuple[Rows, dict[tuple[str, str], list[str]]]:
        rows: Rows = {shelf: [] for shelf in KEYS}
        files: dict[tuple[str, str], list[str]] = {}
        folders = sorted(self.root.iterdir()) if self.root else []
        for folder in folders:
            if folder.name in (*WHOLE, "plans") or not folder.is_dir():
                continue
            for path in sorted(folder.rglob("*.yaml")):
                own = record_id(path, folder.parent)
                try:
                    record, _ = vet_text(read_text(path), str(path))
                    found = rows_of(record, own) if record else {}
                except TorquebookError:
                    continue
                for shelf, every in found.items():
                    rows[shelf] += every
                for name in names_of(record, own) if record else ():
                    files.setdefault(name.key, []).append(own)
        return rows, files

    @cached_property
    def _files(self) -> dict[tuple[str, str], list[str]]:
        """By name, the ids of the records that have it."""
        files = {key: list(ids) for key, ids in self._words[1].items()}
        if self.root is None:
            return files
        for shelf in WHOLE:
            for path in sorted((self.root / shelf).rglob("*.yaml")):
                for key in _quickly(path):
                    files.setdefault(key, []).append(record_id(path, self.root))
        return files


def names_of(record: Record, own: str) -> Iterator[Name]:
    """Yield the names in a record, and its title."""
    try:
        rows = rows_of(record, own)
    except NotUnderstood:  # a size that cannot be read is for another rule
        rows = {}
    for shelf, every in rows.items():
        for index, row in enumerate(every) if shelf not in _NAMELESS else ():
            listed = _LISTS.get(shelf)
            path: ValuePath = (listed[0], index, listed[1]) if listed else ("name",)
            cells = (row[column] for column in KEYS[shelf])
            said = " ".join(f"{cell:g} mm" if isinstance(cell, float) else cell for cell in cells)
            yield Name((shelf, repr(name_of(shelf, row))), f'"{said}"', path, unique=True)
    if not rows and (name := getattr(record, "name", "")):
        yield Name((record.kind, plain(name)), f'"{name}"', ("name",), unique=True)
    yield Name(
        (f"{record.kind}: title", plain(record.title)),
        f'"{record.title}"',
        ("title",),
        unique=False,
    )


def _quickly(path: Path) -> Iterator[tuple[str, str]]:
    """Yield name and title of a record that is read whole, without reading it whole."""
    try:
        text = decoded(read_bytes(str(path)), str(path))
    except TorquebookError:
        return
    said = {key: next(filter(None, texts), "").strip() for key, *texts in _LINE.findall(text)}
    kind = said.get("kind", "")
    if "name" in said:
        yield kind, plain(said["name"])
    if "title" in said:
        yield f"{kind}: title", plain(said["title"])
