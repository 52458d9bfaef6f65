"""Band: a quantity with its low, nominal and high value.

Friction, torque and preload are never bare numbers here. The module stands below
``units`` and ``mechanics`` because notation, records and formulas all carry bands.
"""

from __future__ import annotations

from typing import NamedTuple

from torquebook.errors import TorquebookError


class Band(NamedTuple):
    """Low, nominal and high value of one quantity, in ascending order."""

    low: float
    nominal: float
    high: float

    @classmethod
    def exact(cls, value: float) -> Band:
        """Return the band of a value that is known exactly."""
        return cls(value, value, value)

    @classmethod
    def between(cls, low: float, high: float) -> Band:
        """Return the band of a printed range, with its middle as nominal."""
        return cls.checked(low, (low + high) / 2, high)

    @classmethod
    def around(cls, nominal: float, share: float) -> Band:
        """Return the band of ``nominal`` give or take a share of it (0.04 for 4 %)."""
        return cls.checked(nominal * (1 - share), nominal, nominal * (1 + share))

    @classmethod
    def checked(cls, low: float, nominal: float, high: float) -> Band:
        """Return the band, or raise if the three values are not in order.

        Raises
        ------
        TorquebookError
            If low, nominal and high are not in ascending order.
        """
        if not low <= nominal <= high:
            raise TorquebookError(f"{low:g}, {nominal:g}, {high:g}: a band goes from low to high")
        return cls(low, nominal, high)

    def scaled(self, factor: float) -> Band:
        """Return the band multiplied by a factor that is not negative."""
        return Band(self.low * factor, self.nominal * factor, self.high * factor)
