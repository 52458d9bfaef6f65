"""Records of strength classes of nuts."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, NotNegative, Part, Positive, Record, Text


class NutEntry(Part):
    """One class of nuts over one range of diameters."""

    name: Name
    style: Literal["1", "2", "thin", "not stated"]
    proof_mpa: Positive
    over_mm: NotNegative
    to_mm: Positive
    pairs_with: Text | None = None

    @model_validator(mode="after")
    def _in_order(self) -> NutEntry:
        if self.over_mm >= self.to_mm:
            message = "over_mm is not below to_mm; write the smaller one under over_mm"
            raise Disagreement("over_mm", message)
        return self


class NutClasses(Record):
    """The nut classes of one edition of one standard."""

    kind: Literal["nut classes"]
    standard: Name
    edition: Name
    classes: Annotated[list[NutEntry], Field(min_length=1)]
