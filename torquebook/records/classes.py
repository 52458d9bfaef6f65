"""Records of strength classes of bolts."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, NotNegative, Part, Positive, Record


class ClassEntry(Part):
    """One class over one range of diameters, in the record's units."""

    name: Name
    tensile: Positive
    yield_: Annotated[Positive, Field(alias="yield")]
    proof: Positive
    elongation_pct: Positive | None = None
    over: NotNegative
    to: Positive

    @model_validator(mode="after")
    def _in_order(self) -> ClassEntry:
        if not self.proof <= self.yield_ <= self.tensile:
            key = "proof" if self.proof > self.yield_ else "yield"
            message = "not in order; proof is at most yield, and yield at most tensile"
            raise Disagreement(key, message)
        if self.over >= self.to:
            raise Disagreement(
                "over", "over is not below to; write the smaller diameter under over"
            )
        return self


class StrengthClasses(Record):
    """The classes of one edition of one standard."""

    kind: Literal["strength classes"]
    standard: Name
    edition: Name
    family: Literal["metric", "inch"]
    stress_unit: Literal["MPa", "ksi"]
    length_unit: Literal["mm", "in"]
    classes: Annotated[list[ClassEntry], Field(min_length=1)]
