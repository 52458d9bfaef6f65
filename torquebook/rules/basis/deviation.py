"""How far a line's torque is from what it should be, by the strongest measure that speaks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from torquebook.bands import Band
from torquebook.rules.basis.tables import TABLE_TOLERANCE

if TYPE_CHECKING:
    from torquebook.rules.basis.case import Case
    from torquebook.rules.basis.tables import TableRow

# Shares of the proof load. The printed tables in tests/published lie between 0.45 and 0.95
# at the friction that they state; RCSC pretensions are 0.7 of the tensile strength.
LEAST_SHARE = 0.40  # below it at nominal friction: find out
LOOSE_SHARE = 0.20  # below it over the whole band: nothing is clamped
LEAST_SNUG_SHARE = 0.02  # a snug torque before an angle may be low
MOST_SHARE = 1.00
USUAL_SHARES = (0.45, 0.97)
# Beyond every printed table by this much, a line disagrees with all of them.
TABLES_APART = 0.25
GROSS = 3.0
# Off by this factor from every printed table for the very thread and condition, or from the
# level of a list, a bolt breaks or nothing is clamped: tables leave a margin of 1.05 to 2 to
# the proof load (tests/published).
FAR = 4.0


class Measure(Enum):
    """What a deviation is measured against."""

    LOAD = "load"
    TABLE = "table"
    LIST = "list"


@dataclass(frozen=True)
class Deviation:
    """A torque that is not what it should be.

    Parameters
    ----------
    measure : Measure
    ratio : float
        The torque over the nearest end of what is expected; above 1 is too much.
    low_nm, high_nm : float
        What is expected, at nominal friction.
    whole : bool
        True if it is wrong over the whole band of friction and wrench.
    rows : tuple of TableRow
        The printed rows, where a table is the measure.
    """

    measure: Measure
    ratio: float
    low_nm: float
    high_nm: float
    whole: bool = False
    rows: tuple[TableRow, ...] = ()

    @property
    def over(self) -> bool:
        """True if the torque is too much."""
        return self.ratio > 1

    @property
    def gross(self) -> bool:
        """True if it is wrong by a factor that no tightening method explains."""
        return self.ratio >= GROSS or self.ratio <= 1 / GROSS

    @property
    def far(self) -> bool:
        """True if a printed table or the list's level is missed by a factor that breaks."""
        return self.measure is not Measure.LOAD and not 1 / FAR < self.ratio < FAR


def find_deviation(case: Case) -> Deviation | None:
    """Return the deviation of a line's torque, or None where nothing speaks against it."""
    torque = case.torque
    if torque is None or case.preload_n is None:
        return None
    load = _from_load(case, torque.band)
    if case.angle_deg is not None or (load is not None and load.whole):
        return load
    rows = tuple(row for row in case.table_rows if _counts(case, row))
    if any(row.prints(torque.band) for row in rows):
        return None
    table, listed = _from_tables(case, torque.band, rows), _from_list(case, torque.band)
    return next(
        (found for found in (table, listed) if found is not None and found.far),
        load or table or listed,
    )


def _from_load(case: Case, torque: Band) -> Deviation | None:
    preload = case.preload_n
    if preload is None or not case.fastener.classes:
        return None
    proof, proof_torque = case.fastener.proof_n, case.proof_torque_nm
    least = LEAST_SHARE if case.angle_deg is None else LEAST_SNUG_SHARE
    low_nm, high_nm = least * proof_torque.low, MOST_SHARE * proof_torque.high
    if torque.high > high_nm:
        return Deviation(
            Measure.LOAD, torque.high / high_nm, low_nm, high_nm, preload.low > proof.high
        )
    if torque.low < low_nm:
        loose = min(LOOSE_SHARE, least) * proof.low
        return Deviation(Measure.LOAD, torque.low / low_nm, low_nm, high_nm, preload.high < loose)
    return None


def _counts(case: Case, row: TableRow) -> bool:
    followed = case.peers.followed
    return followed is None or row.table.id == followed


def _from_tables(case: Case, torque: Band, rows: tuple[TableRow, ...]) -> Deviation | None:
    followed = case.peers.followed
    if not rows or any(row.holds(torque, TABLE_TOLERANCE) for row in rows):
        return None
    apart = TABLE_TOLERANCE
    if not followed:  # a range may be wider than a table's row; its middle decides
        apart, torque = TABLES_APART, Band.exact(torque.nominal)
    low_nm, high_nm = min(row.low_nm for row in rows), max(row.high_nm for row in rows)
    if torque.high > high_nm * (1 + apart):
        return Deviation(Measure.TABLE, torque.high / high_nm, low_nm, high_nm, rows=rows)
    if torque.low < low_nm * (1 - apart):
        return Deviation(Measure.TABLE, torque.low / low_nm, low_nm, high_nm, rows=rows)
    return None


def _from_list(case: Case, torque: Band) -> Deviation | None:
    level = case.peers.level(case)
    if level is None or not level.stands_out:
        return None
    expected = torque.nominal / level.ratio
    return Deviation(Measure.LIST, level.ratio, expected, expected)
