"""Which sources a user prefers, by the records in folders of his own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.library import hold
from torquebook.records.reuse import Preference

if TYPE_CHECKING:
    from collections.abc import Sequence

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
    """
    found = list(told)
    for folder in library.folders:
        for entry in book.records():
            path = folder / f"{entry.id}.yaml"
            if entry.kind == _KIND and path.is_file():
                found += hold(path, Preference, entry.id).record.prefer
    return tuple(dict.fromkeys(found))
