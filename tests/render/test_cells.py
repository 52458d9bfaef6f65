"""CSV in which no cell acts."""

from __future__ import annotations

import csv

import pytest

from torquebook.render.cells import csv_text


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_formulas_are_text(text: str) -> None:
    """What a spreadsheet would reckon with stands behind an apostrophe or an escape."""
    ((cell,),) = csv.reader(csv_text([(text,)]).splitlines())
    assert cell.startswith(("'", "\\"))


def test_cells_are_read_back() -> None:
    """Text, numbers and empty cells come back; quotes and line feeds do not part a row."""
    rows = [("a,b", 'say "so"', 1.5, None, 3), ("two\nlines", "", 0.1, None, 0)]
    first, second = csv.reader(csv_text(rows).splitlines())
    assert first == ["a,b", 'say "so"', "1.5", "", "3"]
    assert second[0] == "two\\nlines"
