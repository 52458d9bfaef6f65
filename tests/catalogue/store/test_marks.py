"""Checks of comparing files with what they were."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.store.marks import (
    changed_dirs,
    changed_files,
    digest_of,
    holds_still,
    mark,
)

if TYPE_CHECKING:
    from pathlib import Path


def test_files(tmp_path: Path) -> None:
    """Another size, another time, another content or no file: a change; a touched entry: none."""
    (tmp_path / "a").write_text("one")
    now = mark(str(tmp_path / "a"))
    assert now is not None
    digest = digest_of(b"one")
    folder = str(tmp_path)
    assert not changed_files(folder, [("a", *now, digest)])
    assert not changed_files(folder, [("a", now.size, now.mtime, 1, digest)])
    assert changed_files(folder, [("a", now.size, now.mtime, 1, digest_of(b"two"))])
    assert changed_files(folder, [("a", now.size, 1, now.ctime, digest)])
    assert changed_files(folder, [("a", 9, now.mtime, now.ctime, digest)])
    assert changed_files(folder, [("b", *now, digest)])
    assert mark(str(tmp_path / "\0")) is None
    assert holds_still(str(tmp_path / "a"), digest)
    assert not holds_still(str(tmp_path), digest)


def test_dirs(tmp_path: Path) -> None:
    """A folder with another time, or that is gone, is a change."""
    (tmp_path / "a").mkdir()
    now = mark(str(tmp_path / "a"))
    assert now is not None
    assert not changed_dirs(str(tmp_path), [("a", now.mtime, now.ctime)])
    assert changed_dirs(str(tmp_path), [("a", now.mtime, 1)])
    assert changed_dirs(str(tmp_path), [("a", 1, now.ctime)])
    assert changed_dirs(str(tmp_path), [("b", now.mtime, now.ctime)])
