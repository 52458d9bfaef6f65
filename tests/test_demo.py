"""The demo lists: one is clean, the other shows what was planted in it, and both are invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.findings import Severity
from torquebook.plans.fromspec import joint_line
from torquebook.plans.reading import read_plan
from torquebook.records.job import JobRecord
from torquebook.records.joint import JointRecord
from torquebook.rules.judge import Verdict, judge
from torquebook.rules.judge_records import judged

PLANS = Path(__file__).parents[1] / "specs" / "plans"
CLEAN = PLANS / "brigade-overhaul.csv"
PLANTED = PLANS / "brigade-overhaul-mistakes.csv"


def test_the_clean_list_is_clean() -> None:
    """One note on the stretch bolts is all, and every bolt with a class has a preload."""
    verdict = judge(read_plan(CLEAN), Book.open())
    assert [(f.place.line, f.rule) for f in verdict.findings] == [(2, "stretch-used")]
    assert verdict.counts[Severity.NOTE] == 1
    judged = [answer for answer in verdict.answers if answer.utilisation is not None]
    assert (len(verdict.answers), len(judged)) == (25, 21)


@pytest.mark.parametrize(
    ("line", "rule", "severity"),
    [
        (2, "angle-too-far", Severity.STOP),
        (3, "round-the-circle", Severity.ASK),
        (4, "engagement-short", Severity.ASK),
        (5, "unit-unsaid", Severity.ASK),
        (6, "diameter-as-torque", Severity.STOP),
        (8, "position-missed", Severity.STOP),
        (9, "nut-weaker", Severity.ASK),
        (10, "over-proof", Severity.ASK),
        (11, "unit-doubtful", Severity.STOP),
        (14, "size-unlisted", Severity.ASK),
        (15, "stage-falls", Severity.ASK),
        (19, "low-above-high", Severity.ASK),
        (20, "off-scale", Severity.ASK),
        (21, "stage-falls", Severity.ASK),
    ],
)
def test_each_planted_mistake_is_found(line: int, rule: str, severity: Severity) -> None:
    """Each mistake planted in the second list is found at its line by its rule."""
    findings = judge(read_plan(PLANTED), Book.open()).findings
    assert severity in {f.severity for f in findings if (f.place.line, f.rule) == (line, rule)}


def test_only_planted_lines_are_found() -> None:
    """Lines that are alike in both lists keep quiet in the second one too."""
    clean, planted = read_plan(CLEAN), read_plan(PLANTED)
    changed = {
        after.number
        for before, after in zip(clean, planted, strict=True)
        if any(before.text(c) != after.text(c) for c in before.cells if c not in ("spec", "note"))
    }
    found = {finding.place.line for finding in judge(planted, Book.open()).findings}
    assert found == changed


def test_demo_lists_say_that_they_are_invented() -> None:
    """Every line of the demo lists names its source as invented."""
    lines = [line for path in (CLEAN, PLANTED) for line in read_plan(path)]
    assert {line.text("source") for line in lines} == {"invented"}


@pytest.fixture(scope="module")
def job() -> Verdict:
    """Return what the demo's job is judged to be."""
    book, library = Book.open(), Library()
    return judged(library.one("jobs", JobRecord, "jobs/brigade-overhaul"), book, library)


def test_the_job_is_clean(job: Verdict) -> None:
    """No stop and no question in the whole job, and the stretch bolts' note in their own file."""
    assert [(f.rule, Path(f.place.file).name) for f in job.findings] == [
        ("stretch-used", "flywheel.yaml")
    ]
    assert job.own == ()
    record = Library().one("jobs", JobRecord, "brigade overhaul").record
    assert sum(step.gate is not None for step in record.steps) == 12
    assert len(job.answers) == sum(step.joint is not None for step in record.steps) == 25


def test_the_job_and_the_list_say_the_same(job: Verdict) -> None:
    """Each joint of the job has a line in the list, and both are judged alike."""

    def told(verdict: Verdict) -> dict[str, object]:
        return {
            answer.line.text("joint"): (
                answer.preload_n,
                answer.utilisation,
                answer.turned,
                [(finding.rule, finding.message) for finding in answer.findings],
            )
            for answer in verdict.answers
        }

    assert told(job) == told(judge(read_plan(CLEAN), Book.open()))


def test_every_line_of_the_list_names_its_spec(job: Verdict) -> None:
    """The clean list is held against the job's joints, all that both state."""
    specs = {line.text("joint"): line.text("spec") for line in read_plan(CLEAN)}
    assert len(set(specs.values())) == 25
    for answer in job.answers:
        file = Path(answer.line.place.file)
        assert specs[answer.line.text("joint")] == f"joints/brigade/{file.stem}"


def test_joints_and_the_list_state_the_same() -> None:
    """Every cell that a joint's record and its line both fill means the same."""
    library = Library()
    lines = {line.text("spec"): line for line in read_plan(CLEAN)}
    for held in library.all("joints", JointRecord):
        said, line = joint_line(held), lines[held.id]
        for column in set(said.cells) & set(line.cells) - {"source"}:
            assert said.text(column) == line.text(column), (held.id, column)


def test_every_record_of_the_brigade_says_that_it_is_invented() -> None:
    """Joints and jobs of the demo are invented, and their limits for reuse too."""
    library = Library()
    joints = library.all("joints", JointRecord)
    for held in (*joints, *library.all("jobs", JobRecord)):
        assert held.record.source.kind == held.record.source.provenance == "invented"
    assert all("invented" in held.record.reuse.source for held in joints if held.record.reuse)
