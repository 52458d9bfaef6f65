"""Whose value a wrong torque is: another line's, another row's, another class's or size's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.rules.basis.deviation import Measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case
    from torquebook.rules.basis.deviation import Deviation

ROW_NEAR = 0.03  # printed values are rounded to two or three figures
LEVEL_NEAR = 0.12  # lines of one list lie within this of its level, see Peers
USUAL_SHARE = 0.75  # of proof: the middle of the printed tables in tests/published
NEXT_SIZES = 1.6  # the next two sizes of a series lie within this ratio of diameters


def same_elsewhere(case: Case) -> Iterator[str]:
    """Yield the line whose very number stands here, if it suits that line's own fastener."""
    for other in case.peers.of_same_value(case):
        if other.deviation is None and other.thread is not None:
            name = " ".join((other.thread.size, other.line.text("class"))).strip()
            yield f"line {other.line.number} has the same for {name}"
            return


def belongs_to(case: Case, deviation: Deviation) -> Iterator[str]:
    """Yield the row, class or size that the torque is the value of, if there is one."""
    torque = case.torque
    if torque is not None:
        find = _in_tables if deviation.rows else _in_list
        yield from list(find(case, torque.band.nominal, deviation))[:1]


def _in_tables(_: Case, nominal_nm: float, deviation: Deviation) -> Iterator[str]:
    for applied in deviation.rows:
        factor = applied.low_nm / applied.row.low_nm
        for row in applied.table.rows:
            same_thread = row.thread == applied.row.thread
            same_class = row.strength_class == applied.row.strength_class
            middle = factor * (row.low_nm + row.high_nm) / 2
            if same_thread is not same_class and abs(nominal_nm - middle) < ROW_NEAR * middle:
                what = f"class {row.strength_class}" if same_thread else row.thread
                yield f"it is the table's value for {what}"


def _in_list(case: Case, nominal_nm: float, deviation: Deviation) -> Iterator[str]:
    """Compare with what the list's level, or the usual share of proof, gives other fasteners."""
    if case.thread is None or not case.fastener.classes:
        return
    share = USUAL_SHARE
    if deviation.measure is Measure.LIST:
        share = (deviation.low_nm * deviation.high_nm) ** 0.5 / case.proof_torque_nm.nominal
    yield from _classes(case, nominal_nm, share)
    yield from _sizes(case, nominal_nm, share)


def _classes(case: Case, nominal_nm: float, share: float) -> Iterator[str]:
    thread, strength = case.thread, case.strength
    if thread is None or strength is None:
        return
    per_mpa_nm = share * thread.stress_area_mm2 * case.fastener.torque_nm_per_n.nominal
    for other in case.book.strengths(thread.family, thread.d_mm):
        like = other.standard == strength.standard and other.proof_mpa != strength.proof_mpa
        if like and _near(nominal_nm, per_mpa_nm * other.proof_mpa):
            yield f"it is the value of class {other.name}"


def _sizes(case: Case, nominal_nm: float, share: float) -> Iterator[str]:
    thread = case.thread
    if thread is None:
        return
    for other in case.book.threads(thread.family):
        ratio = other.d_mm / thread.d_mm
        near_by = ratio != 1 and 1 / NEXT_SIZES < ratio < NEXT_SIZES and other.series != "fine"
        expected_nm = share * case.proof_torque_nm.nominal * ratio**3
        if near_by and other.series == thread.series and _near(nominal_nm, expected_nm):
            yield f"it is the value of {other.size}"


def _near(value: float, expected: float) -> bool:
    return abs(value - expected) <= LEVEL_NEAR * expected
