"""The list as a whole: the printed table that it follows, the level that it keeps to.

One value that is wrong by a third may still be a value that some bolt could bear; beside
its neighbours in the same list it stands out.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from math import exp, log
from statistics import median
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.bands import Band
    from torquebook.catalogue.shelves import PrintedRow, PrintedTable
    from torquebook.rules.basis.case import Case

# A line within 10 % of a printed table is never an error (common practice).
TABLE_TOLERANCE = 0.10
# Printed in one unit and rounded in the other, small values differ by this much.
ROUNDING = 0.04
# A list follows a table if so many of the lines that the table covers agree with it.
FOLLOWED_SHARE, FOLLOWED_LINES = 0.8, 5
# A line stands out if it is this far from the level of at least so many others: inference,
# tuned on the printed tables in tests/published so that their own rows keep quiet.
LEVEL_LINES, LEVEL_LEAST, LEVEL_SPREADS = 5, log(1.13), 4.0
_MAD_TO_SIGMA = 1.4826  # of a normal distribution


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
        if _same((torque.low, torque.high), ends) or _same(
            (torque.low, torque.high), (self.low_nm, self.high_nm)
        ):
            return True
        most = self.row.max_nm
        return most is not None and _same((torque.low, torque.high), (most, most))


def _same(first: tuple[float, float], second: tuple[float, float]) -> bool:
    return all(abs(a - b) <= ROUNDING * b for a, b in zip(first, second, strict=True))


@dataclass(frozen=True)
class Level:
    """The level of tightening that a line's peers keep to.

    ``ratio`` is the line's own level over theirs; ``limit`` is how far a line may be from
    it, as a ratio above 1; ``lines`` is how many peers there are.
    """

    ratio: float
    limit: float
    lines: int

    @property
    def stands_out(self) -> bool:
        """Whether the line is further from its peers than they are from each other."""
        return not 1 / self.limit <= self.ratio <= self.limit


class Peers:
    """What a list's lines say of each other."""

    def __init__(self, cases: Sequence[Case]) -> None:
        self.cases = tuple(cases)
        self._rows: dict[int, tuple[TableRow, ...]] = {}

    # -- printed tables -------------------------------------------------------------------

    def rows(self, case: Case) -> tuple[TableRow, ...]:
        """Return the rows of printed tables that apply to a line."""
        key = id(case)
        if key not in self._rows:
            self._rows[key] = tuple(_applying_rows(case))
        return self._rows[key]

    def dry_row(self, case: Case) -> TableRow | None:
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

    @cached_property
    def followed(self) -> str | None:
        """The id of the printed table that the list follows, or None."""
        applies, agrees = Counter[str](), Counter[str]()
        for case in self.cases:
            if case.torque is None or case.angle_deg is not None:
                continue
            rows = self.rows(case)
            applies.update({row.table.id for row in rows})
            agrees.update({row.table.id for row in rows if row.prints(case.torque.band)})
        for table, lines in agrees.most_common(1):
            if lines >= FOLLOWED_LINES and lines >= FOLLOWED_SHARE * applies[table]:
                return table
        return None

    # -- the same joint twice ------------------------------------------------------------

    @cached_property
    def _namesakes(self) -> dict[tuple[str, ...], list[Case]]:
        groups: dict[tuple[str, ...], list[Case]] = {}
        for case in self.cases:
            groups.setdefault(_name(case), []).append(case)
        return groups

    def namesakes(self, case: Case) -> Iterator[Case]:
        """Yield the other lines of the same joint and fastener that state another torque."""
        torque = case.torque
        if torque is None or not case.line.text("joint"):
            return
        for other in self._namesakes[_name(case)]:
            if other is not case and other.torque is not None:
                there = other.torque.band
                if not _same(torque.band[::2], there[::2]) or case.angle_deg != other.angle_deg:
                    yield other

    # -- the list's own level ----------------------------------------------------------------

    @cached_property
    def _groups(self) -> dict[tuple[str, ...], list[float]]:
        groups: dict[tuple[str, ...], list[float]] = {}
        for case in self.cases:
            stress = _level_mpa(case)
            if stress is not None:
                groups.setdefault(_group(case), []).append(log(stress))
        return groups

    def level(self, case: Case) -> Level | None:
        """Return how a line stands to the others of its class and friction in the list."""
        stress = _level_mpa(case)
        if stress is None:
            return None
        others = list(self._groups[_group(case)])
        others.remove(log(stress))
        if len(others) < LEVEL_LINES:
            return None
        middle = median(others)
        spread = _MAD_TO_SIGMA * median(abs(other - middle) for other in others)
        limit = max(LEVEL_LEAST, LEVEL_SPREADS * spread)
        return Level(exp(log(stress) - middle), exp(limit), len(others))


def _name(case: Case) -> tuple[str, ...]:
    columns = ("joint", "thread", "class", "kind", "friction", "nut", "length", "note")
    return tuple(case.line.text(column).casefold() for column in columns)


def _group(case: Case) -> tuple[str, ...]:
    family = case.thread.family if case.thread else ""
    words = (case.line.text(column).casefold() for column in ("class", "friction", "nut"))
    return (family, *words)


def _level_mpa(case: Case) -> float | None:
    """Return the nominal clamp stress of a line that is tightened by torque alone."""
    if case.preload_n is None or case.angle_deg is not None or case.thread is None:
        return None
    return case.preload_n.nominal / case.thread.stress_area_mm2 or None


def _applying_rows(case: Case) -> Iterator[TableRow]:
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
