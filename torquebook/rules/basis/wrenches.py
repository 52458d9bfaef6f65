"""The wrench that a line names, or the tolerance of one that it does not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from torquebook import notation
from torquebook.catalogue.defaults import deviation_at
from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book


@dataclass(frozen=True)
class LineWrench:
    """Range and deviation of a line's wrench; without a name the range has no end.

    ``stated_deviation`` is that of the wrench's record, None where ISO 6789 stands in;
    ``invented`` is True where the record is one of the demo book.
    """

    name: str = ""
    low_nm: float = 0.0
    high_nm: float = float("inf")
    stated_deviation: float | None = None
    invented: bool = False
    trouble: NotUnderstood | None = None

    @property
    def named(self) -> bool:
        """True if the line names a wrench that could be read."""
        return bool(self.name)

    def deviation(self, torque_nm: float) -> float:
        """Return the deviation at a torque, as a share of it."""
        return deviation_at(torque_nm) if self.stated_deviation is None else self.stated_deviation


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
        return LineWrench(text, low, high, deviation_at(high))
    return LineWrench(record.name, record.low_nm, record.high_nm, record.deviation, record.invented)
