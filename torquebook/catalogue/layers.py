"""Read a folder of records into rows: our own specs/, or a folder of the user's."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.index import KEYS, name_of
from torquebook.catalogue.lookup import plain
from torquebook.catalogue.reading import first_of, vet_file
from torquebook.catalogue.rows import rows_of
from torquebook.errors import NotUnderstood, Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.catalogue.index import Rows

#: Folders of specs/ that hold no records of the book.
OTHER_FOLDERS = frozenset({"plans"})
#: Shelves whose records have other names too, in the second column.
_WITH_ALIASES: Final = frozenset({"frictions", "materials", "wrenches"})


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
        If the folder is none; or if a record has a fault or the name of another one: the
        first such fault, and how many more there are.
    """
    rows, faults = vet_folder(folder)
    if faults:
        raise first_of(faults)
    return rows


def vet_folder(folder: Path) -> tuple[Rows, tuple[Unreadable, ...]]:
    """Read all records below a folder, and find all that is wrong with them at once.

    Returns
    -------
    tuple
        By shelf the rows of the sound records; and the faults of the others, in the order
        of their ids.

    Raises
    ------
    Unreadable
        If the folder is none.
    """
    if not folder.is_dir():
        raise Unreadable(str(folder), "no folder", "name a folder of records")
    rows: Rows = {shelf: [] for shelf in KEYS}
    seen: dict[tuple[Any, ...], Path] = {}
    faults: list[Unreadable] = []
    for path in record_files(folder):
        try:
            found, wrong = _vet(path, record_id(path, folder))
        except Unreadable as fault:
            found, wrong = {}, [fault]
        faults += wrong or _second(found, path, seen)
        for shelf, more in found.items():
            rows[shelf] += more
    return rows, tuple(faults)


def _vet(path: Path, name: str) -> tuple[Rows, list[Unreadable]]:
    """Return the rows of one record, its own entry with them; or its faults."""
    record, faults = vet_file(path)
    if record is None:
        return {}, [fault.raised for fault in faults]
    try:
        found = rows_of(record, name)
    except NotUnderstood as fault:
        right = " or ".join(fault.readings) or "M10x1.25 or 3/8-16"
        return {}, [Unreadable(str(path), f'"{fault.text}": {fault.what}', f"write {right}")]
    return {"records": [[name, record.kind, record.title, record.source.line]], **found}, []


def _second(found: Rows, path: Path, seen: dict[tuple[Any, ...], Path]) -> list[Unreadable]:
    """Return a fault for each name that another record of the folder has; note the others."""
    faults = []
    for shelf, rows in found.items():
        for row in rows:
            key = [row[column] for column in KEYS[shelf]]
            words = [cell for cell in key if isinstance(cell, str)]
            names = {name_of(shelf, row): " ".join(words) or f"{key[0]:g} mm"}
            for alias in row[1] if shelf in _WITH_ALIASES else ():
                names.setdefault((plain(alias),), alias)
            for name, written in names.items():
                if (shelf, *name) in seen:
                    what = f'the name "{written}" stands in {seen[shelf, *name]} too'
                    faults.append(Unreadable(str(path), what, "give one of them another name"))
                seen[shelf, *name] = path
    return faults
