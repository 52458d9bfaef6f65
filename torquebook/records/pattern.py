"""Records of published orders of tightening."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, NamedRecord


class PatternRecord(NamedRecord):
    """One published order over the positions of a circle or of rows."""

    kind: Literal["pattern"]
    shape: Literal["circle", "rows"]
    order: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(min_length=2)]

    @model_validator(mode="after")
    def _every_position_once(self) -> PatternRecord:
        if sorted(self.order) != list(range(1, len(self.order) + 1)):
            message = "not every position once; write each number from 1 up once"
            raise Disagreement("order", message)
        return self
