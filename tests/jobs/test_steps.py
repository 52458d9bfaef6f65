"""The steps of a run."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.jobs.steps import SIGN, Limits, RunStep, fingerprint, steps_of
from torquebook.jobs.working import work_out

if TYPE_CHECKING:
    from conftest import Bench

    from torquebook.jobs.model import WorkedJob


@pytest.fixture(scope="module")
def demo() -> tuple[RunStep, ...]:
    """Return the steps of the demo's job."""
    return steps_of(work_out(Library(), Book.open(), "brigade overhaul"))


def test_every_step_has_an_id_of_its_own(demo: tuple[RunStep, ...]) -> None:
    """No two steps of the demo share an id, and the sign-off is the last."""
    ids = [step.id for step in demo]
    assert len(set(ids)) == len(ids) == 226
    assert ids[-1] == SIGN


def test_bolts_are_counted_in_the_order_of_the_pass(demo: tuple[RunStep, ...]) -> None:
    """Each bolt says stage, number and position, and what to set on which wrench."""
    bolts = [s for s in demo if s.id.startswith("joints/brigade/clutch-cover/pass-2/")]
    assert [step.spot for step in bolts][:2] == [
        "stage 2 of 2, pass 2 of 3, bolt 1 of 6, position 1",
        "stage 2 of 2, pass 2 of 3, bolt 2 of 6, position 4",
    ]
    assert (bolts[0].big, bolts[0].unit, bolts[0].hint) == ("24", "N.m", ("set on click 5-25",))


def test_the_number_is_that_of_the_scale(demo: tuple[RunStep, ...]) -> None:
    """On a wrench of another unit the large number is the setting, and the job's stands by."""
    bolt = next(step for step in demo if "axle-carrier/pass-1" in step.id)
    assert (bolt.big, bolt.unit) == ("25", "lbf.ft")
    assert bolt.hint == ("set on click 20-150 lbf.ft", "the job says 33.9 N·m")
    assert "at the dowels, bolt 1 of 2" in bolt.spot


def test_one_bolt_goes_through_its_stages(demo: tuple[RunStep, ...]) -> None:
    """A joint of one bolt needs no order; slackening is a step of its own."""
    hub = [step.big for step in demo if "front-hub-nut/pass" in step.id]
    assert hub == ["60", "slacken", "15"]


def test_conditions_come_once_before_the_bolts(stretch: WorkedJob) -> None:
    """Conditions, snug and supplies stand together, and new fasteners where they must be."""
    first, second, *_ = steps_of(stretch)
    assert (first.kind, first.spot) == ("ready", "before its 2 bolts")
    assert first.says[-4:] == ("new fasteners, each time", "cold", "first by hand", "at hand: oil")
    assert second.kind == "bolt"


def test_a_joint_with_a_note_only_says_it_before_its_bolts(bench: Bench) -> None:
    """What a sheet prints before a joint, a run says too; it is read, not asked for."""
    bench.joint(note="set the gap first")
    first, second, *_ = steps_of(bench.job("example/cover"))
    assert (first.kind, first.says, first.asks) == ("ready", ("set the gap first",), "")
    assert second.kind == "bolt"


def test_a_joint_that_says_nothing_begins_with_its_bolts(bench: Bench) -> None:
    """Without conditions, snug, supplies, a note or a finding there is nothing to confirm."""
    bench.joint()
    steps = steps_of(bench.job("example/cover"))
    assert [step.kind for step in steps] == ["bolt"] * 8 + ["sign"]


def test_what_the_validator_stops_is_said_before_the_bolts(bench: Bench) -> None:
    """A stop stands in the step before the first bolt."""
    bench.joint(tighten='"140 N.m"')
    first = steps_of(bench.job("example/cover"))[0]
    assert first.kind == "ready"
    assert any(line.startswith("STOP: ") for line in first.says)


def test_a_finishing_torque_is_read_after_the_last_angle(stretch: WorkedJob) -> None:
    """It may be read at each bolt, and is due once for the joint; then the mark."""
    steps = steps_of(stretch)
    assert [s.kind for s in steps] == [
        "ready", "bolt", "bolt", "bolt", "bolt", "finish", "mark", "gate", "gate", "gate", "sign",
    ]  # fmt: skip
    angle, finish, mark = steps[3], steps[5], steps[6]
    assert angle.limits == finish.limits
    assert (angle.must, finish.must) == (False, True)
    assert steps[1].limits is None
    assert [one.id for one in mark.opens] == [
        "joints/example/cover: retorque after 50 km",
        "joints/example/cover: paint mark after a run",
    ]
    assert not finish.opens


def test_an_angle_without_a_window_has_no_reading(bench: Bench) -> None:
    """Where no window is known, none is asked for."""
    bench.joint(tighten='"20 N.m + 90°"', engagement_mm=None, kind="joint")
    steps = steps_of(bench.job("example/cover"))
    windows = [stage.window for stage in bench.job("example/cover").joints[0].stages]
    assert any(step.kind == "finish" for step in steps) == any(windows)


def test_waiting_is_one_step_for_all_bolts(bench: Bench) -> None:
    """A time of waiting stands once, between the stages or at the end."""
    bench.joint(tighten='"20 N.m, wait 10 min, 44 N.m, wait 5 min"')
    steps = steps_of(bench.job("example/cover"))
    kinds = [step.kind for step in steps if step.kind != "ready"]
    assert kinds == ["bolt"] * 4 + ["wait"] + ["bolt"] * 4 + ["wait", "sign"]
    waits = [step for step in steps if step.kind == "wait"]
    assert [step.big for step in waits] == ["wait 10 min", "wait 5 min"]


def test_a_written_pass_may_name_the_waiting(bench: Bench) -> None:
    """A pass that counts the waiting among its stages has it once."""
    bench.joint(
        'passes: [{stages: [1, 2, 3], order: "1-3-2-4"}]\n',
        tighten='"20 N.m, wait 10 min, 44 N.m"',
    )
    kinds = [step.kind for step in steps_of(bench.job("example/cover"))]
    assert [kind for kind in kinds if kind != "ready"] == (
        ["bolt"] * 4 + ["wait"] + ["bolt"] * 4 + ["sign"]
    )


def test_a_torque_that_no_wrench_covers_says_so(bench: Bench) -> None:
    """The number is the job's then, and the hint says why."""
    bench.joint()
    job = bench.worked("pump overhaul", wrenches=["click 5-25"])
    last = [step for step in steps_of(job) if step.kind == "bolt"][-1]
    assert (last.big, last.unit) == ("44", "N.m")
    assert last.hint == ("none of the wrenches can be set to this",)
    assert last.setting is None


def test_the_middle_of_a_range_is_said(bench: Bench) -> None:
    """The range stands beside the number that is set."""
    bench.joint(tighten='"40-48 N.m"')
    bolt = next(s for s in steps_of(bench.worked("pump overhaul")) if s.kind == "bolt")
    assert bolt.big == "44"
    assert bolt.hint[1] == "the job says 40–48 N·m, the middle of the range"


def test_twice_the_same_joint_has_ids_of_its_own(bench: Bench) -> None:
    """The second time round is counted."""
    bench.joint()
    steps = steps_of(bench.job("example/cover", "example/cover"))
    ids = [step.id for step in steps]
    assert len(set(ids)) == len(ids)
    assert any(ident.startswith("joints/example/cover~2/") for ident in ids)


def test_gates_say_what_is_due(stretch: WorkedJob) -> None:
    """A question, a limit that blocks, and one that does not."""
    hole, runout, gap = [step for step in steps_of(stretch) if step.kind == "gate"]
    assert (hole.blocks, hole.limits, hole.must) == (True, None, False)
    assert (runout.big, runout.unit, runout.must) == ("at most 0.1", "mm", True)
    assert (gap.blocks, gap.limits) == (False, Limits("gap of the sensor", "mm", 0.5, 1.0))
    assert "with: feeler gauge" in gap.says


@pytest.mark.parametrize(
    ("low", "high", "span"),
    [
        (None, 0.1, "at most 0.1"),
        (23.0, None, "at least 23"),
        (-0.5, 0.5, "-0.5 to 0.5"),
        (-0.5, None, "at least -0.5"),
        (None, -0.5, "at most -0.5"),
    ],
)
def test_limits_in_words(low: float | None, high: float | None, span: str) -> None:
    """Either end may be missing, and below zero."""
    assert Limits("play", "mm", low, high).span == span


def test_the_fingerprint_is_that_of_the_files(bench: Bench) -> None:
    """It changes with any of the records, and not with the unit."""
    bench.joint()
    bench.job("example/cover")
    before = fingerprint(bench.worked("pump overhaul"))
    assert fingerprint(bench.worked("pump overhaul", unit="lbf.ft")) == before
    bench.joint(tighten='"22 N.m, 44 N.m"')
    assert fingerprint(bench.worked("pump overhaul")) != before
