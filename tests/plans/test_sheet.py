"""Workbooks, made here with openpyxl."""

from __future__ import annotations

import datetime as dt
import io
import sys
import zipfile
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from torquebook.errors import Unreadable
from torquebook.plans import sheet
from torquebook.plans.sheet import iter_sheet

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    from torquebook.plans.table import Row

HEADER = ("joint", "tighten", "class")


def rows(content: bytes, notes: list[str] | None = None) -> list[Row]:
    return list(iter_sheet(content, "plan.xlsx", [] if notes is None else notes))


def texts(content: bytes) -> list[list[str]]:
    return [[cell.text for cell in row.cells] for row in rows(content)]


def refusal(content: bytes) -> str:
    with pytest.raises(Unreadable) as refused:
        rows(content)
    return str(refused.value)


def test_values_become_the_text_that_a_sheet_shows(workbook: Callable[..., bytes]) -> None:
    """Numbers are as short as they were typed; dates, words and empty cells become text."""
    content = workbook(
        [
            ["tighten", 10.9, 8.8, 60, 60.0, 0.1 + 0.2],
            [None, True, dt.datetime(2025, 3, 8), dt.date(2025, 3, 8), dt.time(12, 15), " M10 "],  # noqa: DTZ001 -- a sheet knows no zone
        ]
    )
    assert texts(content) == [
        ["tighten", "10.9", "8.8", "60", "60", "0.3"],
        ["", "TRUE", "2025-03-08", "2025-03-08", "12:15:00", "M10"],
    ]


def test_places(workbook: Callable[..., bytes]) -> None:
    """A cell knows its row, its column and its name."""
    place = rows(workbook([HEADER, ["wheel", "60 N.m", 8.8]]))[1].cells[2].place
    assert (place.file, place.line, place.column, place.cell) == ("plan.xlsx", 2, 3, "C2")


def test_empty_rows_above_the_header(workbook: Callable[..., bytes]) -> None:
    """Empty rows above the header are rows, so that the numbers below stay right."""

    def fill(book: Any) -> None:
        book.active["A3"] = "tighten"
        book.active["A4"] = "60 N.m"

    found = rows(workbook([], change=fill))
    assert [row.is_empty for row in found] == [True, True, False, False]
    assert found[3].cells[0].place.cell == "A4"


def test_formula_is_told(workbook: Callable[..., bytes]) -> None:
    """A formula is kept as its text, and a flaw asks for its value."""
    row = rows(workbook([HEADER, ["wheel", "=B9", "8.8"]]))[1]
    assert row.cells[1].text == "=B9"
    assert "formula" in row.flaws[1].what
    assert row.flaws[1].readings == ()


def test_formula_with_a_saved_value(workbook: Callable[..., bytes]) -> None:
    """The value that a formula had when it was saved is offered."""
    content = workbook([HEADER, ["wheel", "=B9", "8.8"]])
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(packed, "w") as new:
        for entry in old.namelist():
            part = old.read(entry)
            if entry.endswith("sheet1.xml"):
                assert part.count(b"<v></v>") + part.count(b"<v />") + part.count(b"<v/>") == 1
                for empty in (b"<v></v>", b"<v />", b"<v/>"):
                    part = part.replace(empty, b"<v>66</v>")
            new.writestr(entry, part)
    assert rows(packed.getvalue())[1].flaws[1].readings == ("66",)


@pytest.mark.parametrize("number_format", ['0" N.m"', "# ?/?", "0%", "0\\m", '0"°"'])
def test_number_that_shows_more_than_it_holds(
    workbook: Callable[..., bytes], number_format: str
) -> None:
    """A number whose format adds a unit or makes a fraction of it is told."""

    def dress(book: Any) -> None:
        book.active["B2"].number_format = number_format

    row = rows(workbook([HEADER, ["wheel", 60, 8.8]], change=dress))[1]
    assert row.cells[1].text == "60"
    assert number_format in row.flaws[1].what
    assert list(row.flaws) == [1]


@pytest.mark.parametrize("number_format", ["0.00", "#,##0", "@", '_-* #,##0.00_-;_-* "-"??_-'])
def test_plain_number_formats_are_no_flaw(
    workbook: Callable[..., bytes], number_format: str
) -> None:
    """A format that only sets decimals says nothing more than the number."""

    def dress(book: Any) -> None:
        book.active["B2"].number_format = number_format

    assert rows(workbook([HEADER, ["wheel", 60, 8.8]], change=dress))[1].flaws == {}


def test_merged_header(workbook: Callable[..., bytes]) -> None:
    """Merged cells of the header are refused by their names."""
    content = workbook(
        [HEADER, ["wheel", "60 N.m", 8.8]], change=lambda book: book.active.merge_cells("B1:C1")
    )
    assert refusal(content) == (
        "plan.xlsx cells B1:C1: these cells of the header are merged; "
        "unmerge them, name each column"
    )


def test_merged_cells_below(workbook: Callable[..., bytes]) -> None:
    """A cell that lost its value to the merged cell above it is told; nothing is filled in."""
    content = workbook(
        [HEADER, ["wheel", "60 N.m", 8.8], [None, "70 N.m", 8.8]],
        change=lambda book: book.active.merge_cells("A2:A3"),
    )
    found = rows(content)
    assert found[1].flaws == {}
    assert list(found[2].flaws) == [0]
    assert "A2:A3" in found[2].flaws[0].what


def test_merged_section_heading(workbook: Callable[..., bytes]) -> None:
    """A heading merged across the table is told once, beside the cell that holds it."""
    content = workbook(
        [HEADER, ["front axle"], ["wheel", "60 N.m", 8.8]],
        change=lambda book: book.active.merge_cells("A2:C2"),
    )
    assert [list(row.flaws) for row in rows(content)] == [[], [1], []]


def test_merged_title(workbook: Callable[..., bytes]) -> None:
    """A title merged across is no header; that the header stands below is for others to say."""
    content = workbook(
        [["light truck"], HEADER], change=lambda book: book.active.merge_cells("A1:C1")
    )
    assert texts(content)[1] == list(HEADER)


def test_formula_over_several_cells(workbook: Callable[..., bytes]) -> None:
    """A formula over several cells is a formula like any other."""
    worksheet = pytest.importorskip("openpyxl.worksheet.formula")

    def fill(book: Any) -> None:
        book.active["B2"] = worksheet.ArrayFormula("B2:B3", "=B8:B9")
        book.active["B3"] = worksheet.DataTableFormula("B3:B4")

    found = rows(workbook([HEADER], change=fill))
    assert [row.cells[1].text for row in found] == ["tighten", "=B8:B9", "="]
    assert "formula" in found[1].flaws[1].what
    assert "formula" in found[2].flaws[1].what


def test_sheet_that_holds_the_plan(workbook: Callable[..., bytes]) -> None:
    """The one sheet with a column named ``tighten`` is read, and a note names the others."""
    notes = []
    content = workbook([["remarks"]], [HEADER, ["wheel", "60 N.m", 8.8]], [])
    assert rows(content, notes)[1].cells[0].text == "wheel"
    assert notes == ['read the sheet "Sheet 2", left alone "Sheet 1"']


def test_several_plans_in_a_workbook(workbook: Callable[..., bytes]) -> None:
    """Two sheets with plans are asked back."""
    assert refusal(workbook([HEADER], [HEADER])) == (
        'plan.xlsx: several sheets hold a plan: "Sheet 1", "Sheet 2"; keep one in a file'
    )


def test_empty_workbook(workbook: Callable[..., bytes]) -> None:
    """A workbook without a filled cell is refused."""
    assert "the workbook is empty" in refusal(workbook([]))


def test_sheet_that_reaches_too_far(workbook: Callable[..., bytes]) -> None:
    """A stray cell at the end of the sheet is named instead of a million rows read."""

    def stray(book: Any) -> None:
        book.active["XFD1048576"] = "x"

    content = workbook([HEADER], change=stray)
    assert 'the sheet "Sheet 1" reaches to cell XFD1048576; delete' in refusal(content)


def test_workbook_too_large_unpacked(
    workbook: Callable[..., bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A workbook that unpacks to more than the limit is refused before it is opened."""
    content = workbook([HEADER])
    monkeypatch.setattr(sheet, "MAX_UNPACKED", 1024)
    assert "unpacked, the workbook is larger than" in refusal(content)


@pytest.mark.parametrize(
    ("part", "what"),
    [
        ("content.xml", "an OpenDocument file"),
        ("xl/workbook.bin", "a binary workbook (.xlsb)"),
        ("readme.txt", "a packed file that is no workbook"),
    ],
)
def test_other_packed_files(part: str, what: str | None) -> None:
    """A packed file that is no .xlsx is named for what it is."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr(part, "x")
    assert refusal(packed.getvalue()).startswith(f"plan.xlsx: {what}; ")


def test_missing_openpyxl(workbook: Callable[..., bytes], monkeypatch: pytest.MonkeyPatch) -> None:
    """Without openpyxl one message says how to get it."""
    content = workbook([HEADER])
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    assert refusal(content) == (
        "plan.xlsx: reading .xlsx needs openpyxl; "
        "install openpyxl beside torquebook, or save the sheet as CSV"
    )


# Drawn apart from the content's length, which changes with the second it was saved in.
SPOTS = st.integers(0, 1_000_000)


def read_or_refuse(content: bytes) -> None:
    told = ""
    found: list[Row] = []
    try:
        found = rows(content)
    except Unreadable as refused:
        told = str(refused)
    assert found or told.startswith("plan.xlsx")


@settings(
    deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_damaged_workbook_is_refused_or_read(
    workbook: Callable[..., bytes], data: st.DataObject
) -> None:
    """Whatever bytes of a workbook are changed, nothing but a refusal escapes."""
    content = bytearray(workbook([HEADER, ["wheel", "=B9", 8.8]]))
    for _ in range(data.draw(st.integers(1, 5))):
        at = data.draw(SPOTS) % len(content)
        content[at] = data.draw(st.integers(0, 255))
    cut = data.draw(SPOTS) % (len(content) // 2)
    read_or_refuse(bytes(content[: len(content) - cut]))


@settings(
    deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data())
def test_damaged_part_is_refused_or_read(
    workbook: Callable[..., bytes], data: st.DataObject
) -> None:
    """Whatever stands in a workbook's parts, nothing but a refusal escapes."""
    content = workbook([HEADER, ["wheel", "=B9", 8.8]])
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(packed, "w") as new:
        victim = data.draw(st.sampled_from(sorted(old.namelist())))
        for entry in old.namelist():
            part = bytearray(old.read(entry))
            if entry == victim:
                start = data.draw(SPOTS) % (len(part) + 1)
                end = start + data.draw(st.integers(0, 30))
                part[start:end] = data.draw(
                    st.binary(max_size=10) | st.sampled_from([b"99999", b"-1", b"A1:B2", b'"'])
                )
            new.writestr(entry, bytes(part))
    read_or_refuse(packed.getvalue())
