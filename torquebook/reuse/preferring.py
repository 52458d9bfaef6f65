"""Which sources a user prefers, by the records in folders of his own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.library import hold
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.records.reuse import Preference, ReuseRule
from torquebook.reuse.judging import SHELF, known

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Library

_KIND = "preference"


def preferred(library: Library, book: Book, told: Sequence[str] = ()) -> tuple[str, ...]:
    """Return the sources that count first: those of the command line, then those of the folders.

    Parameters
    ----------
    library : Library
        With the same folders as the book.
    book : Book
    told : sequence of str
        From the command line.

    Raises
    ------
    Unreadable
        If a record has a fault, or prefers a source that no rule has.
    """
    found = list(told)
    for folder in library.folders:
        for entry in book.records():
            path = folder / f"{entry.id}.yaml"
            if entry.kind == _KIND and path.is_file():
                found += _sources(path, entry.id, library)
    return tuple(dict.fromkeys(found))


def _sources(path: Path, name: str, library: Library) -> list[str]:
    """Return what a record prefers."""
    sources = hold(path, Preference, name).record.prefer
    for source in sources:
        try:
            known(source, library.all(SHELF, ReuseRule))
        except NotUnderstood as fault:
            right = f"write {' or '.join(fault.readings or ('a title as answers print it',))}"
            raise Unreadable(str(path), f'"{source}": {fault.what}', right) from fault
    return sources
