"""Paper: lines that fit and line up."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.render.paper import WIDTH, Paper, wrapped
from torquebook.render.plain import width

WORDS = st.text(st.characters(codec="utf-8"), max_size=200)


@given(WORDS, st.integers(10, 80))
def test_wrapped_lines_fit_and_lose_nothing(text: str, columns: int) -> None:
    """No line is too wide, and the words come out as they went in."""
    text = " ".join(Paper().said(text).split())
    lines = wrapped(text, columns)
    assert all(width(line) <= columns for line in lines)
    assert not [line for line in lines if line.endswith(" ")]
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_number_and_unit_stay_together() -> None:
    """A torque is not torn apart at the end of a line."""
    text = "set the wrench to 110 N·m and no more"
    assert wrapped(text, 21) == ["set the wrench to", "110 N·m and no more"]
    assert wrapped("that is fully 90 % of it", 16) == ["that is fully", "90 % of it"]


def test_no_line_ends_in_a_space() -> None:
    """A word that is longer than a line leaves none of the two spaces before it behind."""
    assert wrapped(f"NOTE  {'x' * 25}", 20) == ["NOTE", "x" * 20, "x" * 5]


def test_columns_line_up_and_wrap_the_last() -> None:
    """Cells stand under one another, numbers flush right, long text in its column."""
    paper = Paper()
    paper.columns([("1", "a", "word " * 20), ("22", "bb", "end")], right={0})
    lines = str(paper).splitlines()
    assert lines[0].startswith("   1  a   word")
    assert lines[1].startswith("          word")
    assert lines[-1] == "  22  bb  end"
    assert max(map(len, lines)) <= WIDTH


def test_grid_wraps_cells_and_keeps_text_as_text() -> None:
    """A class stays 8.10, an id 1e3, and wide letters do not push the next column."""
    paper = Paper()
    paper.grid([("ボルト ボルト", "8.10"), ("1e3", "x")], ("name", "class"), (8, 5))
    assert str(paper).splitlines() == [
        "  name    class",
        "  ボルト  8.10",
        "  ボルト",
        "  1e3     x",
    ]


def test_plain_paper_is_ascii_before_it_is_measured() -> None:
    """What ASCII makes longer still fits."""
    paper = Paper(plain=True)
    paper.text("±" * 60)
    assert str(paper).isascii()
    assert max(map(len, str(paper).splitlines())) <= WIDTH


def test_bold_is_decoration_only() -> None:
    """Without bold the same words stand there."""
    loud, quiet = Paper(bold=True), Paper()
    for paper in (loud, quiet):
        paper.heading("Lines")
        paper.text("x")
    assert str(loud) == "\x1b[1mLines\x1b[22m\nx\n"
    assert str(quiet) == "Lines\nx\n"


@pytest.mark.parametrize("write", ["heading", "text"])
def test_nothing_hostile_gets_on_paper(write: str) -> None:
    """An escape sequence in any text is shown, not sent."""
    paper = Paper()
    getattr(paper, write)("a\x1b[2Jb\nc")
    assert str(paper) == "a\\x1b[2Jb\\nc\n"


def test_gap_is_one_empty_line() -> None:
    """Gaps do not pile up, and none stands at the top."""
    paper = Paper()
    paper.gap()
    paper.text("a")
    paper.gap()
    paper.gap()
    paper.text("b")
    assert str(paper) == "a\n\nb\n"
