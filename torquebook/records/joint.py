"""Records of joints: like fasteners that are tightened as one pattern."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, NamedRecord, Part, Positive, Text
from torquebook.records.reuse import Feature, History  # noqa: TC001 - the model reads them

Coordinate = Annotated[float, Field(gt=-1e6, lt=1e6)]
Count = Annotated[int, Field(ge=1, le=200)]
Position = Annotated[int, Field(ge=1, le=200)]


class Fastener(Part):
    """Thread, length, head, class and coating of a joint's bolts, and what is special on them."""

    thread: Name
    strength_class: Name | None = None
    head: Name | None = None
    length_mm: Positive | None = None
    nut: Name | None = None
    features: list[Feature] = Field(default_factory=list)
    history: list[History] = Field(default_factory=list)
    kind: (
        Literal[
            "stretch",
            "plug",
            "sensor",
            "nozzle",
            "pipe nut",
            "prevailing",
            "breakaway",
            "adjusting",
        ]
        | None
    ) = None


class Circle(Part):
    """Positions on a bolt circle, 1 at ``start_deg`` (0 is on top), clockwise."""

    diameter_mm: Positive
    start_deg: Coordinate = 0.0
    counted: Literal["clockwise", "anticlockwise"] = "clockwise"


class Rows(Part):
    """Positions in rows, counted along the first row, then along the second."""

    lengths: Annotated[list[Count], Field(min_length=1, max_length=20)]
    along_mm: Positive
    between_mm: Positive


class Layout(Part):
    """Where the positions lie: on a circle, in rows, or at coordinates [mm], x right, y up."""

    circle: Circle | None = None
    rows: Rows | None = None
    points: list[Annotated[list[Coordinate], Field(min_length=2, max_length=2)]] | None = None

    @model_validator(mode="after")
    def _one_of_three(self) -> Layout:
        if sum(part is not None for part in (self.circle, self.rows, self.points)) != 1:
            raise ValueError("no layout, or more than one; write one of circle, rows, points")
        return self


class Group(Part):
    """Positions that are tightened before or after others."""

    name: Name
    positions: Annotated[list[Position], Field(min_length=1)]


class Pass(Part):
    """One way over the positions, at one or more stages of ``tighten``, counted from 1."""

    stages: Annotated[list[Annotated[int, Field(ge=1, le=20)]], Field(min_length=1)]
    order: Name
    group: Name | None = None


class Layer(Part):
    """One clamped part, from the head down."""

    material: Name
    thickness_mm: Positive


class Limits(Part):
    """What the maker says of using the fasteners again."""

    uses_allowed: Annotated[int, Field(ge=1, le=50)] | None = None
    length_new_mm: Positive | None = None
    length_limit_mm: Positive | None = None
    always_new: bool = False
    source: Text

    @model_validator(mode="after")
    def _longer_than_new(self) -> Limits:
        new, limit = self.length_new_mm, self.length_limit_mm
        if new and limit and limit <= new:
            raise Disagreement(
                "length_limit_mm",
                "the limit is not above the new length; write the longer one as limit",
            )
        return self


class Recheck(Part):
    """What is looked at again later: a torque, a mark, a play."""

    what: Text
    after: Name


class JointRecord(NamedRecord):
    """One joint: its fasteners, where they lie, what they clamp, and how they are tightened."""

    kind: Literal["joint"]
    fastener: Fastener
    count: Count
    layout: Layout | None = None
    groups: list[Group] = Field(default_factory=list)
    stack: list[Layer] = Field(default_factory=list)
    into: Name | None = None
    engagement_mm: Positive | None = None
    hole_depth_mm: Positive | None = None
    friction: Name | None = None
    tighten: Text
    snug: Text | None = None
    order: Name | None = None
    passes: list[Pass] = Field(default_factory=list)
    reuse: Limits | None = None
    conditions: list[Text] = Field(default_factory=list)
    rechecks: list[Recheck] = Field(default_factory=list)
    supplies: list[Text] = Field(default_factory=list)
    wrench: Name | None = None
    note: Text | None = None
