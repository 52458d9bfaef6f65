"""Judging a joint's or a job's record."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.library import Held, Library
from torquebook.catalogue.places import specs_root
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.records.job import JobRecord
from torquebook.records.joint import JointRecord
from torquebook.rules.engine import RuleFault
from torquebook.rules.judge_records import added, judged, record_of
from torquebook.rules.registry import RULES

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.catalogue.book import Book

SOURCE = 'source: {kind: manual, title: "an example", provenance: "invented"}\n'
JOINT = f"""\
kind: joint
title: "Cover"
name: "cover"
fastener: {{thread: "M8", strength_class: "8.8"}}
count: 4
friction: "oiled"
tighten: "10 N.m, 57 N.m"
order: "1-3-2-4"
passes:
  - {{stages: [1], order: "1-3-2-4"}}
{SOURCE}"""
JOB = f"""\
kind: job
title: "Overhaul"
name: "overhaul"
steps:
  - joint: joints/cover
  - joint: joints/brigade/starter
  - joint: joints/cover
{SOURCE}"""


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """Return a user's folder with a joint and a job, each with mistakes."""
    for shelf, name, text in (("joints", "cover", JOINT), ("jobs", "overhaul", JOB)):
        (tmp_path / shelf).mkdir()
        (tmp_path / shelf / f"{name}.yaml").write_text(text, encoding="utf-8")
    return tmp_path


def held_of(text: str, library: Library) -> Held[JointRecord] | Held[JobRecord]:
    held = record_of(text, library)
    assert held is not None
    return held


def test_a_joint_is_judged_as_a_line_and_as_a_whole(mine: Path, book: Book) -> None:
    """Findings of both kinds stand at the values of the joint's own file, worst first."""
    library = Library([mine])
    verdict = judged(held_of("joints/cover", library), book, library)
    file = mine / "joints" / "cover.yaml"
    assert verdict.plan.name == "joints/cover"
    assert [(finding.rule, str(finding.place)) for finding in verdict.findings] == [
        ("past-yield", f"{file}:7:10"),
        ("pass-skips-stage", f"{file}:10:3"),
    ]
    assert verdict.own == ()


def test_a_job_judges_its_joints_as_one_list(mine: Path, book: Book) -> None:
    """Each joint is judged once, in working order, at its own file; the job's faults at its own."""
    library = Library([mine])
    verdict = judged(held_of("jobs/overhaul", library), book, library)
    assert [answer.line.text("joint") for answer in verdict.answers] == ["cover", "starter motor"]
    assert [answer.line.number for answer in verdict.answers] == [5, 6]
    assert [finding.rule for finding in verdict.answers[0].findings] == [
        "past-yield",
        "pass-skips-stage",
    ]
    assert verdict.answers[1].findings == ()
    assert [(finding.rule, str(finding.place)) for finding in verdict.own] == [
        ("joint-twice", f"{mine / 'jobs' / 'overhaul.yaml'}:7:12")
    ]
    assert {finding.place.file for finding in verdict.findings} == {
        str(mine / "joints" / "cover.yaml"),
        str(mine / "jobs" / "overhaul.yaml"),
    }


def test_a_users_joint_covers_ours(tmp_path: Path, book: Book) -> None:
    """Of two joints of one id a job takes the user's."""
    file = tmp_path / "joints" / "brigade" / "starter.yaml"
    file.parent.mkdir(parents=True)
    file.write_text(JOINT.replace('"cover"', '"starter"'), encoding="utf-8")
    library = Library([tmp_path])
    verdict = judged(held_of("jobs/brigade-overhaul", library), book, library)
    (stopped,) = {finding.place.file for finding in verdict.findings if finding.severity == 0}
    assert stopped == str(file)


def test_a_joint_with_a_fault_refuses_the_job(mine: Path, book: Book) -> None:
    """A job is not judged around a joint whose record cannot be read."""
    file = mine / "joints" / "cover.yaml"
    file.write_text(JOINT.replace("count: 4", "count: four"), encoding="utf-8")
    library = Library([mine])
    with pytest.raises(Unreadable, match=r"cover\.yaml:5:8"):
        judged(held_of("jobs/overhaul", library), book, library)


def test_a_record_is_named_by_its_file_or_its_id(mine: Path) -> None:
    """Files of joints and jobs, and ids; a file is called as it was named."""
    library = Library([mine])
    file = str(mine / "jobs" / "overhaul.yaml")
    assert isinstance(held_of(file, library).record, JobRecord)
    assert isinstance(held_of("joints/brigade/flywheel", library).record, JointRecord)
    assert str(held_of("jobs/brigade-overhaul", library).path).startswith(str(specs_root()))
    assert held_of("jobs/brigade-overhaul", library).id == "jobs/brigade-overhaul"


@pytest.mark.parametrize(
    "text",
    [
        "M8 8.8 20 N.m",
        "plans/front",
        "nowhere.yaml",
        "joints/",
        "wrenches/brigade/click-5-25",
        "-",
        f"joints/{5000 * 'x'}.yaml",
    ],
)
def test_what_is_no_record_is_left_to_the_plans(text: str) -> None:
    """Lines, plans and records of other kinds are none of these."""
    assert record_of(text, Library()) is None


def test_a_plan_in_yaml_is_no_record(tmp_path: Path) -> None:
    """A list of lines may have a kind in each of them and stays a plan."""
    file = tmp_path / "plan.yaml"
    file.write_text("lines:\n  - tighten: 20 N.m\n    kind: joint\n", encoding="utf-8")
    assert record_of(str(file), Library()) is None


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("kind: hinge\ntitle: x\n", 'a.yaml:1:7: "hinge" is no kind of record'),
        ("{kind: joint, title: x}\n", "a.yaml:1:1: the key count is missing"),
    ],
)
def test_a_file_that_says_its_kind_is_a_record(text: str, what: str, tmp_path: Path) -> None:
    """Whatever the kind and the style, its faults are those of a record."""
    file = tmp_path / "a.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable) as caught:
        record_of(str(file), Library())
    assert what in str(caught.value)


def test_a_record_of_another_kind_is_refused() -> None:
    """Only joints and jobs are judged."""
    file = specs_root() / "wrenches" / "brigade" / "click-5-25.yaml"
    with pytest.raises(Unreadable, match='a record of the kind "wrench"; name a joint'):
        record_of(str(file), Library())


def test_a_file_that_cannot_be_read_is_left_to_the_plans(tmp_path: Path) -> None:
    """The readers of plans say what is wrong with it."""
    file = tmp_path / "a.yaml"
    file.write_bytes(b"kind: joint\ntitle: \xff\n")
    assert record_of(str(file), Library()) is None
    file.write_text("kind: [joint\n", encoding="utf-8")
    assert record_of(str(file), Library()) is None


def test_an_unknown_id_is_answered_with_near_ones() -> None:
    """A mistyped id offers those that look alike."""
    with pytest.raises(NotUnderstood) as caught:
        record_of("jobs/brigade-overhall", Library())
    assert caught.value.readings[0] == "jobs/brigade-overhaul"


def test_a_broken_rule_is_named(mine: Path, book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """A rule about records that fails names itself and the file."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("torquebook.rules.positions.covered", broken)
    library = Library([mine])
    with pytest.raises(RuleFault, match=r"pass-misses, .*cover\.yaml:1:1"):
        judged(held_of("joints/cover", library), book, library)


def test_rules_about_records_are_not_asked_of_lines(mine: Path, book: Book) -> None:
    """No answer lists a rule about whole records among the unjudged ones."""
    library = Library([mine])
    verdict = judged(held_of("joints/cover", library), book, library)
    (answer,) = verdict.answers
    asked = {slug for rules in answer.unjudged.values() for slug in rules}
    assert asked
    assert all(RULES[slug].about == ("line",) for slug in asked)


def test_a_job_adds_what_its_joints_do_not_say_themselves(mine: Path, book: Book) -> None:
    """A joint's own fault is not said again in the list's words; what only the list shows is."""
    level = ("15.8", "16", "16.2", "16.4", "16.6")
    joints = {
        "wheel": ("M12", "57 N.m"),
        "odd": ("M8", "23 N.m"),
        **{f"level-{nominal}": ("M8", f"{nominal} N.m") for nominal in level},
    }
    for name, (thread, torque) in joints.items():
        text = JOINT.replace('"M8"', f'"{thread}"').replace("57 N.m", torque)
        text = text.replace("[1]", "[1, 2]").replace('"cover"', f'"{name}"')
        (mine / "joints" / f"{name}.yaml").write_text(text, encoding="utf-8")
    steps = "".join(f"  - joint: joints/{name}\n" for name in ("cover", *joints))
    job = f"{JOB.partition('  - joint')[0]}{steps}{SOURCE}"
    (mine / "jobs" / "overhaul.yaml").write_text(job, encoding="utf-8")
    library = Library([mine])
    held = library.one("jobs", JobRecord, "jobs/overhaul")
    (repeated,) = (f for f in judged(held, book, library).findings if f.rule == "past-yield")
    assert repeated.message.endswith("line 6 has the same for M12 8.8")
    (own,) = added(held, book, library)
    assert (own.rule, own.place.file) == ("wrong-row", str(mine / "joints" / "odd.yaml"))
    assert "by the level of 7 other lines of this list" in own.message
