"""A joint's stages for one unit and for the wrenches at hand."""

from __future__ import annotations

from math import floor, log10
from typing import TYPE_CHECKING, Final

from torquebook import notation, units
from torquebook.answers.settings import on_wrenches
from torquebook.jobs.model import WorkedStage

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.answers.settings import WrenchSetting
    from torquebook.bands import Band
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Wrench
    from torquebook.notation import Stage, Torque

#: Figures that a converted value is shown to, and that a scale can be set to; and those where
#: a short value would leave the range.
SHORT, LONG, LONGEST = 3, 4, 6
#: The most that rounding may take of a printed range, as a share of it.
ROUNDING: Final = 0.1
_AIMS: Final = {
    "range": "the middle of the range",
    "tolerance": "the nominal value",
    "minimum": "the least",
    "maximum": "the most",
}


def at_hand(book: Book, names: Sequence[str] = ()) -> tuple[Wrench, ...]:
    """Return the wrenches to work with: those named, else the user's own, else the demo's.

    Raises
    ------
    NotUnderstood
        If there is no wrench of a name.
    """
    if names:
        return tuple(dict.fromkeys(book.wrench(name) for name in names))
    return book.wrenches()


def worked_stages(
    stages: Sequence[Stage],
    unit: str,
    wrenches: Sequence[Wrench],
    own: Wrench | None = None,
    finish_nm: Band | None = None,
) -> tuple[WorkedStage, ...]:
    """Return each stage as it is shown, with what to set on which wrench.

    Parameters
    ----------
    stages : sequence of Stage
    unit : str
        Plain name of the unit to show torques in.
    wrenches : sequence of Wrench
        Those at hand.
    own : Wrench or None
        The one that the joint names; it comes first where it is at hand and covers the stage.
    finish_nm : Band or None
        Torque at the end of the last angle [N·m].
    """
    last = max(
        (at for at, stage in enumerate(stages) if not isinstance(stage, notation.Wait)), default=-1
    )
    found = []
    for at, stage in enumerate(stages):
        if isinstance(stage, notation.Torque):
            found.append(_torque(at + 1, stage, unit, wrenches, own))
            continue
        ends = at == last and isinstance(stage, notation.Angle)
        window = _window(finish_nm, unit) if ends and finish_nm else None
        found.append(WorkedStage(at + 1, stage, notation.write((stage,)), window=window))
    return tuple(found)


def _torque(
    number: int, stage: Torque, unit: str, wrenches: Sequence[Wrench], own: Wrench | None
) -> WorkedStage:
    """Return a torque stage on the best of the wrenches."""
    shown = notation.write((in_unit(stage, unit),))
    aim = _AIMS.get(stage.form, "")
    wanted = units.Quantity(stage.band.nominal, "N.m")
    covering = [one for one in on_wrenches(wrenches, wanted) if one.covers]
    if not covering:
        return WorkedStage(number, stage, shown, aim=aim, covered=False)
    first = next((one for one in covering if one.wrench == own), covering[0])
    return WorkedStage(number, stage, shown, first.wrench.name, settable(first, stage), aim=aim)


def in_unit(stage: Torque, unit: str) -> Torque:
    """Return a torque stage in another unit: as printed beside it, else converted."""
    if stage.unit == unit:
        return notation.Torque(unit, stage.form, stage.printed)
    if stage.beside and stage.beside[1] == unit and len(stage.beside[0]) == len(stage.printed):
        return notation.Torque(unit, stage.form, stage.beside[0])
    printed = (units.convert(units.Quantity(one, stage.unit), unit).value for one in stage.printed)
    return notation.Torque(unit, stage.form, tuple(rounded(one, SHORT) for one in printed))


def settable(one: WrenchSetting, stage: Torque) -> units.Quantity:
    """Return what a scale can be set to, still on the scale and within what is allowed.

    Parameters
    ----------
    one : WrenchSetting
        Of a wrench that covers the stage.
    stage : Torque
    """
    wrench, (value, unit) = one.wrench, one.setting
    low, high = wrench.low_nm, wrench.high_nm
    band = stage.band
    slack = (band.high - band.low) * ROUNDING
    if slack or stage.form == "minimum":
        low = max(low, band.low, band.nominal - slack)
    if slack or stage.form == "maximum":
        high = min(high, band.high, band.nominal + slack)
    for digits in (SHORT, LONG):
        short = units.Quantity(rounded(value, digits), unit)
        if low <= short.si <= high:
            return short
    return units.Quantity(rounded(value, LONGEST), unit)


def rounded(value: float, digits: int) -> float:
    """Return a value to so many significant figures.

    Examples
    --------
    >>> rounded(33.8954, 4), rounded(135.58, 3)
    (33.9, 136.0)
    """
    return round(value, digits - 1 - floor(log10(value))) if value else 0.0


def _window(finish_nm: Band, unit: str) -> tuple[units.Quantity, units.Quantity]:
    """Return the least and the most that a wrench shows at the end of an angle."""
    low, high = (
        units.convert(units.Quantity(end, "N.m"), unit).value
        for end in (finish_nm.low, finish_nm.high)
    )
    return units.Quantity(rounded(low, SHORT), unit), units.Quantity(rounded(high, SHORT), unit)
