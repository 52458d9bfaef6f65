"""The library: whole records by folder and name, for commands that may take their time.

The book holds rows of an index; joints, jobs, reuse rules and patterns are read through their
models when they are asked for, from the user's folders first and then from ours.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from torquebook.catalogue.lookup import near, plain
from torquebook.catalogue.places import record_id, specs_root
from torquebook.catalogue.plaintext import read_text
from torquebook.catalogue.reading import vet_text
from torquebook.catalogue.strict import load
from torquebook.errors import NotUnderstood, Unreadable, first_of
from torquebook.records import KINDS
from torquebook.records.base import NamedRecord

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.strict import Positions

_SHOWN = 6  # names that a message lists where none comes near
_ID = re.compile(r"\w[\w.-]*(?:/\w[\w.-]*)*")
R = TypeVar("R", bound=NamedRecord)


@dataclass(frozen=True)
class Held(Generic[R]):
    """A record with its file.

    Parameters
    ----------
    id : str
        Its path in its folder of records, without the ending.
    path : Path
    record : Record
    text : str
        The file as it stands.
    read : mapping or None
        The line and column of every value, where they are kept; they weigh more than the record.
    """

    id: str
    path: Path
    record: R
    text: str
    read: Positions | None = None

    def positions(self) -> Positions:
        """Return the line and column of every value in the file."""
        return self.read or load(self.text, str(self.path))[1]


def hold(path: Path, model: type[R], name: str) -> Held[R]:
    """Read one record of a kind from a file.

    Raises
    ------
    Unreadable
        At its first fault, or if the record is of another kind.
    """
    return taken(read_text(path), path, model, name)


def taken(text: str, path: Path, model: type[R], name: str) -> Held[R]:
    """Take one record of a kind from a file's text, as ``hold``."""
    record, faults = vet_text(text, str(path))
    if record is None:
        raise first_of([fault.raised for fault in faults])
    if not isinstance(record, model):
        wanted = next(kind for kind, known in KINDS.items() if known is model)
        what = f'a record of the kind "{record.kind}"'
        raise Unreadable(
            f"{path}:{load(text, str(path))[1]['kind',][0]}:1", what, f"name a {wanted}"
        )
    return Held(name, path, record, text)


def _lies_in(folder: Path, path: Path) -> bool:
    """Return whether no folder between the two is a link: nobody looks through those."""
    return path.parent.resolve() == folder.resolve() / path.parent.relative_to(folder)


class Library:
    """Folders of records, the topmost first and ours last.

    Parameters
    ----------
    folders : sequence of Path
        The user's own.
    lenient : bool
        Whether records with faults are left out, where somebody else reports them.
    """

    def __init__(self, folders: Sequence[Path] = (), *, lenient: bool = False) -> None:
        self.folders = (*folders, specs_root())
        self.lenient = lenient
        self._read: dict[tuple[str, type[Any]], tuple[Held[Any], ...]] = {}
        self._ids: dict[str, tuple[str, ...]] = {}

    def all(self, shelf: str, model: type[R]) -> tuple[Held[R], ...]:
        """Return every record of a folder such as ``reuse``, by id; the upper layer's counts.

        Raises
        ------
        Unreadable
            At the first fault in any of them.
        """
        if (shelf, model) not in self._read:
            found: dict[str, Held[Any]] = {}
            for folder in self.folders:
                for path in sorted((folder / shelf).rglob("*.yaml")):
                    name = record_id(path, folder)
                    if "/." in name:
                        continue  # what is hidden is no record
                    if name not in found and (held := self._held(path, model, name)):
                        found[name] = held
            self._read[shelf, model] = tuple(found[name] for name in sorted(found))
        return self._read[shelf, model]

    def _held(self, path: Path, model: type[R], name: str) -> Held[R] | None:
        try:
            return hold(path, model, name)
        except Unreadable:
            if self.lenient:
                return None
            raise

    def _of_id(self, shelf: str, model: type[R], text: str) -> Held[R] | None:
        """Return the record of an id, with or without its shelf, without reading the others."""
        if not _ID.fullmatch(text):
            return None
        for folder in self.folders:
            for name in (text, f"{shelf}/{text}"):
                path = folder / f"{name}.yaml"
                if name.startswith(f"{shelf}/") and path.is_file() and _lies_in(folder, path):
                    return self._held(path, model, name)
        return None

    def _means_id(self, shelf: str, text: str) -> bool:
        """Whether a text can only be an id: it begins with its shelf, or with a folder there."""
        first, slash, _ = text.partition("/")
        if not slash or not _ID.fullmatch(text):
            return False
        return first == shelf or any((folder / shelf / first).is_dir() for folder in self.folders)

    def _every_id(self, shelf: str) -> tuple[str, ...]:
        """Return the ids on a shelf, sorted, without reading a record."""
        if shelf not in self._ids:
            found: set[str] = set()
            for folder in self.folders:
                files = (folder / shelf).rglob("*.yaml")
                found |= {record_id(path, folder) for path in files}
            self._ids[shelf] = tuple(sorted(found))
        return self._ids[shelf]

    def one(self, shelf: str, model: type[R], text: str) -> Held[R]:
        """Return the record that somebody typed: its file, or what :meth:`named` takes.

        Raises
        ------
        NotUnderstood
            If there is none; with those that come near.
        Unreadable
            If the file, or a record of that shelf, has a fault.
        """
        if text.endswith((".yaml", ".yml")):
            path = Path(text)
            return hold(path, model, path.stem)
        return self.named(shelf, model, text)

    def named(self, shelf: str, model: type[R], text: str) -> Held[R]:
        """Return a record by its id, with or without its shelf, or by its name.

        The errors are those of :meth:`one`; what another record names is never opened as a path.
        Of an id that leads nowhere, no record is read.
        """
        if found := self._of_id(shelf, model, text):
            return found
        names = self._every_id(shelf)
        if not self._means_id(shelf, text):
            every = self.all(shelf, model)
            wanted = plain(text)
            for held in every:
                if plain(held.record.name) == wanted:
                    return held
            names += tuple(held.record.name for held in every)
        raise NotUnderstood(
            text, f"no record of that name in {shelf}/", near(text, names, names[:_SHOWN])
        )
