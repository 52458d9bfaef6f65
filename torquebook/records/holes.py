"""Records of clearance holes and tapping drills."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, Part, Positive, Record


class HoleEntry(Part):
    """The three clearance holes for one diameter."""

    d_mm: Positive
    fine_mm: Positive
    medium_mm: Positive
    coarse_mm: Positive

    @model_validator(mode="after")
    def _in_order(self) -> HoleEntry:
        for smaller, larger in pairwise(("d_mm", "fine_mm", "medium_mm", "coarse_mm")):
            if getattr(self, smaller) >= getattr(self, larger):
                message = "not in order; d, fine, medium, coarse go from small to large"
                raise Disagreement(larger, message)
        return self


class Holes(Record):
    """Clearance holes of one standard."""

    kind: Literal["holes"]
    holes: Annotated[list[HoleEntry], Field(min_length=1)]


class DrillEntry(Part):
    """The drill for one cut thread."""

    size: Name
    drill_mm: Positive


class TappingDrills(Record):
    """Drills for cut threads."""

    kind: Literal["tapping drills"]
    drills: Annotated[list[DrillEntry], Field(min_length=1)]
