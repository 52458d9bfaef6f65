"""CSV for spreadsheets."""

from __future__ import annotations

import csv
import io

import pytest

from torquebook.render.csvtext import csv_text


@pytest.mark.parametrize(
    "text", ["=1+1", "+60 deg", "-x", "@SUM(A1)", " =1", "|cmd", "%0", "＝1", "+1-1", "\t=1"]
)
def test_no_cell_is_a_formula(text: str) -> None:
    """A text that a spreadsheet might reckon with is made a text."""
    ((cell,),) = csv.reader(io.StringIO(csv_text(("a",), [[text]]).partition("\n")[2]))
    assert cell.startswith("'") or cell.startswith("\\t")


def test_numbers_and_words_stay_as_they_are() -> None:
    """Numbers below zero too; commas, quotes and lines are quoted."""
    rows = [["-0.2", "+5", 'a "b", c', "Öl", 3]]
    assert csv_text(("a", "b"), rows) == 'a,b\n-0.2,+5,"a ""b"", c",Öl,3\n'


def test_nothing_acts_on_a_terminal() -> None:
    """Control characters are shown as escapes, and no cell breaks its line."""
    assert csv_text(("a",), [["\x1b[2J\n=1"]]) == "a\n\\x1b[2J\\n=1\n"
