"""Stages: the operations that a service sheet's shorthand stands for."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final, Literal

from torquebook.bands import Band
from torquebook.errors import TorquebookError
from torquebook.units import FACTORS, pair_deviation

Form = Literal["exact", "range", "tolerance", "minimum", "maximum"]

COUNTS: Final[dict[Form, int]] = {
    "exact": 1,
    "range": 2,
    "tolerance": 3,
    "minimum": 1,
    "maximum": 1,
}
"""How many numbers each form prints."""


def _check(form: Form, printed: tuple[float, ...]) -> None:
    """Raise where numbers do not fit their form."""
    if len(printed) != COUNTS[form]:
        raise TorquebookError(f"{form}: {COUNTS[form]} numbers belong here, not {len(printed)}")
    if min(printed) < 0 or (form == "tolerance" and printed[1] > printed[0]):
        raise TorquebookError(f"{form} of {printed}: a stage does not go below zero")


@lru_cache(maxsize=4096)
def _band(form: Form, printed: tuple[float, ...], factor: float) -> Band:
    """Return the band of printed numbers, times the size of their unit."""
    if form == "range":
        return Band.between(min(printed), max(printed)).scaled(factor)
    if form == "tolerance":
        nominal, minus, plus = printed
        return Band.checked(nominal - minus, nominal, nominal + plus).scaled(factor)
    return Band.exact(printed[0]).scaled(factor)


@dataclass(frozen=True, slots=True)
class Torque:
    """Tighten to a torque.

    Parameters
    ----------
    unit : str
        Plain name of the unit, as ``units.FACTORS`` has it.
    form : str
        How the sheet gives it: exact, range, tolerance, minimum or maximum.
    printed : tuple of float
        The numbers as printed: one; low and high, in the printed order; or nominal, minus
        and plus.
    beside : tuple, optional
        The same torque in a second unit, as (numbers, unit): "22.14 ft lb (30 Nm)".
        Beside a tolerance it may be the nominal alone.
    column : int
        Where the stage begins in the text that was read, from 1.
    decimals : tuple of int
        Decimals printed in ``printed`` and in ``beside``.
    """

    unit: str
    form: Form
    printed: tuple[float, ...]
    beside: tuple[tuple[float, ...], str] | None = None
    column: int = field(default=1, compare=False)
    decimals: tuple[int, int] | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        """Refuse numbers that do not fit the form."""
        _check(self.form, self.printed)
        if self.beside and len(self.beside[0]) != len(self.printed):
            _check("exact", self.beside[0])

    @property
    def band(self) -> Band:
        """The torque in N·m; a minimum or maximum gives the limit alone, open on its side."""
        return _band(self.form, self.printed, FACTORS[self.unit][1])

    @property
    def disagreement(self) -> float:
        """How far the second unit is off, as ``units.pair_deviation`` says; 0.0 without one."""
        if self.beside is None:
            return 0.0
        numbers, unit = self.beside
        shown = 2 if self.form == "range" else 1
        return pair_deviation(
            self.printed[:shown], self.unit, numbers[:shown], unit, decimals=self.decimals
        )


@dataclass(frozen=True, slots=True)
class Angle:
    """Turn further by an angle; fields as in ``Torque``, unit ``deg``, ``turn`` or ``flat``."""

    unit: str
    form: Form
    printed: tuple[float, ...]
    column: int = field(default=1, compare=False)

    def __post_init__(self) -> None:
        """Refuse numbers that do not fit the form."""
        _check(self.form, self.printed)

    @property
    def band(self) -> Band:
        """The angle in degrees."""
        return _band(self.form, self.printed, FACTORS[self.unit][1])


@dataclass(frozen=True, slots=True)
class Slacken:
    """Turn back: by an angle in degrees, or until free where ``by_deg`` is None."""

    by_deg: float | None = None
    column: int = field(default=1, compare=False)


@dataclass(frozen=True, slots=True)
class Wait:
    """Leave it alone for a time."""

    minutes: float
    column: int = field(default=1, compare=False)


Stage = Torque | Angle | Slacken | Wait
