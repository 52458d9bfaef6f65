"""Records of threads."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from torquebook.errors import OutOfRange
from torquebook.mechanics.thread import root_diameter
from torquebook.records.base import Disagreement, Name, Part, Positive, Record


def _bolt_is_left(key: str, d_mm: float, pitch_mm: float) -> None:
    """Refuse a thread that would cut through its bolt."""
    try:
        root_diameter(d_mm, pitch_mm)
    except OutOfRange as fault:
        message = "too coarse a thread for this diameter; look at both again"
        raise Disagreement(key, message) from fault


class MetricThread(Part):
    """One metric size and pitch."""

    size: Name
    d_mm: Positive
    pitch_mm: Positive
    series: Literal["coarse", "fine"]

    @model_validator(mode="after")
    def _size_says_the_same(self) -> MetricThread:
        pitch = "" if self.series == "coarse" else f"x{self.pitch_mm:g}"
        wanted = f"M{self.d_mm:g}{pitch}"
        if self.size != wanted:
            message = f'size is "{self.size}"; d, pitch and series make it "{wanted}"'
            raise Disagreement("size", message)
        _bolt_is_left("pitch_mm", self.d_mm, self.pitch_mm)
        return self


class MetricThreads(Record):
    """Metric threads of one standard."""

    kind: Literal["metric threads"]
    threads: Annotated[list[MetricThread], Field(min_length=1)]


class InchThread(Part):
    """One inch size and pitch."""

    size: Name
    d_in: Positive
    tpi: Positive
    series: Literal["UNC", "UNF", "UNS", "UNEF", "UN"]

    @model_validator(mode="after")
    def _size_says_the_pitch(self) -> InchThread:
        if self.size.rpartition("-")[2] != f"{self.tpi:g}":
            message = f'size "{self.size}" ends in another pitch; write -{self.tpi:g}'
            raise Disagreement("size", message)
        _bolt_is_left("tpi", self.d_in, 1 / self.tpi)
        return self


class InchThreads(Record):
    """Inch threads of one standard."""

    kind: Literal["inch threads"]
    threads: Annotated[list[InchThread], Field(min_length=1)]
