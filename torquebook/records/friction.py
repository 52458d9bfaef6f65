"""Records of friction."""

from __future__ import annotations

from typing import Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, Range, Record


class FrictionRecord(Record):
    """Friction of one condition of thread and bearing face."""

    kind: Literal["friction"]
    name: Name
    aliases: list[Name] = Field(default_factory=list)
    doubtful: list[Name] = Field(default_factory=list)
    mu_thread: Range
    mu_head: Range
    lubricated: bool

    @model_validator(mode="after")
    def _possible(self) -> FrictionRecord:
        for key, band in (("mu_thread", self.mu_thread), ("mu_head", self.mu_head)):
            if not 0 < band.low <= band.high <= 1:
                message = "no coefficient of friction; write values between 0 and 1"
                raise Disagreement(key, message)
        return self
