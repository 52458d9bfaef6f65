"""A joint's record as a line of a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.library import Held, hold
from torquebook.findings import Place
from torquebook.plans.fromspec import joint_line
from torquebook.plans.model import COLUMNS
from torquebook.records.joint import JointRecord

if TYPE_CHECKING:
    from pathlib import Path

FULL = """\
kind: joint
title: "Axle cover of an invented truck"
name: "axle cover"
fastener:
  thread: "M10"
  strength_class: "8.8"
  head: "hexagon"
  length_mm: 30
  history: [elastic]
count: 4
stack:
  - {material: "steel", thickness_mm: 8}
  - {material: "cast iron", thickness_mm: 4.5}
into: "cast iron"
engagement_mm: 18
hole_depth_mm: 25
friction: "oiled"
tighten: "20 N.m, 45 N.m"
passes:
  - {stages: [1], order: "1-3-2-4"}
  - {stages: [2], order: "1-2-3-4"}
wrench: "click 20-100"
note: "new gasket"
rechecks:
  - {what: "retorque", after: "50 km"}
source: {kind: invented, title: "an example", provenance: "invented"}
"""
LEAST = """\
kind: joint
title: "A plug"
name: "plug"
fastener: {thread: "M22x1.5", kind: plug}
count: 1
tighten: "45 N.m"
source: {kind: invented, title: "an example", provenance: "invented"}
"""


def held(text: str, tmp_path: Path) -> Held[JointRecord]:
    path = tmp_path / "joint.yaml"
    path.write_text(text, encoding="utf-8")
    return hold(path, JointRecord, "joints/joint")


def cells(text: str, tmp_path: Path) -> dict[str, str]:
    return {column: cell.text for column, cell in joint_line(held(text, tmp_path)).cells.items()}


def test_every_stated_value_has_its_column(tmp_path: Path) -> None:
    """A record that says everything fills the plan's columns, and a line reads them back."""
    assert cells(FULL, tmp_path) == {
        "joint": "axle cover",
        "thread": "M10",
        "class": "8.8",
        "count": "4",
        "tighten": "20 N.m, 45 N.m",
        "friction": "oiled",
        "head": "hexagon",
        "under": "steel",
        "into": "cast iron",
        "engagement": "18 mm",
        "hole_depth": "25 mm",
        "clamp_length": "12.5 mm",
        "length": "30 mm",
        "state": "used",
        "order": "1-3-2-4",
        "wrench": "click 20-100",
        "source": "invented: an example",
        "note": "new gasket",
    }
    line = joint_line(held(FULL, tmp_path))
    assert line.problems == ()
    assert line.count == 4
    assert line.order == ((1, 3, 2, 4),)
    assert line.clamp_length_mm is not None
    assert line.clamp_length_mm.nominal == pytest.approx(12.5)
    assert set(line.cells) <= set(COLUMNS)


def test_what_is_not_stated_stays_empty(tmp_path: Path) -> None:
    """Nothing is filled in that the record does not say."""
    assert cells(LEAST, tmp_path) == {
        "joint": "plug",
        "kind": "plug",
        "thread": "M22x1.5",
        "count": "1",
        "tighten": "45 N.m",
        "source": "invented: an example",
    }


def test_every_cell_stands_where_its_value_does(tmp_path: Path) -> None:
    """The text in the file begins at the place of its cell."""
    line = joint_line(held(FULL, tmp_path))
    name = str(tmp_path / "joint.yaml")
    rows = FULL.split("\n")
    for column, cell in line.cells.items():
        assert cell.place.file == name
        if column in {"engagement", "hole_depth", "length", "clamp_length"}:
            continue
        at = rows[cell.place.line - 1][cell.place.column - 1 :].lstrip('["')
        first = cell.text.removeprefix("invented: ")
        assert at.startswith("elastic" if column == "state" else first), column
    assert line.place_of("tighten") == Place(name, 18, 10)
    assert line.place_of("engagement") == Place(name, 15, 16)
    assert line.place_of("clamp_length") == Place(name, 12, 3)
    assert line.number == 1


A, B = "stages: [1], order: '4-2', group: a", "stages: [1], order: '1-3', group: b"


@pytest.mark.parametrize(
    ("passes", "order"),
    [
        ("[{stages: [1], order: '1-3-2-4'}, {stages: [2], order: '1-2-3-4'}]", "1-3-2-4"),
        (f"[{{{A}}}, {{{B}}}]", ""),
        (f"[{{{A}}}, {{{B}}}, {{stages: [2], order: '1-2-3-4'}}]", ""),
        ("[{stages: [1], order: '1-3-2-4'}, {stages: [2], order: '4-2', group: a}]", "1-3-2-4"),
        ("[{stages: [1, 2], order: cross}]", "cross"),
    ],
)
def test_the_order_is_the_first_way_over_all_positions(
    passes: str, order: str, tmp_path: Path
) -> None:
    """A group's order is none of the joint's, and a later pass is not the first."""
    head, _, rest = FULL.partition("passes:\n")
    text = f"{head}passes: {passes}\n{rest[rest.index('wrench') :]}"
    assert cells(text, tmp_path).get("order", "") == order


def test_a_stretch_bolt_is_one_by_its_features_too(tmp_path: Path) -> None:
    """The feature says what the kind leaves out, and bolts that are always renewed are new."""
    text = FULL.replace("history: [elastic]", "features: [stretch]").replace(
        "source:", 'reuse: {always_new: true, source: "an example"}\nsource:'
    )
    found = cells(text, tmp_path)
    assert found["kind"] == "stretch"
    assert found["state"] == "new"


def test_what_cannot_be_read_is_a_problem_of_the_line(tmp_path: Path) -> None:
    """A torque without its unit is no fault of the record, but of the joint's line."""
    line = joint_line(held(FULL.replace("20 N.m, 45 N.m", "20, 45"), tmp_path))
    assert [problem.column for problem in line.problems] == ["tighten"]
    assert line.problems[0].place.line == 18
