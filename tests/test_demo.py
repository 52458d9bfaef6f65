"""The demo lists: one is clean, the other shows what was planted in it, and both are invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from torquebook.catalogue.book import Book
from torquebook.findings import Severity
from torquebook.plans.reading import read_plan
from torquebook.rules.judge import judge

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
