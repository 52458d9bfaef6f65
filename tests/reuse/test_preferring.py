"""Which sources a user prefers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.errors import Unreadable
from torquebook.reuse.preferring import preferred

if TYPE_CHECKING:
    from pathlib import Path


def prefer(folder: Path, *sources: str) -> None:
    """Write a preference into a folder."""
    (folder / "shop").mkdir(parents=True)
    shown = ", ".join(f'"{source}"' for source in sources)
    (folder / "shop" / "mine.yaml").write_text(
        f'kind: preference\ntitle: "ours"\nname: "ours"\nprefer: [{shown}]\n'
        'source: {kind: measured, title: "the shop", provenance: "agreed"}\n',
        encoding="utf-8",
    )


def test_order_of_preferences(tmp_path: Path) -> None:
    """The command line comes first, then the folders from the top; each source once."""
    folders = [tmp_path / "upper", tmp_path / "lower"]
    prefer(folders[0], "RCSC", "FAA AC 43.13-1B")
    prefer(folders[1], "TB 43-0218", "RCSC")
    found = preferred(Library(folders), Book.open(folders), ["ISO 2320"])
    assert found == ("ISO 2320", "RCSC", "FAA AC 43.13-1B", "TB 43-0218")


def test_nothing_preferred() -> None:
    """Our own book prefers nothing."""
    assert preferred(Library(), Book.open()) == ()


def test_nobodys_source(tmp_path: Path) -> None:
    """A source that comes near to none is told how a source is written."""
    prefer(tmp_path, "zzz")
    with pytest.raises(Unreadable, match="a title as answers print it"):
        preferred(Library([tmp_path]), Book.open([tmp_path]))
