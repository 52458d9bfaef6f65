"""A small job of the village brigade in a folder of the user's own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.jobs.session import Hand
from torquebook.jobs.working import work_out

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.jobs.model import WorkedJob, WorkedJoint

SOURCE = 'source: {kind: invented, title: "the sheet of an example", provenance: "invented"}\n'
COVER = """\
kind: joint
title: "Cover of the pump"
name: "pump cover"
fastener: {thread: "M10", strength_class: "8.8", head: "hexagon", length_mm: 30}
count: 4
layout: {circle: {diameter_mm: 100}}
into: "cast iron"
friction: "dry"
tighten: "20 N.m, 44 N.m"
"""
JOB = """\
kind: job
title: "Pump of the example"
name: "pump overhaul"
"""


class Bench(NamedTuple):
    """A user's folder of records."""

    folder: Path

    def write(self, name: str, text: str) -> None:
        """Write a record, with the source that all share."""
        path = self.folder / f"{name}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text + SOURCE, encoding="utf-8")

    def job(self, *joints: str, more: str = "", steps: str = "") -> WorkedJob:
        """Work out a job of the joints of some names, each with a record already."""
        lines = "".join(f"  - {{joint: joints/{name}}}\n" for name in joints)
        self.write("jobs/pump", f"{JOB}{more}steps:\n{lines}{steps}")
        return self.worked("pump overhaul")

    def worked(self, text: str, **options: Any) -> WorkedJob:
        """Work out a job by its name, id or file."""
        return work_out(self.library(), self.book(), text, **options)

    def record(self, name: str, /, more: str = "", **changes: str | None) -> None:
        """Write a joint: the pump's cover with some keys changed, or taken out by None."""
        lines = dict(line.split(": ", 1) for line in COVER.splitlines())
        kept = {key: value for key, value in {**lines, **changes}.items() if value is not None}
        text = "".join(f"{key}: {value}\n" for key, value in kept.items())
        self.write(f"joints/example/{name}", text + more)

    def joint(self, more: str = "", **changes: str | None) -> WorkedJoint:
        """Work out one such joint."""
        self.record("cover", more, **changes)
        return self.job("example/cover").joints[0]

    def book(self) -> Book:
        """Open the book with this folder."""
        return Book.open([self.folder])

    def library(self) -> Library:
        """Open the library with this folder."""
        return Library([self.folder])


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    """Return an empty folder for records."""
    folder = tmp_path / "mine"
    folder.mkdir()
    return Bench(folder)


GATES = """\
  - {gate: {name: "hole", question: "Is it dry?", why: "Trapped oil cracks it."}}
  - gate:
      name: "runout"
      measure: {what: "runout of the face", unit: mm, high: 0.1}
      why: "It judders."
  - gate:
      name: "gap"
      measure: {what: "gap of the sensor", unit: mm, low: 0.5, high: 1.0}
      tool: "feeler gauge"
      blocks: false
      why: "It can be set later."
"""
"""A question that blocks, a measurement that blocks, and one that does not."""


class Ticks:
    """A clock that counts seconds."""

    def __init__(self) -> None:
        self.count = 0

    def __call__(self) -> str:
        """Return the next second."""
        self.count += 1
        minutes, seconds = divmod(self.count, 60)
        return f"2026-05-02T10:{minutes:02}:{seconds:02}+02:00"


@pytest.fixture
def hand() -> Hand:
    """Return somebody at a bench, with a clock of his own."""
    return Hand("anna", "shed", 77, Ticks())


@pytest.fixture
def stretch(bench: Bench) -> WorkedJob:
    """Return a job of one joint with an angle, rechecks and three gates behind it."""
    bench.record(
        "cover",
        'rechecks: [{what: "retorque", after: "50 km"}, {what: "paint mark", after: "a run"}]\n'
        'conditions: ["cold"]\nsnug: "by hand"\nsupplies: ["oil"]\nreuse: {always_new: true, '
        'source: "invented"}\n',
        tighten='"20 N.m + 90°"',
        count="2",
        layout=None,
        stack="[{material: steel, thickness_mm: 20}]",
        fastener='{thread: "M10", strength_class: "10.9", head: "hexagon", length_mm: 40}',
        engagement_mm="15",
    )
    return bench.job("example/cover", steps=GATES)
