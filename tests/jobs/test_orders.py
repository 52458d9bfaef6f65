"""The passes of a joint: as its record writes them, else as its layout asks for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from conftest import Bench

    from torquebook.jobs.model import WorkedJoint

ROWS = "{rows: {lengths: [3, 3], along_mm: 60, between_mm: 40}}"
POINTS = "{points: [[0, 0], [10, 0], [0, 10], [10, 10]]}"
GROUPS = """\
groups:
  - {name: "dowels", positions: [1, 3]}
  - {name: "others", positions: [2, 4, 5, 6]}
passes:
  - {stages: [1], order: "3-1", group: "dowels"}
  - {stages: [1], order: "cross", group: "others"}
  - {stages: [2], order: "round"}
"""


def passes(worked: WorkedJoint) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    return [(one.stages, one.order) for one in worked.passes]


@pytest.mark.parametrize(
    ("layout", "count", "order"),
    [
        ("{circle: {diameter_mm: 80}}", 6, (1, 4, 2, 5, 3, 6)),
        (None, 4, (1, 3, 2, 4)),
        (ROWS, 6, (2, 5, 1, 6, 4, 3)),
        (POINTS, 4, (1, 4, 2, 3)),
        (POINTS, 5, (1, 3, 5, 2, 4)),
    ],
)
def test_a_joint_without_an_order_gets_one(
    bench: Bench, layout: str | None, count: int, order: tuple[int, ...]
) -> None:
    """Crosswise, from the centre outward, or balanced, by its layout; one pass a stage."""
    worked = bench.joint(layout=layout, count=str(count))
    assert passes(worked) == [((1,), order), ((2,), order)]


def test_one_bolt_has_no_passes(bench: Bench) -> None:
    """There is nothing to order."""
    assert bench.joint(count="1", layout=None).passes == ()


def test_each_stage_that_turns_gets_a_pass(bench: Bench) -> None:
    """A wait is for the joint as a whole."""
    worked = bench.joint(tighten='"30 N.m, wait 5 min, +90 deg"', order='"1-3-2-4"')
    assert passes(worked) == [((1,), (1, 3, 2, 4)), ((3,), (1, 3, 2, 4))]


@pytest.mark.parametrize(
    ("order", "found"),
    [
        ("1-3-2-4", [(1, (1, 3, 2, 4)), (2, (1, 3, 2, 4))]),
        ("1-3-2-4 / 1-2-3-4", [(1, (1, 3, 2, 4)), (2, (1, 2, 3, 4))]),
        (
            "1-3-2-4 / 4-2-3-1 / 1-2-3-4",
            [(1, (1, 3, 2, 4)), (2, (4, 2, 3, 1)), (2, (1, 2, 3, 4))],
        ),
        ("round", [(1, (1, 2, 3, 4)), (2, (1, 2, 3, 4))]),
        ("cross / round", [(1, (1, 3, 2, 4)), (2, (1, 2, 3, 4))]),
        ("four of my own", [(1, (2, 4, 1, 3)), (2, (2, 4, 1, 3))]),
    ],
)
def test_an_order_is_for_every_stage(
    bench: Bench, order: str, found: list[tuple[int, tuple[int, ...]]]
) -> None:
    """Several passes go to the stages in turn; those left over belong to the last."""
    bench.write(
        "patterns/mine",
        'kind: pattern\ntitle: "x"\nname: "Four of my-own"\nshape: circle\norder: [2, 4, 1, 3]\n',
    )
    worked = bench.joint(order=f'"{order}"')
    assert passes(worked) == [((stage,), way) for stage, way in found]


def test_passes_and_groups_are_as_written(bench: Bench) -> None:
    """A group's numbers are the joint's own; a named way goes over the group alone."""
    worked = bench.joint(GROUPS, count="6")
    assert passes(worked) == [
        ((1,), (3, 1)),
        ((1,), (2, 5, 4, 6)),
        ((2,), (1, 2, 3, 4, 5, 6)),
    ]
    assert [one.group for one in worked.passes] == ["dowels", "others", ""]


def test_groups_can_be_interleaved(bench: Bench) -> None:
    """A bolt of each group in turn; the larger group, balanced by itself, ends alone."""
    groups = GROUPS.partition("passes:")[0]
    worked = bench.joint(groups, count="6", order='"interleaved / round"')
    assert passes(worked) == [((1,), (1, 5, 3, 2, 4, 6)), ((2,), (1, 2, 3, 4, 5, 6))]


def test_positions_of_a_group_that_the_joint_does_not_have(bench: Bench) -> None:
    """Without a layout that holds them they lie on a circle of their own."""
    text = GROUPS.replace("[2, 4, 5, 6]", "[2, 4, 5, 7]")
    worked = bench.joint(text, count="6")
    assert worked.passes[1].order == (2, 5, 4, 7)


@pytest.mark.parametrize(
    ("layout", "count", "right"),
    [
        ("{circle: {diameter_mm: 80}}", 4, 4),
        (None, 4, 0),
        (POINTS, 4, 4),
        (POINTS, 5, 0),
        ("{points: [[0, 0], [0, 0]]}", 2, 0),
    ],
)
def test_spots_are_those_of_the_layout(
    bench: Bench, layout: str | None, count: int, right: int
) -> None:
    """None without a layout; one of another count, or with a spot twice, the validator reports."""
    assert len(bench.joint(layout=layout, count=str(count)).spots) == right


@pytest.mark.parametrize(
    ("written", "order"),
    [("", (4, 2, 3, 1)), (', order: "2-1-4-3"', (2, 1, 4, 3)), (', order: "round"', (1, 2, 3, 4))],
)
def test_loosening_goes_the_other_way(bench: Bench, written: str, order: tuple[int, ...]) -> None:
    """As written, else the order of tightening from its end."""
    bench.record("cover")
    job = bench.job("example/cover", more=f"removal: [{{joint: joints/example/cover{written}}}]\n")
    assert [one[2] for one in job.removal] == [order]


def test_groups_are_loosened_last_first(bench: Bench) -> None:
    """A last pass round the circle has no part in it."""
    bench.record("cover", GROUPS, count="6")
    job = bench.job("example/cover", more="removal: [{joint: joints/example/cover}]\n")
    assert job.removal[0][2] == (6, 4, 5, 2, 1, 3)


def test_a_single_bolt_is_loosened_as_it_is(bench: Bench) -> None:
    """Position 1 is all there is."""
    bench.record("cover", count="1", layout=None)
    job = bench.job("example/cover", more="removal: [{joint: joints/example/cover}]\n")
    assert job.removal[0][2] == (1,)


def test_an_order_of_loosening_that_is_none_is_told_at_its_place(bench: Bench) -> None:
    """The message stands in the job's file."""
    bench.record("cover")
    with pytest.raises(Unreadable, match="no order of that name") as caught:
        bench.job(
            "example/cover", more='removal: [{joint: joints/example/cover, order: "starwise"}]\n'
        )
    assert caught.value.where.endswith("pump.yaml:4:48")
