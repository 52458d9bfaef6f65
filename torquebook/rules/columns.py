"""Family `columns`: whether the torques of a contributed table go together as in other tables."""

from __future__ import annotations

from itertools import groupby, pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.numerals import number_text
from torquebook.records.table import Table
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Place
    from torquebook.records.table import TableRow
    from torquebook.rules.basis.contributed import ContributedCase

#: The stronger class of two, the weaker, and between what the ratio of their torques lies; a
#: table of a machine manual that was looked at has 92 to 70, the least of all.
CLASS_RATIOS: Final = (
    ("10.9", "8.8", 1.3, 1.55),
    ("12.9", "10.9", 1.12, 1.22),
)
#: A torque rises about as the cube of the diameter; no table that was looked at is off by more.
STEP_SHARE: Final = 2.0
UNSAID: Final = "unsaid"  # a size without its pitch
SOURCE: Final = "checks that found real misprints in printed tables (inference)"
_TABLE: Final = 'kind: printed table\nfriction: "dry"\nunit: "N.m"\nunit_as_printed: "N.m"\nrows:\n'
_ROW: Final = "  - {{thread: {}, strength_class: '{}', low: {}}}\n"


class _Cell(NamedTuple):
    """One torque of a table.

    Parameters
    ----------
    number : int
        That of its row, from 0.
    row : TableRow
    column : tuple
        What rows of one column share: class, nut, series, and which of several that look alike.
    d_mm, pitch_mm : float
        The thread; the pitch is 0 where the table names none.
    low, high : float
        What the printed torque may have been before it was rounded, in the table's unit.
    """

    number: int
    row: TableRow
    column: tuple[str, str, str, int]
    d_mm: float
    pitch_mm: float
    low: float
    high: float

    @property
    def said(self) -> str:
        """The thread with its torque."""
        return f"{self.row.thread} has {self.row.low:g}"


@rule(
    "class-ratio-odd",
    Severity.ASK,
    source=SOURCE,
    fires=_TABLE + _ROW.format("M16", "8.8", 210) + _ROW.format("M16", "10.9", 230),
    passes=_TABLE + _ROW.format("M16", "8.8", 210) + _ROW.format("M16", "10.9", 300),
    about=("record",),
)
def class_ratio_odd(case: ContributedCase) -> Iterator[Remark]:
    """Do the torques of two classes stand in a ratio that tables have?

    Why
    ---
    Classes differ by their proof stress, whatever the friction: 10.9 has 1.38 or 1.43 times that
    of 8.8. A ratio far from it is a digit or a column misread.

    Mend
    ----
    Read both lines again. If they are printed so, leave them out and say why in a comment.

    Known gaps
    ----------
    Compared are 8.8, 10.9 and 12.9: 1.3 to 1.55 and 1.12 to 1.22, beside rounding. Which of
    the two is wrong is not said.
    """
    cells = {(cell.column, cell.d_mm, cell.pitch_mm): cell for cell in _cells(case)}
    for (column, d_mm, pitch_mm), strong in cells.items():
        for name, weaker, least, most in CLASS_RATIOS:
            weak = cells.get(((weaker, *column[1:]), d_mm, pitch_mm)) if column[0] == name else None
            if weak and not (strong.high / weak.low >= least and strong.low / weak.high <= most):
                ratio = strong.row.low / weak.row.low
                yield Remark(
                    f"{name} has {strong.row.low:g}, {weaker} has {weak.row.low:g}: "
                    f"{ratio:.2f} times as much",
                    numbers={"ratio": ratio},
                    place=_at(case, strong),
                    instead=f"{least:g} to {most:g} times, as in tables",
                )


@rule(
    "size-step-odd",
    Severity.ASK,
    source=SOURCE,
    fires=_TABLE + _ROW.format("M8", "8.8", 25) + _ROW.format("M10", "8.8", 5.0),
    passes=_TABLE + _ROW.format("M8", "8.8", 25) + _ROW.format("M10", "8.8", 50),
    about=("record",),
)
def size_step_odd(case: ContributedCase) -> Iterator[Remark]:
    """Do the torques of a column rise with the diameter, and about as its cube?

    Why
    ---
    A torque that falls, stands still, or jumps to a tenth or to twice what its neighbours lead
    to has lost a digit, or belongs to another line.

    Mend
    ----
    Read the line again. If it is printed so, leave it out and say why in a comment.

    Known gaps
    ----------
    A slip by less than half passes as long as the column rises. One amid a column is named twice:
    against the line before it and against the one behind. Lines without a class are one column;
    where a thread stands twice, its second line begins another.
    """
    cells = sorted(_cells(case), key=lambda cell: (cell.column, cell.d_mm))
    for _, column in groupby(cells, key=lambda cell: cell.column):
        for small, large in pairwise(column):
            if small.d_mm == large.d_mm:
                continue
            cube = (large.d_mm / small.d_mm) ** 3
            step = large.row.low / small.row.low
            rises = step > 1
            near = (
                large.high / small.low >= cube / STEP_SHARE
                and large.low / small.high <= cube * STEP_SHARE
            )
            if not (rises and near):
                yield Remark(
                    f"{small.said}, {large.said}: {step:.2f} times as much",
                    numbers={"ratio": step},
                    place=_at(case, large),
                    instead=f"about {cube:.2g} times, as the cube of the diameter",
                )


@rule(
    "fine-below-coarse",
    Severity.ASK,
    source=SOURCE,
    fires=_TABLE + _ROW.format("M10", "8.8", 50) + _ROW.format("M10x1.25", "8.8", 40),
    passes=_TABLE + _ROW.format("M10", "8.8", 50) + _ROW.format("M10x1.25", "8.8", 53),
    about=("record",),
)
def fine_below_coarse(case: ContributedCase) -> Iterator[Remark]:
    """Has the finer thread of a diameter at least the torque of the coarser one?

    Why
    ---
    A finer thread leaves a thicker core, which bears more.

    Mend
    ----
    Look whether the two lines were swapped. If they are printed so, leave them out and say why.

    Known gaps
    ----------
    Threads that the table names without a pitch are not compared.
    """
    coarsest: dict[tuple[str, str, int, float], _Cell] = {}
    for cell in sorted(_cells(case), key=lambda cell: -cell.pitch_mm):
        grade, nut, series, again = cell.column
        if series != UNSAID:
            coarse = coarsest.setdefault((grade, nut, again, cell.d_mm), cell)
            if cell.high < coarse.low:
                yield Remark(
                    f"{cell.said}, {coarse.said}",
                    place=_at(case, cell),
                    instead=f"{coarse.row.low:g} or more",
                )


def _at(case: ContributedCase, cell: _Cell) -> Place:
    return case.at("rows", cell.number, "low")


def _cells(case: ContributedCase) -> Iterator[_Cell]:
    """Yield the torques of a printed table; a size that nobody lists is for another rule."""
    rows = case.record.rows if isinstance(case.record, Table) else []
    times: dict[tuple[str, str, str], int] = {}
    for index, row in enumerate(rows):
        try:
            meant = case.book.candidates(row.thread)
        except NotUnderstood:
            continue
        one = len(meant) == 1
        series, pitch_mm = (meant[0].series, meant[0].pitch_mm) if one else (UNSAID, 0.0)
        grade, nut = row.strength_class or "", row.nut or ""
        again = times[row.thread, grade, nut] = times.get((row.thread, grade, nut), 0) + 1
        give = 10.0 ** -len(number_text(row.low).partition(".")[2]) / 2
        yield _Cell(
            index,
            row,
            (grade, nut, series, again),
            meant[0].d_mm,
            pitch_mm,
            row.low - give,
            row.low + give,
        )


FAMILY = (class_ratio_odd, size_step_odd, fine_below_coarse)
