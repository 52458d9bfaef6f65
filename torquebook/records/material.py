"""Records of materials that threads are cut into and heads press on."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, Part, Positive, Range, Record, Text


class Engagement(Part):
    """The least length of engagement."""

    times_d: Positive
    source: Text


class Shear(Part):
    """Shear strength as a share of tensile strength."""

    ratio: Annotated[float, Field(gt=0, lt=1.5)]
    source: Text


class GradeEntry(Part):
    """One printed grade."""

    name: Name
    tensile_mpa: Positive
    pressure_mpa: Positive


class MaterialRecord(Record):
    """One material, or a group of like ones."""

    kind: Literal["material"]
    name: Name
    aliases: list[Name] = Field(default_factory=list)
    doubtful: list[Name] = Field(default_factory=list)
    engagement: Engagement
    tensile_mpa: Range | None = None
    pressure_mpa: Range | None = None
    grades: list[GradeEntry] = Field(default_factory=list)
    shear: Shear | None = None

    @model_validator(mode="after")
    def _bands_hold_the_grades(self) -> MaterialRecord:
        for key in ("tensile_mpa", "pressure_mpa") if self.grades else ():
            band, values = getattr(self, key), [getattr(grade, key) for grade in self.grades]
            if band is None or (band.low, band.high) != (min(values), max(values)):
                ends = f"{min(values):g} to {max(values):g}"
                message = f"{key} is not that of the grades; write low and high as {ends}"
                raise Disagreement(key, message)
        return self
