"""Records of torque wrenches."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, Positive, Record, Spread


class WrenchRecord(Record):
    """One torque wrench."""

    kind: Literal["wrench"]
    name: Name
    aliases: list[Name] = Field(default_factory=list)
    low: Positive
    high: Positive
    unit: Literal["N.m", "lbf.ft", "lbf.in"]
    deviation: Spread
    drive: Name

    @model_validator(mode="after")
    def _in_order(self) -> WrenchRecord:
        if self.low >= self.high:
            raise Disagreement("low", "low is not below high; write the ends of the scale")
        return self
