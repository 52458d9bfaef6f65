"""The wrench that a line names, or the tolerance of one that it does not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from torquebook import notation
from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book

# ISO 6789:2003, type II class A: 4 % above 10 N·m of capacity, 6 % at or below.
DEVIATION = 0.04
DEVIATION_SMALL = 0.06
SMALL_CAPACITY_NM = 10.0


@dataclass(frozen=True)
class LineWrench:
    """Range and deviation of a line's wrench; the range is infinite if none is named."""

    name: str = ""
    low_nm: float = 0.0
    high_nm: float = float("inf")
    deviation: float = DEVIATION
    trouble: NotUnderstood | None = None

    @property
    def named(self) -> bool:
        """True if the line names a wrench that could be read."""
        return bool(self.name)


def read_wrench(text: str, book: Book) -> LineWrench:
    """Return the wrench of a record's name, or of a range such as ``20-100 N.m``."""
    if not text:
        return LineWrench()
    try:
        record = book.wrench(text)
    except NotUnderstood as unknown:
        try:
            stages = notation.read(text)
        except NotUnderstood:
            return LineWrench(trouble=unknown)
        if len(stages) != 1 or not isinstance(stages[0], notation.Torque):
            return LineWrench(trouble=unknown)
        low, _, high = stages[0].band
        share = DEVIATION if high > SMALL_CAPACITY_NM else DEVIATION_SMALL
        return LineWrench(text, low, high, share)
    return LineWrench(record.name, record.low_nm, record.high_nm, record.deviation)
