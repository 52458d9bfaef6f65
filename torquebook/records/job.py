"""Records of jobs: gates and joints in working order."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints, model_validator

from torquebook.records.base import Disagreement, Name, NamedRecord, Part, Text

ID_PATTERN = r"^[a-z0-9.-]+(/[a-z0-9.-]+)*$"
RecordId = Annotated[str, StringConstraints(pattern=ID_PATTERN, max_length=120)]


class Measure(Part):
    """A reading that must lie between limits; one of them may be missing."""

    what: Text
    unit: Literal["mm", "N.m", "deg", "N", "bar", "%", "degC"]
    low: float | None = None
    high: float | None = None

    @model_validator(mode="after")
    def _some_limit_in_order(self) -> Measure:
        if self.low is None and self.high is None:
            raise ValueError("no limit; write low, high or both")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise Disagreement("low", "low is above high; write the smaller one as low")
        return self


class Gate(Part):
    """A check that must pass before the work goes on: a measurement, or a question."""

    name: Name
    measure: Measure | None = None
    question: Text | None = None
    tool: Name | None = None
    blocks: bool = True
    why: Text

    @model_validator(mode="after")
    def _one_of_two(self) -> Gate:
        if (self.measure is None) == (self.question is None):
            raise ValueError("no check, or two; write measure or question")
        return self


class Step(Part):
    """One step: a gate, or a joint by its record's id."""

    gate: Gate | None = None
    joint: RecordId | None = None

    @model_validator(mode="after")
    def _one_of_two(self) -> Step:
        if (self.gate is None) == (self.joint is None):
            raise ValueError("no step, or two; write gate or joint")
        return self


class Removal(Part):
    """One step of taking apart, where that needs an order."""

    joint: RecordId
    order: Name | None = None
    note: Text | None = None


class JobRecord(NamedRecord):
    """One piece of work."""

    kind: Literal["job"]
    unit: Literal["N.m", "lbf.ft", "lbf.in", "kgf.m"] = "N.m"
    removal: list[Removal] = Field(default_factory=list)
    steps: Annotated[list[Step], Field(min_length=1)]
