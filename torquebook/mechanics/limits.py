"""Range checks that the formulas share: a value outside raises and is never clamped."""

from __future__ import annotations

from math import inf, isfinite

from torquebook.errors import OutOfRange

_BIGGEST_FRICTION = 1.0


def positive(source: str, **values: float) -> None:
    """Raise OutOfRange for the first value that is not finite and above 0."""
    for name, value in values.items():
        if not 0 < value < inf:
            raise OutOfRange(name, value, 0.0, inf, source)


def not_negative(source: str, **values: float) -> None:
    """Raise OutOfRange for the first value that is not finite and 0 or above."""
    for name, value in values.items():
        if not 0 <= value < inf:
            raise OutOfRange(name, value, 0.0, inf, source)


def finite(source: str, **values: float) -> None:
    """Raise OutOfRange for the first value that is infinite or not a number."""
    for name, value in values.items():
        if not isfinite(value):
            raise OutOfRange(name, value, -inf, inf, source)


def friction(source: str, **values: float) -> None:
    """Raise OutOfRange for the first coefficient of friction outside 0 to 1."""
    for name, value in values.items():
        if not 0 <= value <= _BIGGEST_FRICTION:
            raise OutOfRange(name, value, 0.0, _BIGGEST_FRICTION, source)


def below(source: str, limit: float, **values: float) -> None:
    """Raise OutOfRange for the first value that is not above 0 and below ``limit``."""
    for name, value in values.items():
        if not 0 < value < limit:
            raise OutOfRange(name, value, 0.0, limit, source)
