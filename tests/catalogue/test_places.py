"""Checks of where the catalogue's folders are looked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue import places
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


def test_checkout() -> None:
    """In a checkout the folders lie beside the package."""
    assert places.specs_root().name == "specs"
    assert places.schema_root().name == "schema"


def test_package_data_come_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An installed package's own data outrank a folder that happens to lie beside it."""
    package = tmp_path / "torquebook"
    (package / "_data" / "specs").mkdir(parents=True)
    (tmp_path / "specs").mkdir()
    (tmp_path / "schema").mkdir()
    monkeypatch.setattr(places, "_PACKAGE", package)
    assert places.specs_root() == package / "_data" / "specs"
    assert places.schema_root() == tmp_path / "schema"


def test_missing_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An installation without its data says so."""
    monkeypatch.setattr(places, "_PACKAGE", tmp_path / "torquebook")
    with pytest.raises(Unreadable, match="specs/ is missing"):
        places.specs_root()
