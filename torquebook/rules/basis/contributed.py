"""A contributed file: what is wrong with its shape, and, if nothing is, the record in it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

from torquebook.catalogue.faults import place_of
from torquebook.catalogue.strict import KEY
from torquebook.findings import Place
from torquebook.rules.basis.records import HeldCase
from torquebook.rules.engine import Remark

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.contributed import Shelved
    from torquebook.catalogue.faults import Fault
    from torquebook.catalogue.library import Held, Library
    from torquebook.catalogue.register import Register
    from torquebook.catalogue.strict import Positions, ValuePath
    from torquebook.records.base import Record


class FileCase:
    """A file with what its reader and its model refuse.

    Parameters
    ----------
    file : str
        Its name, as it stands in messages.
    faults : sequence of Fault
    data, positions : optional
        What it holds, and where, if it can be read.
    """

    joint = ""

    def __init__(
        self,
        file: str,
        faults: Sequence[Fault],
        data: Any = None,
        positions: Positions | None = None,
    ) -> None:
        self.file = file
        self.faults = faults
        self.data = data
        self.positions = positions or {}

    def place_of(self, column: str) -> Place:  # noqa: ARG002 - a file has no columns
        """Return where the file begins."""
        return Place(self.file, 1)

    def at(self, *path: str | int) -> Place:
        """Return the place of a value."""
        return place_of(path, self.positions, self.file)

    def texts(self) -> Iterator[tuple[ValuePath, str]]:
        """Yield the path of every text that no fault speaks of, and the text."""
        spoken_of = {fault.place for fault in self.faults}
        for path, text in _texts(self.data, ()):
            if self.at(*path) not in spoken_of:
                yield path, text

    def said(self, slug: str) -> Iterator[Remark]:
        """Yield what the reader says under the name of a rule."""
        for fault in self.faults:
            if fault.rule == slug:
                yield Remark(fault.what, place=fault.place, instead=fault.right)


class ContributedCase(HeldCase):
    """A record of any kind, with where it lies.

    Parameters
    ----------
    held : Held
    book : Book
    library : Library
    lies : Shelved
    data : mapping
        What its file holds, as plain values in the order of the file.
    register : Register
        The names of all records of its folder.
    """

    held: Held[Any]

    def __init__(
        self,
        held: Held[Any],
        book: Book,
        library: Library,
        lies: Shelved,
        data: Mapping[str, Any],
        register: Register,
    ) -> None:
        super().__init__(held, book, library)
        self.lies = lies
        self.data = data
        self.register = register

    @property
    def joint(self) -> str:
        """The record's name, or its title where its kind has none."""
        record = self.record
        return str(getattr(record, "name", record.title))

    @property
    def record(self) -> Record:
        """What the record holds."""
        record: Record = self.held.record
        return record

    @property
    def filed(self) -> str:
        """The path of the file inside its folder of records: what is above says nothing of it."""
        return self.lies.id

    @property
    def text(self) -> str:
        """The file as it stands."""
        return self.held.text

    def place_of(self, column: str) -> Place:  # noqa: ARG002 - as above
        """Return where the file begins, for what is wrong with all of it."""
        return Place(str(self.held.path), 1)

    def key(self, *path: str | int) -> Place:
        """Return the place of a key, where ``at`` gives that of its value."""
        return self.at(*path, KEY)

    def texts(self) -> tuple[tuple[ValuePath, str], ...]:
        """Return the path of every text in the record, and the text."""
        return self._every_text

    @cached_property
    def _every_text(self) -> tuple[tuple[ValuePath, str], ...]:
        return tuple(_texts(self.data, ()))


def _texts(value: Any, path: ValuePath) -> Iterator[tuple[ValuePath, str]]:
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, dict):
        for key, held in value.items():
            yield from _texts(held, (*path, key))
    elif isinstance(value, list):
        for index, held in enumerate(value):
            yield from _texts(held, (*path, index))
