"""Quantities in messages: in the line's own unit, with the digits that matter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook import units
from torquebook.rules.basis.slips import find_slips

if TYPE_CHECKING:
    from torquebook.bands import Band
    from torquebook.notation import Torque
    from torquebook.rules.basis.case import Case
    from torquebook.rules.basis.deviation import Deviation


def torque(value_nm: float, unit: str) -> str:
    """Return a torque in a line's unit."""
    return units.write(units.convert(units.Quantity(value_nm, "N.m"), unit))


def torque_band(low_nm: float, high_nm: float, unit: str) -> str:
    """Return a range of torque in a line's unit, as one value if its ends are alike."""
    low, high = torque(low_nm, unit), torque(high_nm, unit)
    return high if low == high else f"{low.split(' ', 1)[0]}–{high}"


def planned(stage: Torque) -> str:
    """Return a torque stage as the line states it."""
    return torque_band(stage.band.low, stage.band.high, stage.unit)


def kilonewtons(value_n: float) -> str:
    """Return a force in kN, to three figures."""
    return f"{value_n / 1000:.3g} kN"


def share(value: float) -> str:
    """Return a share in per cent, or a multiple above three."""
    return f"{value:.0%}" if value < 3 else f"{value:.2g} times"  # noqa: PLR2004 - 300 %


def share_band(band: Band) -> str:
    """Return a band of shares in per cent."""
    return f"{band.low:.0%} to {band.high:.0%}"


def explained(case: Case, deviation: Deviation) -> tuple[str, str | None]:
    """Return the slips that explain a deviation, to append to a message, and what is right."""
    slips = find_slips(case, deviation)
    text = "".join(f"; {slip.text}" for slip in slips)
    return text, slips[0].instead if slips else None
