"""Bytes and the text in them."""

from __future__ import annotations

import io
import os
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import Unreadable
from torquebook.plans import intake
from torquebook.plans.intake import MAX_BYTES, decode, take_in, where

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any


def refusal(source: Any, stdin: Any = None) -> str:
    with pytest.raises(Unreadable) as refused:
        take_in(source, stdin)
    return str(refused.value)


def test_file_and_stream(tmp_path: Path) -> None:
    """A file and a stream give the same bytes, each under its own name."""
    path = tmp_path / "plan.csv"
    path.write_bytes(b"tighten\n")
    assert take_in(path) == (b"tighten\n", str(path))
    assert take_in("-", io.BytesIO(b"tighten\n")) == (b"tighten\n", "standard input")


def test_standard_input_of_the_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a stream of its own, ``-`` reads the process's standard input."""
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"tighten\n")))
    assert take_in("-") == (b"tighten\n", "standard input")


def test_large_file_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file of 200 MB is refused by its size, before a byte of it is read."""
    path = tmp_path / "plan.csv"
    with path.open("wb") as file:
        file.truncate(200_000_000)
    monkeypatch.setattr(intake, "_within", None)
    assert refusal(path) == (
        f"{path}: larger than 64 MiB, the most that a plan may have; split it into several files"
    )


def test_large_stream_is_bounded() -> None:
    """A stream is read no further than the limit."""

    class Endless(io.RawIOBase):
        asked = 0

        def read(self, size: int = -1) -> bytes:
            self.asked += size
            return b"x" * size

    stream = Endless()
    assert "larger than 64 MiB" in refusal("-", stream)
    assert stream.asked == MAX_BYTES + 1


def test_endless_file_is_bounded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that tells no size is read no further than the limit."""
    monkeypatch.setattr(intake, "MAX_BYTES", 10)
    path = tmp_path / "pipe"
    path.write_bytes(b"x" * 11)
    monkeypatch.setattr(type(path), "stat", lambda _: os.stat_result([0] * 10))
    assert "larger than 64 MiB" in refusal(path)


def test_files_that_cannot_be_opened(tmp_path: Path) -> None:
    """A missing file, a folder and a name that is none are told apart."""
    missing = tmp_path / "plan.csv"
    assert refusal(missing) == (
        f"{missing}: there is no such file; "
        "name a file, - for standard input, or give one line in quotes"
    )
    assert refusal(tmp_path) == f"{tmp_path}: a folder; name a file in it"
    assert refusal("plan\0.csv") == "'plan\\x00.csv': this is no file name; name a file"
    assert "cannot be opened" in refusal("x" * 5000)


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "the file is empty"),
        (b" \r\n\t\n", "the file is empty"),
        (b"\x89PNG\r\n\x1a\n", "a picture (PNG)"),
        (b"\xff\xd8\xff\xe0", "a picture (JPEG)"),
        (b"%PDF-1.7", "a PDF"),
        (b"\x1f\x8b\x08", "a packed file (gzip)"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an old .xls workbook, or one with a password"),
    ],
)
def test_files_that_hold_no_plan(content: bytes, what: str | None) -> None:
    """A file that is no plan is named for what it is."""
    assert refusal("-", io.BytesIO(content)).startswith(f"standard input: {what}; ")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_encodings_with_a_mark(encoding: str) -> None:
    """UTF-8, and UTF-16 with its mark, give the same text without a note."""
    notes = []
    mark = {"utf-16-le": b"\xff\xfe", "utf-16-be": b"\xfe\xff"}.get(encoding, b"")
    assert decode(mark + "90°\r\n±\rµ\n".encode(encoding), "plan.csv", notes) == "90°\n±\nµ\n"
    assert notes == []


def test_windows_1252_is_said() -> None:
    """Text that is no UTF-8 is read as Windows-1252, and a note says so."""
    notes = []
    assert decode("tighten\n+90°\n".encode("cp1252"), "plan.csv", notes) == "tighten\n+90°\n"
    assert notes == ["read as Windows-1252: line 2 is no UTF-8"]


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"a\n\x81\xff", "plan.csv:2: neither UTF-8 nor Windows-1252 text; save it as UTF-8"),
        (b"\xff\xfea", "plan.csv: damaged UTF-16 text; save it as UTF-8"),
        (b"ab\nc\0", "plan.csv:2:2: this is no text; save the plan as CSV or .xlsx"),
        (b"a\n\x1b[31m", "plan.csv:2:1: the character U+001B cannot stand in a plan; take it out"),
        (
            b"\xef\xbb\xbf\n",
            "plan.csv: the file is empty; a plan has a header row and a row a joint",
        ),
    ],
)
def test_text_that_is_none(content: bytes, message: str) -> None:
    """Bytes that are no text are refused at their place."""
    with pytest.raises(Unreadable) as refused:
        decode(content, "plan.csv", [])
    assert str(refused.value) == message


@given(st.binary(max_size=60))
def test_any_bytes_decode_or_are_refused(content: bytes) -> None:
    """Any bytes give text without controls, or a refusal."""
    try:
        text = decode(content, "plan.csv", [])
    except Unreadable:
        return
    assert "\0" not in text
    assert "\r" not in text


def test_where() -> None:
    """A place in a text is given by line and column, from 1."""
    assert [where("f", "ab\nc", at) for at in (0, 1, 3)] == ["f:1:1", "f:1:2", "f:2:1"]
