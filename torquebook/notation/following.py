"""Following: whether a torque is the stage after the last one, or something else of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple, NoReturn

from torquebook.notation.stages import Stage, Torque
from torquebook.notation.writing import write
from torquebook.numerals import sheet_text

if TYPE_CHECKING:
    from torquebook.notation.cursor import Cursor

_NEAR: Final = 0.1
"""Share within which two torques in two units are taken for one, printed twice."""


class Joint(NamedTuple):
    """What stands before a stage."""

    plus: bool = False
    slash: bool = False


def check_follows(cursor: Cursor, last: Stage | None, stage: Stage, joint: Joint) -> None:
    """Raise where a torque may be something else than the stage after the last one."""
    if not isinstance(stage, Torque):
        return
    if last is None and joint.plus:
        readings = (write((stage,), plain=True),)
        cursor.fail("a plus before the first torque", readings, stage.column - 1)
    if not isinstance(last, Torque):
        return
    if joint.plus and stage.band.nominal <= last.band.nominal:
        _tolerance_or_stage(cursor, last, stage)
    if {last.form, stage.form} == {"minimum", "maximum"}:
        _one_range(cursor, last, stage)
    if last.unit != stage.unit:
        _one_or_two(cursor, last, stage, slash=joint.slash)


def _tolerance_or_stage(cursor: Cursor, last: Torque, stage: Torque) -> NoReturn:
    """Raise that a torque behind a plus may be a tolerance or a stage."""
    before, shown = (write((one,), plain=True) for one in (last, stage))
    readings = [f"{before}, {shown}"]
    if last.form == stage.form == "exact" and last.unit == stage.unit:
        one, other = sheet_text(last.printed[0]), sheet_text(stage.printed[0])
        readings.insert(0, f"{one} +{other}/-0 {last.unit}")
    cursor.fail("a plus before a torque", tuple(readings), stage.column - 1)


def _one_range(cursor: Cursor, last: Torque, stage: Torque) -> NoReturn:
    """Raise that a minimum and a maximum in a row are one range."""
    low, high = (last, stage) if last.form == "minimum" else (stage, last)
    span = f"{sheet_text(low.printed[0])}-{sheet_text(high.printed[0])} {high.unit}"
    readings = (span,) if low.unit == high.unit else ()
    cursor.fail("a minimum and a maximum are one range", readings, stage.column - 1)


def _one_or_two(cursor: Cursor, last: Torque, stage: Torque, *, slash: bool) -> None:
    """Raise where torques in two units may be one, printed twice."""
    before, shown = (write((one,), plain=True) for one in (last, stage))
    single = last.form == stage.form and not last.beside and not stage.beside
    readings = [f"{before} ({shown})"] if single else []
    near = abs(stage.band.nominal - last.band.nominal) <= _NEAR * last.band.nominal
    if near and single:
        cursor.fail("one torque in two units, or two", tuple(readings), stage.column - 1)
    if slash:
        readings.insert(0, f"{before}, {shown}")
        cursor.fail("two units around a slash", tuple(readings), stage.column - 1)
