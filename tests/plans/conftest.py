"""The same plan in every format: an invented yearly overhaul of a village fire brigade's truck."""

from __future__ import annotations

import io
import json
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

COLUMNS = ("joint", "thread", "class", "count", "tighten", "friction", "into", "order", "shelf")
ROWS = (
    ("wheel", "M18x1.5", "10.9", "6", "150 N.m, 300 N.m", "oiled", "nut", "1-4-2-5-3-6", "B2"),
    ("pump cover", "M8", "8.8", "8", "25 N.m", "", "aluminium", "", ""),
    ("sump plug", "M14x1.5", "", "", "30-40 N.m", "", "", "", "A1"),
    ("flywheel", "M10x1.25", "10.9", "8", "60 N.m + 90 deg", "oiled", "steel", "star", ""),
)


@pytest.fixture
def columns() -> tuple[str, ...]:
    """Return the header of the example plan."""
    return COLUMNS


@pytest.fixture
def rows() -> tuple[tuple[str, ...], ...]:
    """Return the rows of the example plan, cells as text."""
    return ROWS


@pytest.fixture
def as_csv() -> Callable[[str], str]:
    """Return a function that writes the example plan as delimited text."""

    def write(separator: str) -> str:
        def cell(text: str) -> str:
            quoted = separator in text or '"' in text or "\n" in text
            return '"' + text.replace('"', '""') + '"' if quoted else text

        return "".join(separator.join(map(cell, row)) + "\n" for row in (COLUMNS, *ROWS))

    return write


@pytest.fixture
def entries() -> list[dict[str, str]]:
    """Return the example plan as a list of mappings without empty values."""
    return [{key: text for key, text in zip(COLUMNS, row, strict=True) if text} for row in ROWS]


@pytest.fixture
def as_json(entries: list[dict[str, str]]) -> str:
    """Return the example plan as JSON."""
    return json.dumps({"plan": "overhaul", "provenance": "invented", "lines": entries}, indent=1)


@pytest.fixture
def as_yaml(entries: list[dict[str, str]]) -> str:
    """Return the example plan as YAML."""
    body = "".join(
        f"{'- ' if first else '  '}{key}: {json.dumps(text)}\n"
        for entry in entries
        for first, (key, text) in zip([True] + [False] * 20, entry.items(), strict=False)
    )
    return f"plan: overhaul\nprovenance: invented\nlines:\n{body}"


@pytest.fixture
def workbook() -> Callable[..., bytes]:
    """Return a function that packs rows into a workbook and returns its bytes."""
    openpyxl = pytest.importorskip("openpyxl")

    def pack(*sheets: Any, change: Any = None) -> bytes:
        book = openpyxl.Workbook()
        book.remove(book.active)
        for number, rows in enumerate(sheets, start=1):
            sheet = book.create_sheet(f"Sheet {number}")
            for row in rows:
                sheet.append(row)
        if change:
            change(book)
        packed = io.BytesIO()
        book.save(packed)
        return packed.getvalue()

    return pack
