"""Delimited text to rows."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import Unreadable
from torquebook.plans.csvfile import SEPARATORS, iter_csv, separator_of

if TYPE_CHECKING:
    from typing import Any


def test_endless_row_is_refused() -> None:
    """A row wider than any spreadsheet is refused, with its line."""
    with pytest.raises(Unreadable, match=r"plan\.csv:2: more than 16384 cells"):
        list(iter_csv(["joint,tighten\n", "," * 20_000], "plan.csv"))


def texts(*lines: str) -> list[list[str]]:
    return [[cell.text for cell in row.cells] for row in iter_csv(lines, "plan.csv")]


@pytest.mark.parametrize("separator", SEPARATORS)
def test_separator_of_header(separator: str) -> None:
    """The separator is the one that parts the header into known columns."""
    assert separator_of([separator.join(["joint", "thread", "tighten"])]) == separator


@pytest.mark.parametrize(
    ("header", "separator"),
    [
        ("joint;tighten, in stages;note", ";"),
        ('"a;b;c;d",tighten,thread', ","),
        ("tighten", "\n"),
        ("what,ever", ","),
        ("tighten;torque|lbf|ft", ";"),
    ],
)
def test_separator_in_doubt(header: str | tuple[str, ...], separator: str) -> None:
    """Other separators inside a header's names do not mislead."""
    assert separator_of([header]) == separator


def test_separator_below_a_title() -> None:
    """A title above the header does not decide the separator."""
    assert separator_of(["Truck, yearly\n", "\n", "joint;tighten\n", "a, b;60 N.m\n"]) == ";"


def test_separator_that_the_file_tells() -> None:
    """A first line such as ``sep=|`` is obeyed and is no row."""
    assert texts("sep=|\n", "tighten|note\n", "60 N.m|a;b\n") == [
        ["tighten", "note"],
        ["60 N.m", "a;b"],
    ]


def test_one_column_needs_no_separator() -> None:
    """Under a header of one column a line is a cell, commas and all."""
    assert texts("tighten\n", "30 N.m, 60 N.m\n") == [["tighten"], ["30 N.m, 60 N.m"]]


def test_places() -> None:
    """A cell knows its line, its column in that line, and its name in a spreadsheet."""
    lines = ("joint, thread ,tighten\n", '"two\n', 'lines",M10, 60 N.m\n', "\n", "x,y\n")
    rows = list(iter_csv(lines, "plan.csv"))
    places = [[(c.place.line, c.place.column, c.place.cell) for c in row.cells] for row in rows]
    assert places == [
        [(1, 1, "A1"), (1, 8, "B1"), (1, 16, "C1")],
        [(2, 1, "A2"), (3, 8, "B2"), (3, 13, "C2")],
        [(4, 1, "A3")],
        [(5, 1, "A4"), (5, 3, "B4")],
    ]
    assert rows[1].cells[0].text == "two\nlines"


def test_quotes_inside() -> None:
    """Doubled quotes stand for one; a quote inside a bare cell is an inch mark."""
    assert texts("tighten,thread\n", '"a ""b"" c",3/8"\n', ' "x, y" ,\n') == [
        ["tighten", "thread"],
        ['a "b" c', '3/8"'],
        ["x, y", ""],
    ]


def test_text_behind_a_closing_quote_is_kept_and_told() -> None:
    """Text behind a closing quote stays with its cell, and a flaw says so."""
    rows = list(iter_csv(("tighten,thread\n", '60 N.m,"3/8" UNC\n'), "plan.csv"))
    assert rows[1].cells[1].text == "3/8 UNC"
    assert "closing quote" in rows[1].flaws[1].what


def test_unclosed_quote() -> None:
    """A quoted cell that is never closed is refused at its opening quote."""
    with pytest.raises(Unreadable) as refused:
        texts("tighten,note\n", "60 N.m\n", '70 N.m,"see below\n', "80 N.m,\n")
    assert str(refused.value) == (
        "plan.csv:3:8: a quoted cell is never closed; "
        'close it; a quote inside a quoted cell is doubled (3/8"")'
    )


def test_long_unclosed_quote_is_refused_in_time() -> None:
    """An unclosed quote over a large file takes no more than one pass."""
    with pytest.raises(Unreadable):
        texts("tighten,note\n", '"\n', *["60 N.m,x\n"] * 200_000)


CELL = st.text(st.characters(codec="utf-8", exclude_characters="\r\0"), max_size=8)


@given(
    st.lists(st.lists(CELL, min_size=2, max_size=4), min_size=1, max_size=4),
    st.sampled_from(SEPARATORS),
)
def test_what_was_written_is_read(rows: Any, separator: str) -> None:
    """Rows that the standard library writes come back cell by cell, but for outer space."""
    written = io.StringIO()
    csv.writer(written, delimiter=separator, lineterminator="\n", quoting=csv.QUOTE_ALL).writerows(
        [["joint", "tighten"], *rows]
    )
    lines = [f"{line}\n" for line in written.getvalue().removesuffix("\n").split("\n")]
    assert texts(*lines)[1:] == [[cell.strip() for cell in row] for row in rows]
