"""Records of printed torque tables."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, Part, Positive, Record, Share, Spread, Text


class TableRow(Part):
    """One line of a printed table: torques in the table's unit, and as printed beside it."""

    thread: Name
    strength_class: Name | None = None
    nut: Literal["tension", "shear"] | None = None
    low: Positive
    high: Positive | None = None
    most: Positive | None = None
    also: Positive | None = None

    @model_validator(mode="after")
    def _in_order(self) -> TableRow:
        high = self.low if self.high is None else self.high
        if not self.low <= high <= (self.most or high):
            key = "high" if high < self.low else "most"
            raise Disagreement(key, "not in order; low, high and most go from small to large")
        return self


class Table(Record):
    """A printed table with the conditions that it was printed for."""

    kind: Literal["printed table"]
    friction: Name
    factors: dict[Name, Share] = Field(default_factory=dict)
    into_factors: dict[Name, Share] = Field(default_factory=dict)
    tolerance: Spread | None = None
    unit: Literal["N.m", "lbf.ft", "lbf.in"]
    unit_as_printed: Text
    also_unit_as_printed: Text | None = None
    note: Text | None = None
    rows: Annotated[list[TableRow], Field(min_length=1)]
