"""Checks of where indexes lie."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from torquebook.catalogue.store.cache import cache_folder, fresh_path, index_path, put_in_place
from torquebook.errors import Unreadable


@pytest.mark.parametrize(
    ("platform", "environment", "expected"),
    [
        ("linux", {"XDG_CACHE_HOME": "/x/cache"}, "/x/cache/torquebook"),
        ("linux", {"XDG_CACHE_HOME": "not/absolute"}, "/home/me/.cache/torquebook"),
        ("linux", {}, "/home/me/.cache/torquebook"),
        ("darwin", {}, "/home/me/Library/Caches/torquebook"),
        ("win32", {"LOCALAPPDATA": "/local"}, "/local/torquebook/cache"),
        ("win32", {}, "/home/me/AppData/Local/torquebook/cache"),
    ],
)
def test_platforms_folder(
    platform: str, environment: dict[str, str], expected: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each platform has its folder for such files; a stated absolute one comes first."""
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in {"HOME": "/home/me", **environment}.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "platform", platform)
    assert cache_folder() == expected


def test_no_home(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever has no home is told what to set."""
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    monkeypatch.setattr(os.path, "expanduser", lambda path: path)
    with pytest.raises(Unreadable, match="no home folder; set XDG_CACHE_HOME"):
        cache_folder()


def test_one_folder_one_index(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A folder's index is the same by a relative path and by one that cannot be text."""
    monkeypatch.chdir(tmp_path)
    assert index_path("shop") == index_path(str(tmp_path / "shop")) == index_path("./shop/")
    names = {index_path(name) for name in ("shop", "shoq", "Shop", "sho\udcff", "")}
    assert len(names) == 5
    assert all(len(Path(name).stem) == 16 for name in names)


def test_forgotten_ones_are_swept_up(tmp_path: Path) -> None:
    """What a process that was killed left behind goes after an hour; others' work stays."""
    path = tmp_path / "deep" / "a.sqlite"
    first = Path(fresh_path(str(path)))
    for name in (first.name, "a.sqlite.1.2.new", "b.sqlite.1.2.new", "a.sqlite"):
        (path.parent / name).touch()
    old = "a.sqlite.1.2.new", "b.sqlite.1.2.new", "a.sqlite"
    for name in old:
        os.utime(path.parent / name, (1, 1))
    assert fresh_path(str(path)) != str(first)
    left = {"a.sqlite", "b.sqlite.1.2.new", first.name}
    assert {found.name for found in path.parent.iterdir()} == left
    put_in_place(str(first), str(path))
    assert {found.name for found in path.parent.iterdir()} == left - {first.name}
