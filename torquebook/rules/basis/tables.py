"""The rows of printed tables that apply to a line, with the printed corrections in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.bands import Band
    from torquebook.catalogue.shelves import PrintedRow, PrintedTable
    from torquebook.rules.basis.case import Case

# A line within 10 % of a printed table is never an error (common practice).
TABLE_TOLERANCE = 0.10
# Printed in one unit and rounded in the other, small values differ by this much.
ROUNDING = 0.04


@dataclass(frozen=True)
class TableRow:
    """A row of a printed table that applies to a line, with the printed corrections in it."""

    table: PrintedTable
    row: PrintedRow
    low_nm: float
    high_nm: float

    def holds(self, torque: Band, tolerance: float) -> bool:
        """Return whether a torque lies within the row, give or take a tolerance."""
        return torque.low >= self.low_nm * (1 - tolerance) and torque.high <= self.high_nm * (
            1 + tolerance
        )

    def prints(self, torque: Band) -> bool:
        """Return whether the torque is the row's own value, or its greatest allowed one."""
        ends = (self.row.low_nm, self.row.high_nm)
        if same((torque.low, torque.high), ends) or same(
            (torque.low, torque.high), (self.low_nm, self.high_nm)
        ):
            return True
        most = self.row.max_nm
        return most is not None and same((torque.low, torque.high), (most, most))


def same(first: tuple[float, float], second: tuple[float, float]) -> bool:
    """Return whether two ranges are alike within the rounding of print."""
    return all(abs(a - b) <= ROUNDING * b for a, b in zip(first, second, strict=True))


def applying_rows(case: Case) -> Iterator[TableRow]:
    """Yield the rows for a line's thread, class, nut, friction and material."""
    if case.silence or not case.fastener.threads or "class" in case.fastener.troubles:
        return
    said = case.line.text("friction")
    name = case.strength.name if case.strength else ""
    for thread in case.fastener.threads:
        for table, row in case.book.table_rows(thread, name, case.line.text("nut")):
            if said:
                factor = 1.0 if case.friction.name == table.friction else None
                factor = table.factors.get(case.friction.name, factor)
                factors = [] if factor is None else [factor]
            else:
                # A row that names no class speaks only where its condition is stated.
                factors = [1.0, *table.factors.values()] if row.strength_class else []
            if factors:
                into = case.fastener.material
                softer = table.into_factors.get(into.name, 1.0) if into else 1.0
                low, high = row.low_nm * min(factors) * softer, row.high_nm * max(factors)
                yield TableRow(table, row, low, high)


def dry_row(case: Case) -> TableRow | None:
    """Return the row printed for dry threads whose value a lubricated line takes over."""
    torque = case.torque
    if torque is None or case.angle_deg is not None or not case.friction.lubricated:
        return None
    name, nut = case.strength.name if case.strength else "", case.line.text("nut")
    for thread in case.fastener.threads if name else ():
        for table, row in case.book.table_rows(thread, name, nut):
            same = abs(torque.band.nominal / row.high_nm - 1) < ROUNDING
            if table.friction == "dry" and same:
                return TableRow(table, row, row.low_nm, row.high_nm)
    return None
