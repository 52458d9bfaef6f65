"""A CSV of any length, line by line."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest

from torquebook.errors import Unreadable
from torquebook.plans.reading import read_plan
from torquebook.plans.stream import stream_plan

if TYPE_CHECKING:
    from pathlib import Path

TEXT = 'joint,tighten,shelf\r\n"hub, front",60 N.m,A\r\n\r\nnäbe,"70 N.m,\n+90°",B'


def test_a_stream_gives_the_lines_that_reading_the_whole_gives(tmp_path: Path) -> None:
    """Line by line or as a whole: equal lines, places and unknown columns."""
    path = tmp_path / "plan.csv"
    path.write_bytes(TEXT.encode("utf-8-sig"))
    stream, whole = stream_plan(path), read_plan(path)
    assert tuple(stream.lines) == whole.lines
    assert (stream.name, stream.unknown_columns) == (str(path), ("shelf",))
    assert [line.number for line in whole] == [2, 4]


def test_characters_across_blocks_are_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    """A character whose bytes fall into two blocks is read as one."""
    monkeypatch.setattr("torquebook.plans.stream._BLOCK", 3)
    stream = stream_plan("-", stdin=io.BytesIO(TEXT.encode()))
    assert [line.text("joint") for line in stream.lines] == ["hub, front", "näbe"]


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"tighten\n60 N.m\n\xff\n", "standard input:1: this is no UTF-8"),
        (b"tighten\n60 N.m\n6\x000\n", "standard input:3:2: the character U+0000"),
        (b"tighten\n" + b"6" * 1_200_000, "standard input:2: a line longer than"),
        (b"", "the file is empty"),
        (b"%PDF-1.7", "standard input: a PDF; save the plan as CSV"),
        (b"- tighten: 60 N.m\n", "standard input: this is YAML, and --json-lines reads CSV only"),
        (b"torque\n60\n", 'rename the column "torque" to "tighten"'),
    ],
)
def test_what_cannot_be_streamed_is_refused_with_its_place(content: bytes, message: str) -> None:
    """One message says where the text ends to be a plan."""
    with pytest.raises(Unreadable) as caught:
        tuple(stream_plan("-", stdin=io.BytesIO(content)).lines)
    assert message in str(caught.value)
