"""Records of heads and nuts."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from torquebook.records.base import Name, Part, Positive, Record


class HeadEntry(Part):
    """One size of a head or nut."""

    size: Name
    across_flats_mm: Positive | None = None
    key_mm: Positive | None = None
    bearing_mm: Positive | None = None


class Heads(Record):
    """The heads or nuts of one standard."""

    kind: Literal["heads"]
    head: Literal[
        "hexagon", "hexagon old DIN", "socket", "flange", "small flange", "nut", "flange nut"
    ]
    standard: Name
    aliases: list[Name] = Field(default_factory=list)
    sizes: Annotated[list[HeadEntry], Field(min_length=1)]
