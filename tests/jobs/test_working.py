"""A job worked out: its joints in order, each for my unit and wrench."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.model import WorkedGate

if TYPE_CHECKING:
    from conftest import Bench

GATE = '  - {gate: {name: "hole", question: "Is it dry?", why: "Trapped oil."}}\n'


def test_steps_keep_their_order_and_number(bench: Bench) -> None:
    """Gates and joints stand as the record has them, numbered together."""
    bench.joint()
    job = bench.job("example/cover", steps=f"{GATE}  - {{joint: joints/example/cover}}\n")
    assert [step.number for step in job.steps] == [1, 2, 3]
    assert isinstance(job.steps[1], WorkedGate)
    assert [joint.number for joint in job.joints] == [1, 3]
    assert [gate.gate.name for gate in job.gates] == ["hole"]


def test_all_joints_are_judged_as_one_list(bench: Bench) -> None:
    """What the validator says of the joints and of the job itself comes worst first."""
    bench.joint(tighten='"140 N.m"')
    job = bench.job("example/cover", steps="  - {joint: joints/example/cover}\n")
    rules = [finding.rule for finding in job.findings]
    assert "joint-twice" in rules
    assert "past-yield" in rules
    assert [finding.severity for finding in job.findings] == sorted(
        finding.severity for finding in job.findings
    )
    assert "past-yield" in [finding.rule for finding in job.joints[0].answer.findings]


def test_a_job_is_found_by_name_id_and_file(bench: Bench) -> None:
    """All three lead to the same record."""
    bench.joint()
    found = [
        bench.worked(text).held.record.name
        for text in ("pump overhaul", "jobs/pump", "pump", str(bench.folder / "jobs/pump.yaml"))
    ]
    assert found == ["pump overhaul"] * 4


def test_a_mistyped_job_is_told_the_near_ones(bench: Bench) -> None:
    """The message names what was typed and what comes near."""
    with pytest.raises(NotUnderstood, match=r'"brigade-overhal".*write .*jobs/brigade-overhaul'):
        bench.worked("brigade-overhal")


@pytest.mark.parametrize(
    ("more", "step", "where"),
    [
        ("", "example/covr", "pump.yaml:5:13"),
        ("removal: [{joint: joints/example/covr}]\n", "example/cover", "pump.yaml:4:19"),
    ],
)
def test_an_unknown_joint_is_named_at_its_place(
    bench: Bench, more: str, step: str, where: str
) -> None:
    """A step that leads nowhere is one message: place, name, and what comes near."""
    bench.joint()
    with pytest.raises(Unreadable, match=r"covr.*write.*joints/example/cover") as caught:
        bench.job(step, more=more)
    assert caught.value.where.endswith(where)


def test_a_joint_only_taken_off_is_worked_out_too(bench: Bench) -> None:
    """Its number is 0, and its order of loosening is there."""
    bench.joint()
    bench.record("lid")
    job = bench.job("example/cover", more="removal: [{joint: joints/example/lid}]\n")
    ((entry, joint, order),) = job.removal
    assert (entry.joint, joint.number, order) == ("joints/example/lid", 0, (4, 2, 3, 1))


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("tighten", '"44"', "no unit"),
        ("fastener", '{thread: "M11x3"}', "M11x3"),
        ("fastener", '{thread: "3/8"}', "more than one pitch"),
        ("order", '"1-3-2-4, 1"', None),
        ("order", '"starwise"', "no order of that name"),
        ("order", '"1-3-2-x"', "no order of that name"),
    ],
)
def test_what_a_job_cannot_do_without_is_asked_for(
    bench: Bench, key: str, value: str, said: str | None
) -> None:
    """A value that cannot be read ends in one message with its place in the joint's file."""
    if said is None:
        assert bench.joint(**{key: value}).passes[0].order == (1, 3, 2, 4, 1)
        return
    with pytest.raises(Unreadable, match=said) as caught:
        bench.joint(**{key: value})
    assert "joints/example/cover.yaml:" in caught.value.where


def test_the_head_is_the_stated_one(bench: Bench) -> None:
    """One that is not stated, or that no table knows, is none."""
    assert bench.joint().head is not None
    assert bench.joint(fastener='{thread: "M10"}').head is None
    assert bench.joint(fastener='{thread: "M10", head: "hexagn"}').head is None


def test_the_reuse_verdict_is_that_of_the_rulebook(bench: Bench) -> None:
    """A plain bolt, tightened in its elastic range, is cleaned."""
    assert bench.joint().reuse.verdict == "clean"
    worked = bench.joint("reuse: {always_new: true, source: x}\n")
    assert worked.reuse.verdict == "renew"


def test_the_unit_is_the_jobs_or_the_one_asked_for(bench: Bench) -> None:
    """Both are shown as the book spells them; a unit that is none of torque is asked back."""
    bench.joint()
    assert bench.job("example/cover", more="unit: lbf.ft\n").unit == "lbf.ft"
    job = bench.worked("pump overhaul", unit="ft-lbf")
    assert job.unit == "lbf.ft"
    assert [one.shown for one in job.joints[0].stages] == ["14.8 lbf·ft", "32.5 lbf·ft"]
    with pytest.raises(NotUnderstood, match="mm"):
        bench.worked("pump overhaul", unit="mm")
