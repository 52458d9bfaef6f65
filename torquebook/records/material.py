"""Records of materials that threads are cut into and heads press on."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from torquebook.records.base import Name, Part, Positive, Range, Record, Text


class Engagement(Part):
    """The least length of engagement."""

    times_d: Positive
    source: Text


class MaterialRecord(Record):
    """One material, or a group of like ones."""

    kind: Literal["material"]
    name: Name
    aliases: list[Name] = Field(default_factory=list)
    engagement: Engagement
    tensile_mpa: Range | None = None
    pressure_mpa: Range | None = None
