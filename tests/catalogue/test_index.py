"""Checks of reading and laying over index rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.index import KEYS, MAKERS, join, name_of, read_index
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


def test_every_shelf_is_made() -> None:
    """Every row of the index on disk becomes a record."""
    rows = read_index()
    assert set(MAKERS) == set(KEYS) == set(rows)
    for shelf, make in MAKERS.items():
        assert rows[shelf], shelf
        assert all(map(make, rows[shelf]))


def test_names_are_unique() -> None:
    """No two rows of a shelf have one name, so none hides another."""
    rows = read_index()
    for shelf in KEYS:
        assert len(join(shelf, [rows[shelf], rows[shelf]])) == len(rows[shelf])
        assert len({name_of(shelf, row) for row in rows[shelf]}) == len(rows[shelf])


def test_upper_layer_counts() -> None:
    """Of two rows of one name the upper layer's counts; a class with all its ranges."""
    mine = [["M10", 8.6, "mine"]]
    ours = [["M8", 6.8, "ours"], ["M10", 8.5, "ours"]]
    assert join("drills", [mine, ours]) == [["M10", 8.6, "mine"], ["M8", 6.8, "ours"]]


@pytest.mark.parametrize("text", [None, "", "[]", "{}", '{"threads": []}', "\xff"])
def test_damaged_index(tmp_path: Path, text: str | None) -> None:
    """A missing or damaged index ends in one message that says what to do."""
    path = tmp_path / "index.json"
    if text is not None:
        path.write_bytes(text.encode("latin-1"))
    with pytest.raises(Unreadable, match="install torquebook again"):
        read_index(str(path))
