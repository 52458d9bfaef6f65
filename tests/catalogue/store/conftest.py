"""A user's folder of records, and the words that are said of its index."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import pytest

from torquebook.catalogue.store.folder import FolderLayer

if TYPE_CHECKING:
    from pathlib import Path

FRICTION = """\
kind: friction
title: "Friction, {name}"
name: "{name}"
mu_thread: {{low: 0.1, nominal: {nominal}, high: 0.3}}
mu_head: {{low: 0.1, nominal: 0.2, high: 0.3}}
lubricated: false
source: {{kind: invented, title: "test", provenance: "invented"}}
"""


class Shop(NamedTuple):
    """A folder of records, its index's cache, and what was said."""

    folder: Path
    cache: Path
    said: list[str]

    def write(self, name: str, called: str, nominal: float = 0.2) -> Path:
        """Write one record of friction."""
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        text = FRICTION.format(name=called, nominal=f"{nominal:.2f}")
        path.write_text(text, encoding="utf-8")
        return path

    def open(self) -> FolderLayer:
        """Open it as a new process would; what was said before is forgotten."""
        self.said.clear()
        return FolderLayer(str(self.folder), self.said.append)

    def names(self) -> list[str]:
        """Return the names of the frictions that a new process finds."""
        return [row[0] for row in self.open().rows("frictions")]

    def index(self) -> Path:
        """Return the file of the index."""
        (path,) = self.cache.glob("torquebook/*.sqlite")
        return path


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    """Return a folder with two records in it."""
    cache = tmp_path / "cache"
    monkeypatch.setenv("XDG_CACHE_HOME", str(cache))
    made = Shop(tmp_path / "shop", cache, [])
    made.write("oils/one.yaml", "chain oil")
    made.write("two.yaml", "bar oil")
    return made
