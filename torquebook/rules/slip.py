"""Family `slip`: another unit, a diameter or an angle stands where the torque belongs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.basis import report
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

ISO_898_1 = "ISO 898-1:2013, tables 2 to 5; torque and preload by VDI 2230-1"


@rule(
    "unit-doubtful",
    Severity.STOP,
    source=ISO_898_1,
    fires="M8 8.8 22 kgf.m friction=oiled",
    passes="M8 8.8 2.2 kgf.m friction=oiled",
    needs=("bolt", "thread", "torque"),
)
def unit_doubtful(case: Case) -> Iterator[Remark]:
    """Is the number plausible in the unit that it carries?

    Why
    ---
    Off by a factor of three or more, no friction and no method of tightening explains a
    torque, but another unit or a slipped digit does.

    Mend
    ----
    Go back to the sheet and read the unit at the head of its column.

    Known gaps
    ----------
    lbf·ft for N·m is a factor of 1.36 only; it shows as over-proof, clamp-too-low,
    table-disagrees or odd-one-out, which name the unit too.
    """
    for deviation, slips, instead in report.reported(case, "unit-doubtful"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            instead=instead,
            severity=report.severity(deviation),
        )


@rule(
    "diameter-as-torque",
    Severity.STOP,
    source=ISO_898_1,
    fires="M12 8.8 12 N.m friction=oiled",
    passes="M12 8.8 70 N.m friction=oiled",
    needs=("bolt", "thread", "torque"),
)
def diameter_as_torque(case: Case) -> Iterator[Remark]:
    """Was the thread's diameter, or the bolt's length, typed where the torque belongs?

    Why
    ---
    The joint would be clamped at a tenth of what it needs.

    Mend
    ----
    Look the torque up again.

    Known gaps
    ----------
    A small thread's torque can equal its diameter: M6 at 6 N·m is not flagged.
    """
    for deviation, slips, _ in report.reported(case, "diameter-as-torque"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            instead=report.right(case, deviation),
            severity=report.severity(deviation),
        )


@rule(
    "angle-as-torque",
    Severity.STOP,
    source=ISO_898_1,
    fires="M8 8.8 20 N.m, 90 N.m friction=oiled",
    passes="M8 8.8 20 N.m + 90 deg friction=oiled kind=stretch",
    needs=("bolt", "thread", "torque"),
)
def angle_as_torque(case: Case) -> Iterator[Remark]:
    """Was an angle typed as a torque?

    Why
    ---
    A last stage of 90 "N·m" on a bolt that bears 30 breaks it; sheets print torque and
    angle in one column.

    Mend
    ----
    Write the angle with its sign: + 90°.

    Known gaps
    ----------
    Seen only where the number is a usual angle and too much as a torque.
    """
    for deviation, slips, instead in report.reported(case, "angle-as-torque"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            instead=instead,
            severity=report.severity(deviation),
        )


FAMILY = (unit_doubtful, diameter_as_torque, angle_as_torque)
