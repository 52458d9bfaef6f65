"""Rows under a header."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.plans.model import Cell
from torquebook.plans.table import (
    Flaw,
    Header,
    Row,
    column_name,
    iter_lines,
    letters,
    near_tighten,
    read_header,
)

if TYPE_CHECKING:
    from typing import Any

    from torquebook.plans.model import PlanLine


def row(number: int, *texts: str, flaws: dict[int, Flaw] | None = None) -> Row:
    cells = [
        Cell(text, Place("plan.csv", number, at + 1, f"{letters(at)}{number}"))
        for at, text in enumerate(texts)
    ]
    return Row(cells, flaws or {})


@pytest.mark.parametrize(
    ("index", "name"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (701, "ZZ"), (702, "AAA")]
)
def test_letters(index: int, name: str) -> None:
    """Columns are lettered as a spreadsheet letters them."""
    assert letters(index) == name


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Tighten", "tighten"),
        ("CLAMP LENGTH", "clamp_length"),
        ("clamp-length", "clamp_length"),
        ("Clamp\nLength", "clamp_length"),
        ("clamp_length", "clamp_length"),
        ("Clamp  length (mm)", "Clamp length (mm)"),
        ("", ""),
    ],
)
def test_column_names(text: str, name: str) -> None:
    """A known column is known however it is written; others keep their text."""
    assert column_name(text) == name


@pytest.mark.parametrize(
    ("names", "near"),
    [
        (("joint", "Torque"), "Torque"),
        (("tightening",), "tightening"),
        (("Tighten to",), "Tighten to"),
        (("thigten",), "thigten"),
        (("joint", "shelf"), ""),
        (("tightn", "torque"), "tightn"),
    ],
)
def test_near_tighten(names: tuple[str, ...], near: str) -> None:
    """The column that was meant to be ``tighten`` is found by its spelling or its sense."""
    assert near_tighten(names) == near


def refusal(*rows: Any) -> str:
    with pytest.raises(Unreadable) as refused:
        read_header(iter(rows), "plan.csv")
    return str(refused.value)


def test_header_leaves_the_rows_below() -> None:
    """The header is the first row that is not empty; what follows is left to be read."""
    rows = iter([row(1, "", ""), row(2, "Shelf", "Tighten"), row(3, "B2", "60 N.m")])
    header = read_header(rows, "plan.csv")
    assert header == Header(("Shelf", "tighten"))
    assert header.unknown == ("Shelf",)
    assert next(rows).cells[0].text == "B2"


def test_no_tighten_column() -> None:
    """Without a column named ``tighten``, the one to be renamed is named."""
    assert refusal(row(1, "joint", "Torque"), row(2, "wheel", "60 N.m")) == (
        'plan.csv:1: no column is named "tighten"; rename the column "Torque" to "tighten"'
    )
    assert refusal(row(1, "wheel", "60 N.m")) == (
        'plan.csv:1: no column is named "tighten"; name the column that says how to tighten '
        '"tighten"; the others may be missing'
    )


def test_title_above_the_header() -> None:
    """Rows above the header are not skipped in silence; the header is pointed at."""
    rows = [row(1, "Light truck, yearly"), row(2, ""), row(3, "joint", "tighten")]
    assert refusal(*rows) == (
        'plan.csv:1: the first row names no column "tighten"; '
        "the header seems to be row 3; delete the rows above it"
    )


def test_column_named_twice() -> None:
    """Two columns of one name are refused with their letters, known or not."""
    twice = 'columns A and C are both named "thread"; give each column a name of its own'
    assert refusal(row(1, "thread", "tighten", "Thread")) == f"plan.csv cell C1: {twice}"
    assert "B and C are both named" in refusal(row(1, "tighten", "shelf", "shelf"))


def test_empty_table() -> None:
    """A table without any row is refused."""
    assert refusal(row(1, "", "")).startswith("plan.csv: the file is empty; a plan has a header")


def lines(
    *rows: Any, header: str | tuple[str, ...] = ("joint", "tighten", "Shelf", "")
) -> list[PlanLine]:
    return list(iter_lines(rows, Header(header)))


def test_known_unknown_and_empty_cells() -> None:
    """Known and unknown columns are kept apart, and empty rows are left out."""
    found, last = lines(
        row(2, "wheel", "60 N.m", "B2"), row(3, "", "", "", ""), row(4, "", "70 N.m")
    )
    assert {column: cell.text for column, cell in found.cells.items()} == {
        "joint": "wheel",
        "tighten": "60 N.m",
    }
    assert found.extra["Shelf"].text == "B2"
    assert (found.number, last.number) == (2, 4)
    assert found.problems == ()


def test_cells_under_no_header() -> None:
    """A cell beyond the header, or under an empty one, is kept and told."""
    (found,) = lines(row(2, "wheel", "60 N.m", "B2", "x", "y"))
    assert {name: cell.text for name, cell in found.extra.items()} == {
        "Shelf": "B2",
        "column D": "x",
        "column E": "y",
    }
    assert [(p.column, p.place.cell, p.text) for p in found.problems] == [
        ("column D", "D2", "x"),
        ("column E", "E2", "y"),
    ]
    assert "column D has no name" in found.problems[0].what
    assert "beyond the header's 4 columns" in found.problems[1].what


def test_flaws_become_problems_of_known_columns() -> None:
    """A flaw that the format's reader found is told for known columns only."""
    flaw = Flaw("a formula stands here", ("60 N.m",))
    (found,) = lines(row(2, "wheel", "=A1", "=B1", flaws={1: flaw, 2: flaw}))
    (problem,) = found.problems
    assert (problem.column, problem.text, problem.readings) == ("tighten", "=A1", ("60 N.m",))
    assert found.stages == ()
    assert found.extra["Shelf"].text == "=B1"
