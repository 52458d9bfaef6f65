"""Read a folder of records into rows: our own specs/, or a folder of the user's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.index import KEYS
from torquebook.catalogue.reading import read_record
from torquebook.catalogue.rows import rows_of
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.catalogue.index import Rows

#: Folders of specs/ that hold no records of the book.
OTHER_FOLDERS = frozenset({"plans"})


def record_files(folder: Path) -> Iterator[Path]:
    """Yield the YAML files below a folder, sorted by id."""
    for path in sorted(folder.rglob("*.yaml"), key=lambda path: record_id(path, folder)):
        if path.relative_to(folder).parts[0] not in OTHER_FOLDERS:
            yield path


def record_id(path: Path, folder: Path) -> str:
    """Return a record's id: its path in the folder, without the ending."""
    return path.relative_to(folder).with_suffix("").as_posix()


def read_folder(folder: Path) -> Rows:
    """Return the rows of all records below a folder, by shelf.

    Raises
    ------
    Unreadable
        If the folder is none, or at the first record with a fault.
    """
    if not folder.is_dir():
        raise Unreadable(str(folder), "no folder", "name a folder of records")
    rows: Rows = {shelf: [] for shelf in KEYS}
    for path in record_files(folder):
        record, name = read_record(path), record_id(path, folder)
        rows["records"].append([name, record.kind, record.title, record.source.line])
        for shelf, more in rows_of(record, name).items():
            rows[shelf] += more
    return rows
