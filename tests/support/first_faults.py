"""Read records one by one, or a folder of them, and stop at the first fault."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook.catalogue.index import KEYS
from torquebook.catalogue.layers import vetted
from torquebook.catalogue.places import record_id
from torquebook.catalogue.plaintext import read_text
from torquebook.catalogue.reading import vet_text
from torquebook.catalogue.store.scanning import scan
from torquebook.catalogue.strict import load
from torquebook.errors import first_of

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.catalogue.index import Rows
    from torquebook.catalogue.strict import Positions
    from torquebook.errors import Unreadable
    from torquebook.records.base import Record


def load_file(path: Path) -> tuple[Any, Positions]:
    """Return the value in a YAML file, and the place of everything in it."""
    return load(read_text(path), str(path))


def read_record(path: Path) -> Record:
    """Return one record; raises ``Unreadable`` at its first fault."""
    record, faults = vet_text(read_text(path), str(path))
    if record is None:
        raise first_of([fault.raised for fault in faults])
    return record


def record_files(folder: Path) -> list[Path]:
    """Return the YAML files below a folder, sorted by id."""
    found = [folder / name for name in scan(str(folder)).files]
    return sorted(found, key=lambda path: record_id(path, folder))


def vet_folder(folder: Path) -> tuple[Rows, tuple[Unreadable, ...]]:
    """Return the rows of the sound records below a folder, and the faults of the others."""
    layer = vetted(folder)
    return {shelf: layer.rows(shelf) for shelf in KEYS}, layer.faults()


def read_folder(folder: Path) -> Rows:
    """Return the rows of all records below a folder; raises ``Unreadable`` at the first fault."""
    rows, faults = vet_folder(folder)
    if faults:
        raise first_of(faults)
    return rows
