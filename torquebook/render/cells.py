"""CSV for a spreadsheet, in which no cell acts."""

from __future__ import annotations

import csv
from io import StringIO
from typing import TYPE_CHECKING, Final

from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_ACTING: Final = ("=", "+", "-", "@", "\t", "\r")


def csv_text(rows: Iterable[Sequence[str | float | None]], separator: str = ",") -> str:
    """Return rows as CSV, the header first.

    Text that a spreadsheet would take for a formula gets an apostrophe in front; control
    characters stand as escapes; None is an empty cell.
    """
    written = StringIO()
    writer = csv.writer(written, delimiter=separator, lineterminator="\n")
    writer.writerows([_cell(value) for value in row] for row in rows)
    return written.getvalue()


def _cell(value: str | float | None) -> str:
    if value is None:
        return ""
    if not isinstance(value, str):
        return f"{value:.10g}"
    text = inert(value)
    return f"'{text}" if text.startswith(_ACTING) else text
