"""Checks of reading a folder of records."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.layers import read_folder, record_files, record_id
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


def test_folder(tmp_path: Path, classes_text: str) -> None:
    """All records below a folder become rows, in the order of their ids; plans are left out."""
    for name in ("b/two.yaml", "a.1/one.yaml", "plans/list.yaml", "a.1/notes.txt"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(classes_text, encoding="utf-8")
    ids = [record_id(path, tmp_path) for path in record_files(tmp_path)]
    assert ids == ["a.1/one", "b/two"]
    rows = read_folder(tmp_path)
    assert [row[0] for row in rows["records"]] == ids
    assert [row[0] for row in rows["classes"]] == ["8.8", "10.9", "8.8", "10.9"]
    assert rows["threads"] == []


def test_folder_with_a_fault(tmp_path: Path) -> None:
    """A record with a fault ends the reading, with file, line and column."""
    (tmp_path / "x.yaml").write_text("kind: frikton\n", encoding="utf-8")
    with pytest.raises(Unreadable, match=r"x\.yaml:1:7: .frikton. is no kind of record"):
        read_folder(tmp_path)
