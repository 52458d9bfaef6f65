"""Quantities in messages: in the line's own unit, with the digits that matter."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from torquebook import units
from torquebook.catalogue.lookup import says_all
from torquebook.numerals import sheet_text

if TYPE_CHECKING:
    from torquebook.bands import Band
    from torquebook.errors import NotUnderstood
    from torquebook.notation import Torque
    from torquebook.rules.basis.case import Case


THREE_FIGURES = 999.5


def torque(value_nm: float, unit: str) -> str:
    """Return a computed torque in a line's unit, to three figures."""
    value = units.convert(units.Quantity(value_nm, "N.m"), unit).value
    return units.with_unit(_figures(value), unit)


def _figures(value: float) -> str:
    return f"{value:.3g}" if value < THREE_FIGURES else f"{value:.0f}"


def as_typed(value: float, unit: str) -> str:
    """Return a number in a unit so that it can be typed into a plan as it stands."""
    return units.with_unit(sheet_text(float(f"{value:.6g}")), unit)


def torque_band(low_nm: float, high_nm: float, unit: str) -> str:
    """Return a range of torque in a line's unit, as one value if its ends are alike."""
    low, high = torque(low_nm, unit), torque(high_nm, unit)
    return high if low == high else f"{low.split(' ', 1)[0]}–{high}"


def planned(stage: Torque) -> str:
    """Return a torque stage as the line states it."""
    return torque_band(stage.band.low, stage.band.high, stage.unit)


def kilonewtons(value_n: float) -> str:
    """Return a force in kN, to three figures."""
    return f"{_figures(value_n / 1000)} kN"


def share(value: float) -> str:
    """Return a share in per cent, or as a multiple from three up."""
    return f"{percent(value)} of" if value < 3 else f"{value:.2g} times"  # noqa: PLR2004 - 300 %


def hundredths(band_mm: Band) -> str:
    """Return a band of lengths in mm, to hundredths."""
    return " to ".join(dict.fromkeys((f"{band_mm.low:.2f}", f"{band_mm.high:.2f}")))


def percent(value: float) -> str:
    """Return a share in whole per cent."""
    return f"{100 * value:.0f} %"


def share_band(band: Band) -> str:
    """Return a band of shares in per cent."""
    return f"{100 * band.low:.0f} to {percent(band.high)}"


def nearest(trouble: NotUnderstood) -> str | None:
    """Return the reading that looks like what was typed, None where the readings are a list.

    A reading that leaves out a word of it says less than was meant, and is none.
    """
    alike = get_close_matches(trouble.text.casefold(), map(str.casefold, trouble.readings), 1)
    folded = {reading.casefold(): reading for reading in trouble.readings}
    return folded[alike[0]] if alike and says_all(alike[0], trouble.text) else None


def explained(case: Case) -> tuple[str, str | None]:
    """Return the slips that explain a line, to append to a message, and what is right."""
    slips = case.slips
    text = "".join(f"; {slip.text}" for slip in slips)
    return text, ", or ".join(slip.instead for slip in slips if slip.instead) or None
