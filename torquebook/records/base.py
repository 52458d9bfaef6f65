"""What all records share: strictness, the source, bands, and kinds of text and numbers."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, model_validator

Text = Annotated[str, StringConstraints(min_length=1, max_length=500)]
Name = Annotated[str, StringConstraints(pattern=r"^[^\s|/;](?:[^|;]*[^\s|;])?$", max_length=80)]
Positive = Annotated[float, Field(gt=0, lt=1e9)]
NotNegative = Annotated[float, Field(ge=0, lt=1e9)]
Share = Annotated[float, Field(gt=0, le=2)]
Spread = Annotated[float, Field(gt=0, le=0.5)]
"""Give or take such a share: no wrench and no table is worse than by half."""

SourceKind = Literal[
    "standard", "handbook", "manual", "common practice", "memory", "invented", "maker", "measured"
]


class Disagreement(ValueError):
    """Facts that contradict each other: what is wrong, then what would be right.

    Parameters
    ----------
    key : str
        Whose value is pointed at.
    message : str
        Both, with a semicolon between them.
    """

    def __init__(self, key: str, message: str) -> None:
        super().__init__(message)
        self.key = key


class Part(BaseModel):
    """A mapping inside a record: nothing unknown, nothing converted, nothing changed later."""

    model_config = ConfigDict(
        strict=True, frozen=True, extra="forbid", allow_inf_nan=False, defer_build=True
    )


class Source(Part):
    """Where the facts of a record come from."""

    kind: SourceKind
    title: Text
    edition: Text = "not stated"
    where: Text = "not stated"
    conditions: Text = "not stated"
    provenance: Text

    @property
    def line(self) -> str:
        """The source in one line, as answers print it."""
        said = [self.title]
        said += [text for text in (self.edition, self.where) if text != "not stated"]
        first = "" if self.kind in {"standard", "handbook", "manual"} else f"{self.kind}: "
        return first + ", ".join(said)


class Record(Part):
    """A record: its kind, its title, its facts and its source."""

    kind: str
    title: Text
    source: Source


class NamedRecord(Record):
    """A record that is asked for by a name of its own."""

    name: Name


class Range(Part):
    """Low, nominal and high value of a quantity."""

    low: NotNegative
    nominal: NotNegative
    high: NotNegative

    @model_validator(mode="after")
    def _in_order(self) -> Range:
        if not self.low <= self.nominal <= self.high:
            raise ValueError("not in order; write low, nominal, high from small to large")
        return self

    @property
    def row(self) -> list[float]:
        """The three values as the index holds them."""
        return [self.low, self.nominal, self.high]
