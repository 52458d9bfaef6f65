"""XLSX workbooks; every cell with its name. Needs the extra ``xlsx``."""

from __future__ import annotations

import datetime as dt
import io
import re
import warnings
import zipfile
from contextlib import contextmanager
from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import TorquebookError, Unreadable
from torquebook.findings import Place
from torquebook.plans.model import COLUMNS, Cell
from torquebook.plans.table import Flaw, Row, column_name, letters

if TYPE_CHECKING:
    from collections.abc import Iterator

#: A workbook is a packed folder; unpacked, it may be no larger than this.
MAX_UNPACKED: Final = 64 * 1024 * 1024
#: Rows times columns of a sheet, the empty ones too.
MAX_CELLS: Final = 1_000_000

#: A number's format that shows a unit, a fraction or a percentage which the cell does not hold.
_DRESSED: Final = re.compile(r"\"[^\"]*(?:[^\W\d_]|[°\"″])[^\"]*\"|\?/|%|\\[A-Za-z°]")
_AGAIN: Final = "save it again as .xlsx, or as CSV"
_NO_WORKBOOKS: Final = (
    ("content.xml", "an OpenDocument file"),
    ("xl/workbook.bin", "a binary workbook (.xlsb)"),
)


def iter_sheet(content: bytes, name: str, notes: list[str]) -> Iterator[Row]:
    """Yield the rows of the workbook's sheet that holds the plan.

    Parameters
    ----------
    content : bytes
        The workbook.
    name : str
        The file's name, as it stands in places.
    notes : list of str
        Takes in what had to be decided: which sheet was read, and which were left alone.

    Yields
    ------
    Row
        Every row, the empty ones too. Of a formula, a number whose format adds text to it,
        and a cell merged into another one, a flaw says so.

    Raises
    ------
    Unreadable
        If openpyxl is not installed, if this is no workbook, or a damaged or too large one,
        if several sheets hold a plan, or if cells of the header are merged.
    """
    _refuse_other_archives(content, name)
    with _damage_told(name):
        sheet = _plan_sheet(_open(content, name, values=False), name, notes)
        cached = None
        for number, cells in enumerate(sheet.iter_rows(), start=1):
            row: list[Cell] = []
            flaws = _merged(sheet, number)
            for index, cell in enumerate(cells):
                text = _text(cell.value)
                place = Place(name, number, index + 1, f"{letters(index)}{number}")
                row.append(Cell(text, place))
                if cell.data_type == "f":
                    if cached is None:
                        cached = _open(content, name, values=True)[sheet.title]
                    flaws[index] = _formula(_text(cached.cell(number, index + 1).value))
                elif cell.data_type == "n" and text and _DRESSED.search(cell.number_format):
                    shown = cell.number_format.replace("General", "number")
                    flaws[index] = Flaw(f"the sheet shows this as {shown}; type it as text")
            yield Row(row, flaws)


def _refuse_other_archives(content: bytes, name: str) -> None:
    """Refuse a packed file that is no workbook, or one too large to unpack."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            entries = archive.infolist()
    except Exception as fault:
        raise Unreadable(name, "a damaged workbook", _AGAIN) from fault
    names = {entry.filename for entry in entries}
    for part, what in _NO_WORKBOOKS:
        if part in names:
            raise Unreadable(name, what, "save it as .xlsx or as CSV")
    if "xl/workbook.xml" not in names:
        raise Unreadable(name, "a packed file that is no workbook", "unpack it, then name the plan")
    if sum(entry.file_size for entry in entries) > MAX_UNPACKED:
        what = f"unpacked, the workbook is larger than {MAX_UNPACKED // 2**20} MiB"
        raise Unreadable(name, what, "split it, or save the sheet as CSV")


@contextmanager
def _damage_told(name: str) -> Iterator[None]:
    """Turn whatever a damaged part raises into one message."""
    try:
        yield
    except TorquebookError:
        raise
    except Exception as fault:
        what = f"a damaged workbook ({type(fault).__name__})"
        raise Unreadable(name, what, _AGAIN) from fault


def _open(content: bytes, name: str, *, values: bool) -> Any:
    """Open the workbook: with its formulas, or with the values that they had when saved."""
    try:
        openpyxl = import_module("openpyxl")
    except ImportError as fault:
        right = "install openpyxl beside torquebook, or save the sheet as CSV"
        raise Unreadable(name, "reading .xlsx needs openpyxl", right) from fault
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # they tell of parts that a plan has no use for
        return openpyxl.load_workbook(io.BytesIO(content), data_only=values)


def _plan_sheet(book: Any, name: str, notes: list[str]) -> Any:
    """Return the one sheet that holds a plan."""
    for sheet in book.worksheets:
        if sheet.max_row * sheet.max_column > MAX_CELLS:
            corner = f"{letters(sheet.max_column - 1)}{sheet.max_row}"
            right = "delete the empty rows and columns at its end, or save it as CSV"
            raise Unreadable(name, f'the sheet "{sheet.title}" reaches to cell {corner}', right)
    tops = [(sheet, _top(sheet)) for sheet in book.worksheets]
    used = [(sheet, top) for sheet, top in tops if top]
    plans = [(sheet, top) for sheet, top in used if "tighten" in top.values()]
    if not used:
        raise Unreadable(name, "the workbook is empty", "a plan has a header row and a row a joint")
    if len(plans) > 1:
        titles = ", ".join(f'"{sheet.title}"' for sheet, _ in plans)
        raise Unreadable(name, f"several sheets hold a plan: {titles}", "keep one in a file")
    chosen, top = (plans or used)[0]
    others = ", ".join(f'"{sheet.title}"' for sheet, _ in used if sheet is not chosen)
    if others:
        notes.append(f'read the sheet "{chosen.title}", left alone {others}')
    if not set(COLUMNS).isdisjoint(top.values()):
        _refuse_merged(chosen, min(row for row, _ in top), name)
    return chosen


def _top(sheet: Any) -> dict[tuple[int, int], str]:
    """Return the names in a sheet's first row that holds anything, by row and column."""
    for number, values in enumerate(sheet.iter_rows(values_only=True), start=1):
        names = {(number, at): column_name(_text(value)) for at, value in enumerate(values)}
        if any(names.values()):
            return names
    return {}


def _refuse_merged(sheet: Any, header: int, name: str) -> None:
    """Refuse a header with merged cells: the columns under them have no name."""
    for area in sheet.merged_cells.ranges:
        if area.min_row <= header <= area.max_row:
            what = "these cells of the header are merged"
            raise Unreadable(f"{name} cells {area.coord}", what, "unmerge them, name each column")


def _merged(sheet: Any, row: int) -> dict[int, Flaw]:
    """Return the flaws of a row's cells that lost their value to a merged cell."""
    flaws = {}
    for area in sheet.merged_cells.ranges:
        if area.min_row <= row <= area.max_row:
            index = area.min_col - 1 + (row == area.min_row)
            if index < area.max_col:
                flaws[index] = Flaw(f"cells {area.coord} are merged; unmerge them, fill each one")
    return flaws


def _text(value: Any) -> str:
    """Return a cell's value as the sheet shows it, without its formatting."""
    match value:
        case None:
            return ""
        case bool():
            return str(value).upper()
        case float():
            return format(value, ".15g")
        case dt.date() | dt.time():
            return value.isoformat()[:10]
        case int() | str():
            return str(value).strip()
    return str(getattr(value, "text", None) or "=")  # a formula over several cells


def _formula(value: str) -> Flaw:
    """Return what to say of a formula, with the value that it had when the file was saved."""
    what = "a formula stands here; paste its value in its place"
    return Flaw(what, (value,) if value else ())
