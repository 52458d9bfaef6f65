"""Read a folder of records into rows and cards: our own specs/, or a folder of the user's."""

from __future__ import annotations

import os.path
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.cards import cards_of
from torquebook.catalogue.index import KEYS, name_of
from torquebook.catalogue.lookup import plain
from torquebook.catalogue.plaintext import decoded, read_bytes
from torquebook.catalogue.reading import vet_text
from torquebook.catalogue.rows import rows_of
from torquebook.catalogue.store.layer import Layer
from torquebook.catalogue.store.making import in_memory
from torquebook.catalogue.store.marks import digest_of
from torquebook.catalogue.store.writing import Content, NameOf, Wrong, as_json, filed
from torquebook.errors import NotUnderstood, Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.catalogue.index import Rows
    from torquebook.records.base import Record

#: Shelves whose records have other names too, in the second column.
_WITH_ALIASES: Final = frozenset({"frictions", "materials", "wrenches"})


def vetted(folder: Path) -> Layer:
    """Return an index of a folder that is kept nowhere, with all its rows, cards and faults.

    Raises
    ------
    Unreadable
        If the folder is none.
    """
    return Layer(str(folder), in_memory(str(folder), content_of))


def content_of(folder: str, name: str) -> Content:
    """Return what an index keeps of one record.

    Parameters
    ----------
    folder : str
        The folder of records.
    name : str
        The file's path in it, with ``/``.
    """
    path, own = os.path.join(folder, name), name.rpartition(".")[0]  # noqa: PTH118 - as read_bytes
    digest = b""
    try:
        raw = read_bytes(path)
        digest = digest_of(raw)
        record, faults = vet_text(decoded(raw, path), path)
        if record is None:
            return _faulty([fault.raised for fault in faults], path, digest)
        rows = {"records": [[own, record.kind, record.title, record.source.line]]}
        rows.update(_rows(record, own, path))
    except Unreadable as fault:
        return _faulty([fault], path, digest)
    said = tuple((shelf, as_json(row)) for shelf, every in rows.items() for row in every)
    cards = tuple(map(filed, cards_of(record, own)))
    return Content(said, tuple(_names(rows)), cards, (), digest)


def _rows(record: Record, own: str, path: str) -> Rows:
    """Return the rows of a record; a size in it that is no thread is its fault."""
    try:
        return rows_of(record, own)
    except NotUnderstood as fault:
        right = " or ".join(fault.readings) or "M10x1.25 or 3/8-16"
        raise Unreadable(path, f'"{fault.text}": {fault.what}', f"write {right}") from fault


def _faulty(faults: list[Unreadable], path: str, digest: bytes) -> Content:
    """Return the content of a record with faults: nothing else."""
    wrong = [Wrong(fault.where.removeprefix(path), fault.what, fault.right) for fault in faults]
    return Content((), (), (), tuple(wrong), digest)


def _names(rows: Rows) -> Iterator[NameOf]:
    """Yield each name that stands for one thing in a folder, as its key and as it is written."""
    for shelf, every in rows.items():
        for row in every:
            key: list[Any] = [row[column] for column in KEYS[shelf]]
            words = [cell for cell in key if isinstance(cell, str)]
            names = {name_of(shelf, row): " ".join(words) or f"{key[0]:g} mm"}
            for alias in row[1] if shelf in _WITH_ALIASES else ():
                names.setdefault((plain(alias),), alias)
            for name, written in names.items():
                yield NameOf(shelf, repr(name), written)
