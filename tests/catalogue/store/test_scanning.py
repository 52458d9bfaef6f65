"""Checks of what is seen in a folder."""

from __future__ import annotations

import os
import time
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.store import scanning
from torquebook.catalogue.store.scanning import scan
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


def test_what_counts(tmp_path: Path) -> None:
    """YAML files count at any depth; plans, other files, links to folders do not."""
    for name in ("a.yaml", "b/c.yaml", "b/plans/d.yaml", "plans/e.yaml", "b/f.txt"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name)
    (tmp_path / "loop.yaml").symlink_to(tmp_path)
    (tmp_path / "gone.yaml").symlink_to(tmp_path / "nowhere")
    (tmp_path / "link.yaml").symlink_to(tmp_path / "a.yaml")
    found = scan(str(tmp_path))
    names = {"a.yaml", "b/c.yaml", "b/plans/d.yaml", "gone.yaml", "link.yaml"}
    assert set(found.files) == names
    assert set(found.dirs) == {"", "b", "b/plans"}
    assert found.files["gone.yaml"].mtime == 0
    assert found.files["link.yaml"] == found.files["a.yaml"]


def test_waits_for_the_clock(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is written right now is looked at again when its time can no longer stay the same."""
    waits: list[float] = []
    monkeypatch.setattr(time, "sleep", waits.append)
    (tmp_path / "a.yaml").write_text("x")
    coarse = time.time_ns() // 1_000_000_000 * 1_000_000_000
    os.utime(tmp_path / "a.yaml", ns=(coarse, coarse))
    scan(str(tmp_path))
    assert len(waits) == 3  # the time stood still for this test
    assert all(0.9 < wait <= 2 for wait in waits)
    future = time.time_ns() + 10**13
    os.utime(tmp_path / "a.yaml", ns=(future, future))
    waits.clear()
    scan(str(tmp_path))
    assert all(wait < 0.02 for wait in waits)  # the folder is young, the file is no trouble


def test_a_folder_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that may not be looked into is said, not passed over."""

    def refuse(path: str) -> None:
        raise PermissionError(13, "Permission denied", path)

    monkeypatch.setattr(scanning.os, "scandir", refuse)
    with pytest.raises(Unreadable, match=r"cannot be read \(Permission denied\)"):
        scan(str(tmp_path))


def test_a_name_that_is_no_text(tmp_path: Path) -> None:
    """A file whose name is no UTF-8 is refused with its name as bytes; accents are none of it."""
    (tmp_path / "öl.yaml").write_text("x")
    assert set(scan(str(tmp_path)).files) == {"öl.yaml"}
    try:
        (tmp_path / os.fsdecode(b"\xff.yaml")).write_text("x")
    except OSError:
        pytest.skip("this file system takes no such name")
    with pytest.raises(Unreadable, match=r"/\\udcff\.yaml: its name is no UTF-8"):
        scan(str(tmp_path))
