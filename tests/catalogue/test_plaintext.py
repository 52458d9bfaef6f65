"""Checks of reading plain text."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.plaintext import (
    MAX_BYTES,
    odd_character,
    read_bytes,
    read_text,
    refuse_characters,
)
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"a: 1\nb: \xff\n", "x.yaml:2:4: byte 0xff is no UTF-8"),
        (b"\xff\xfea\x00:\x00", "written as UTF-16"),
        (b"a: \xed\xa0\x80\n", "is no UTF-8"),
        (b"a: 1\xc3", "is no UTF-8"),
        (b"a: x\x00\n", "x.yaml:1:5: the character U+0000"),
        (b"#" * (8 * 1024 * 1024 + 1), "8 MiB"),
    ],
)
def test_files_that_are_no_utf8(tmp_path: Path, raw: bytes, words: str) -> None:
    """A file that is no UTF-8 text is refused with the place of the first bad byte."""
    path = tmp_path / "x.yaml"
    path.write_bytes(raw)
    with pytest.raises(Unreadable) as caught:
        refuse_characters(read_text(path), str(path))
    assert words in str(caught.value)


@pytest.mark.parametrize(
    ("name", "words"),
    [("absent.yaml", "cannot be opened"), (".", "a folder, and no file"), ("a\0b", "null byte")],
)
def test_files_that_cannot_be_opened(tmp_path: Path, name: str, words: str) -> None:
    """A missing file, a folder and what is no path get one message."""
    with pytest.raises(Unreadable, match=words):
        read_text(tmp_path / name)


@pytest.mark.parametrize("text", ["", "é ½ µ × 螺", "a\tb\r\n", "\U0001f529"])
def test_usual_characters(text: str) -> None:
    """The letters and signs of any language are no odd characters."""
    assert odd_character(text) == ""


@pytest.mark.parametrize("odd", ["\0", "\x1b", "\x7f", "\x85", "\u2028", "\ud800", "\ufffe"])
def test_odd_characters(odd: str) -> None:
    """Control characters, hidden line breaks and halves of characters are found."""
    assert odd_character(f"a{odd}b\0") == odd


def test_a_file_that_holds_more_than_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What grew since it was looked at is read on, and cut behind 8 MiB."""
    file = tmp_path / "grown.yaml"
    file.write_bytes(b"ab")
    before = file.stat()
    file.write_bytes(b"a" * (MAX_BYTES + 9))
    monkeypatch.setattr(os, "stat", lambda _: before)
    assert len(read_bytes(str(file))) == MAX_BYTES + 1
