"""What all commands share."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from torquebook.cli.command import open_book
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Runner

WRENCH = """kind: wrench
title: "Wrench of a test"
name: "{name}"
low: 10
high: 60
unit: "N.m"
deviation: {deviation}
drive: "3/8 in"
source:
  kind: invented
  title: "a test"
  provenance: "invented"
"""


def shelf(folder: Path, name: str, deviation: float) -> Path:
    """Return a book folder with one wrench in it."""
    place = folder / "wrenches"
    place.mkdir(parents=True)
    text = WRENCH.format(name=name, deviation=deviation)
    (place / "one.yaml").write_text(text, encoding="utf-8")
    return folder


def test_folders_of_the_command_line_lie_over_those_of_the_environment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """``--book`` comes first, then TORQUEBOOK_PATH from left to right, then our own book."""
    told = shelf(tmp_path / "told", "loft", 0.01)
    first = shelf(tmp_path / "first", "loft", 0.02)
    second = shelf(tmp_path / "second", "cellar", 0.03)
    monkeypatch.setenv("TORQUEBOOK_PATH", f"{first}{os.pathsep}{second}{os.pathsep}")
    book = open_book([str(told)])
    assert book.wrench("loft").deviation == 0.01
    assert book.wrench("cellar").deviation == 0.03
    assert open_book([]).wrench("loft").deviation == 0.02
    assert book.thread("M10").pitch_mm == 1.5


def test_own_wrench_is_in_the_answer(tmp_path: Path, cli: Runner) -> None:
    """A folder given with ``--book`` is looked in by a command."""
    folder = shelf(tmp_path, "loft", 0.01)
    assert "loft" in cli("wrench", "30 N.m", "--book", str(folder)).out
    assert "loft" not in cli("wrench", "30 N.m").out


def test_missing_folder_is_said(tmp_path: Path) -> None:
    """A book folder that is not there is named, never passed over."""
    with pytest.raises(Unreadable, match="nowhere"):
        open_book([str(tmp_path / "nowhere")])
