"""What a rule says about one line: severity, place, finding."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum
from typing import TYPE_CHECKING

from torquebook.errors import TorquebookError

if TYPE_CHECKING:
    from collections.abc import Mapping


class Severity(IntEnum):
    """How serious a finding is; ``STOP`` sorts first."""

    STOP = 0
    ASK = 1
    NOTE = 2

    @property
    def word(self) -> str:
        """The severity as it is printed and typed."""
        return self.name.lower()


@dataclass(frozen=True, order=True, slots=True)
class Place:
    """Where something stands: a file and a line, and a column or a cell where known.

    ``line`` and ``column`` count from 1, as an editor shows them; ``cell`` is a
    spreadsheet's name for a place, such as ``C7``.
    """

    file: str
    line: int
    column: int = 1
    cell: str = ""

    def __post_init__(self) -> None:
        """Refuse a place that no editor could show."""
        if self.line < 1 or self.column < 1:
            raise TorquebookError(f"{self.file}: line {self.line}, column {self.column}: from 1 up")

    def __str__(self) -> str:
        """Return ``file:line:column``, or ``file cell C7``."""
        return (
            f"{self.file} cell {self.cell}"
            if self.cell
            else f"{self.file}:{self.line}:{self.column}"
        )


@dataclass(frozen=True, slots=True)
class Finding:
    """What one rule says about one line.

    Parameters
    ----------
    rule : str
        The rule's slug.
    severity : Severity
    place : Place
        The cell that is wrong, or the line where no single cell is.
    joint : str
        The joint's name, empty if it has none.
    message : str
        What is wrong, with the numbers that were compared and their units.
    numbers : mapping of str to float
        The same numbers for programs; names end in their unit.
    instead : str or None
        What would be right, where that can be said.
    source : str
        The document that the comparison rests on.
    """

    rule: str
    severity: Severity
    place: Place
    joint: str
    message: str
    source: str
    instead: str | None = None
    numbers: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse a finding that says nothing."""
        if not self.message.strip() or not self.rule:
            raise TorquebookError("a finding needs a rule and a message")

    @property
    def order(self) -> tuple[Severity, Place, str]:
        """Worst first, then by place, then by rule."""
        return (self.severity, self.place, self.rule)
