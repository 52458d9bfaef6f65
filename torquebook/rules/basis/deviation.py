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
# What lies between and beyond is inference from them.
LEAST_SHARE = 0.40  # below it at nominal friction: find out
LOOSE_SHARE = 0.20  # below it over the whole band: nothing is clamped
LEAST_SNUG_SHARE = 0.02  # a snug torque before an angle may be low
MOST_SHARE = 1.00
USUAL_SHARES = (0.45, 0.97)
# Beyond every printed table by this much, a line disagrees with all of them (inference: the
# tables themselves differ by up to a quarter).
TABLES_APART = 0.25
# No friction and no method explains this factor (VDI 2230-1: tightening factors up to 2.5).
GROSS = 3.0
# Off by this factor from every printed table for the very thread and condition, or from the
# level of a list, a bolt breaks or nothing is clamped: tables leave a margin of 1.05 to 2 to
# the proof load (tests/published).
FAR = 4.0
# Where neither class nor kind of nut is stated; covers and plugs are mostly nearer than this.
FAR_UNKNOWN = 7.5


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
    known : bool
        True if class or kind of nut is stated.
    """

    measure: Measure
    ratio: float
    low_nm: float
    high_nm: float
    whole: bool = False
    rows: tuple[TableRow, ...] = ()
    known: bool = False

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
        limit = FAR if self.known else FAR_UNKNOWN
        return self.measure is not Measure.LOAD and not 1 / limit < self.ratio < limit


def find_deviation(case: Case) -> Deviation | None:
    """Return the deviation of a line's torque, or None where nothing speaks against it."""
    torque = case.torque
    if torque is None or case.preload_n is None:
        return None
    load = _from_load(case, torque.band)
    if case.angle_deg is not None or case.hinted_kind or (load is not None and load.whole):
        return load
    followed = case.peers.followed(case) if case.table_rows else frozenset()
    rows = tuple(row for row in case.table_rows if not followed or row.table.id in followed)
    if any(row.prints(torque.band) for row in rows):
        return None
    table = _from_tables(case, torque.band, rows, follows=bool(followed))
    listed = _from_list(case, torque.band)
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
    low_nm, high_nm = least * proof_torque.low, _most_nm(case)
    if torque.high > high_nm:
        whole = preload.low > proof.high
        return Deviation(Measure.LOAD, torque.high / high_nm, low_nm, high_nm, whole)
    if torque.low < low_nm and not case.hinted_kind:
        # Low beside the weakest class may be right for what no class is stated of.
        loose = min(LOOSE_SHARE, least) * proof.low
        whole = case.strength is not None and preload.high < loose
        return Deviation(Measure.LOAD, torque.low / low_nm, low_nm, high_nm, whole)
    return None


def _most_nm(case: Case) -> float:
    """Return the torque at proof or, where class and friction say that it is less, at yield."""
    most = MOST_SHARE * case.proof_torque_nm.high
    if case.strength is None or not case.line.text("friction"):
        return most  # without a stated friction the nominal one is no measure of yield
    yield_n = 1 / case.fastener.yield_share(1.0, case.friction.mu_thread.nominal)
    return min(most, yield_n * case.fastener.torque_nm_per_n.nominal)


def _from_tables(
    case: Case, torque: Band, rows: tuple[TableRow, ...], *, follows: bool
) -> Deviation | None:
    if not rows or any(row.holds(torque, TABLE_TOLERANCE) for row in rows):
        return None
    apart = TABLE_TOLERANCE
    if not follows:  # a range may be wider than a table's row; its middle decides
        apart, torque = TABLES_APART, Band.exact(torque.nominal)
    low_nm, high_nm = min(row.low_nm for row in rows), max(row.high_nm for row in rows)
    known = case.strength is not None or any(row.row.nut for row in rows)
    if torque.high > high_nm * (1 + apart):
        ratio = torque.high / high_nm
    elif torque.low < low_nm * (1 - apart):
        ratio = torque.low / low_nm
    else:
        return None
    return Deviation(Measure.TABLE, ratio, low_nm, high_nm, rows=rows, known=known)


def _from_list(case: Case, torque: Band) -> Deviation | None:
    level = case.peers.level(case)
    if level is None or not level.stands_out:
        return None
    expected, known = torque.nominal / level.ratio, case.strength is not None
    return Deviation(Measure.LIST, level.ratio, expected, expected, known=known)
