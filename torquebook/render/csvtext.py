"""CSV that a spreadsheet can open safely: no cell is a formula, and nothing in it acts."""

from __future__ import annotations

import csv
import io
import re
from typing import TYPE_CHECKING, Final

from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_FORMULA: Final = re.compile(r"\s*[=+\-@|%]|\s*[＝＋－＠]")
_NUMBER: Final = re.compile(r"[-+]?\d+(?:\.\d+)?")


def csv_text(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return rows as CSV.

    Parameters
    ----------
    heads : sequence of str
    rows : iterable of sequence
        A cell each; numbers stay numbers, and a text that a spreadsheet might reckon with
        gets an apostrophe before it.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows([_cell(value) for value in row] for row in rows)
    return stream.getvalue()


def _cell(value: object) -> str:
    text = inert(str(value))
    if _FORMULA.match(text) and not _NUMBER.fullmatch(text):
        return f"'{text}"
    return text
