"""Draws that come out alike on every machine and under every version of Python."""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

T = TypeVar("T")


class Draw:
    """Draws from a seed.

    Only ``getrandbits`` is used of the library, whose sequence for a whole number as a seed is
    promised; how ``choice`` or ``shuffle`` use it has changed before.

    Parameters
    ----------
    seed : str
    """

    def __init__(self, seed: str) -> None:
        number = int.from_bytes(seed.encode("utf-8", "surrogatepass"), "big")
        self._bits = Random(number).getrandbits  # noqa: S311 - nothing secret is drawn

    def below(self, count: int) -> int:
        """Return a whole number from 0 to below a count, each as likely."""
        bits = (count - 1).bit_length()
        found = self._bits(bits) if bits else 0
        while found >= count:
            found = self._bits(bits)
        return found

    def pick(self, things: Sequence[T]) -> T:
        """Return one of some things."""
        return things[self.below(len(things))]

    def mixed(self, things: Iterable[T]) -> list[T]:
        """Return the things in another order."""
        left = list(things)
        for last in range(len(left) - 1, 0, -1):
            at = self.below(last + 1)
            left[last], left[at] = left[at], left[last]
        return left
