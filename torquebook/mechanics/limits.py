"""Range checks that the formulas share: a value outside raises and is never clamped.

"Above 0" means from ``LEAST`` up and "finite" up to ``MOST``, in whatever unit: no fastener
comes near either, and in between no product overflows and no divisor vanishes.
"""

from __future__ import annotations

from torquebook.errors import LEAST, MOST, NotUnderstood, OutOfRange

_MOST_FRICTION = 1.0


def positive(source: str, **values: float) -> None:
    """Raise OutOfRange for the first value that is not finite and above 0."""
    for name, value in values.items():
        if not LEAST <= value <= MOST:
            raise OutOfRange(name, value, LEAST, MOST, source)


def not_negative(source: str, **values: float) -> None:
    """Raise OutOfRange for the first value that is not finite and 0 or above."""
    for name, value in values.items():
        if not 0 <= value <= MOST:
            raise OutOfRange(name, value, 0.0, MOST, source)


def finite(source: str, **values: float) -> None:
    """Raise OutOfRange for the first value that is infinite or not a number."""
    for name, value in values.items():
        if not -MOST <= value <= MOST:
            raise OutOfRange(name, value, -MOST, MOST, source)


def friction(source: str, **values: float) -> None:
    """Raise OutOfRange for the first coefficient of friction outside 0 to 1."""
    for name, value in values.items():
        if not 0 <= value <= _MOST_FRICTION:
            raise OutOfRange(name, value, 0.0, _MOST_FRICTION, source)


def below(source: str, limit: float, **values: float) -> None:
    """Raise OutOfRange for the first value that is not above 0 and below ``limit``."""
    for name, value in values.items():
        if not LEAST <= value < limit:
            raise OutOfRange(name, value, LEAST, limit, source)


def known(what: str, name: str, names: tuple[str, ...]) -> None:
    """Raise NotUnderstood if a name is none of those that a formula knows."""
    if name not in names:
        raise NotUnderstood(name, f"no such {what}", names)
