"""Records of the reuse rulebook: what a fastener that was taken out gets, and by which table."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.records.base import Disagreement, Name, NamedRecord, Part, Positive, Text

Feature = Literal[
    "plain",
    "stretch",
    "angle tightened",
    "adhesive patch",
    "nylon patch",
    "locking nut",
    "nylon-insert nut",
    "all-metal locking nut",
    "rotating part",
    "cotter pin",
    "lock wire",
    "spring washer",
    "toothed washer",
    "tab washer",
    "castellated nut",
    "staked nut",
    "aluminium",
    "exhaust nut",
    "exhaust stud",
    "driveline",
    "suspension",
    "ribbed head",
    "flywheel",
    "clutch cover",
    "wheel",
    "crush washer",
    "bonded seal",
    "circlip",
    "roll pin",
    "dowel",
    "coil insert",
    "structural A325",
    "structural A490",
    "galvanised",
    "electroplated",
    "pickled",
    "over 390 HV",
]
"""What is special on a fastener or belongs to it; a locking nut's kind is not said."""

History = Literal[
    "elastic",
    "past yield",
    "may be past yield",
    "found loose",
    "tightened repeatedly",
    "corroded",
    "pitted",
    "damaged thread",
    "tapered shank",
    "came out with its nut",
]
"""What a fastener has been through."""

Verdict = Literal["renew", "measure", "clean", "reuse"]

Given = Literal[
    "always new", "length limit", "uses allowed", "least diameter", "most difference", "growth"
]
"""What must be known of a fastener for a rule: what its maker says, or that it was measured."""


class Check(Part):
    """What is looked at or measured before a fastener goes in again, and its limit."""

    what: Text
    quantity: Literal[
        "look", "growth", "length", "diameter", "diameter difference", "drag", "uses"
    ] = "look"
    most: Positive | None = None
    unit: Literal["share", "mm", "N.m", "times"] | None = None
    table: Name | None = None


class ReuseRule(NamedRecord):
    """One rule of the reuse rulebook.

    It applies to a fastener that has one of ``features``, one of ``also``, none of ``unless``,
    one of ``histories``, one of ``classes``, and of which all that is ``given`` is known; an
    empty list asks nothing.
    """

    kind: Literal["reuse rule"]
    features: list[Feature] = Field(default_factory=list)
    also: list[Feature] = Field(default_factory=list)
    histories: list[History] = Field(default_factory=list)
    unless: list[Feature] = Field(default_factory=list)
    classes: list[Name] = Field(default_factory=list)
    given: list[Given] = Field(default_factory=list)
    verdict: Verdict
    strictness: Annotated[int, Field(ge=1, le=9)]
    checks: list[Check] = Field(default_factory=list)
    otherwise: Text | None = None
    why: Text

    @model_validator(mode="after")
    def _measures_something(self) -> ReuseRule:
        if self.verdict == "measure" and not self.checks:
            raise Disagreement("verdict", "nothing to measure; write checks")
        return self

    @model_validator(mode="after")
    def _applies_to_something(self) -> ReuseRule:
        if not (self.features or self.histories or self.classes or self.given):
            raise ValueError("it would apply to all; write features, histories, classes or given")
        return self


class DragRow(Part):
    """The prevailing torques of one thread; ``off_least`` where the page names no removal."""

    thread: Name
    first_on_most: Positive | None = None
    first_off_least: Positive | None = None
    fifth_off_least: Positive | None = None
    off_least: Positive | None = None
    again_least: Positive | None = None

    @model_validator(mode="after")
    def _limits_something(self) -> DragRow:
        least = (self.first_off_least, self.fifth_off_least, self.off_least, self.again_least)
        if least == (None,) * 4:
            raise ValueError("no least torque; write again_least, or what the table prints")
        return self


class DragTable(NamedRecord):
    """A printed table of prevailing torques."""

    kind: Literal["prevailing torques"]
    unit: Literal["N.m", "lbf.in", "lbf.ft"]
    nuts: Text
    rows: Annotated[list[DragRow], Field(min_length=1)]


class Preference(NamedRecord):
    """A user's choice between sources that contradict each other: titles, the first wins."""

    kind: Literal["preference"]
    prefer: Annotated[list[Text], Field(min_length=1)]
