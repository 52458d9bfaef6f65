"""Real lists, as manuals print them: judged without a stop, with a reason for every silence.

Sources: US Army technical manuals and an open-hardware kart, row by row in
tests/published/real/*.csv, with what is wrong in them in errata.csv.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from printed_lists import angle_procedures, dirty_list, plan_of, read, real_lists

from torquebook.findings import Severity
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.rules.judge import Verdict

LISTS = real_lists()

# How many lines of each list are asked about, and why.
ASKED = {
    "B01": (
        6,
        (
            "two past the proof load of every class; cover nuts at a third of the list's level; "
            "three lines that are no bolts"
        ),
    ),
    "B02": (1, "injectors, no kind stated"),
    "B03": (30, "says oiled, but holds dry values: 1.05 to 1.16 of proof; sizes without a class"),
    "B04": (2, "a glow plug and a drag, no kind stated"),
    "B05": (5, "sleeve nuts and a slip torque, no kind stated"),
    "B06": (13, "breakaway torques, no kind stated"),
    "B07": (0, ""),
    "B08": (2, "1/4 grade 5, misprinted"),
    "B09": (30, "grades 0-1-2, 3 and 6 and a remark for a class; grade 7 over its table by 1.3"),
    "B10": (1, "an M3 screw past the proof load of every class"),
}


def asked(verdict: Verdict, *rules: str) -> set[str]:
    """Return the joints that some rules ask about."""
    return {
        finding.joint
        for finding in verdict.findings
        if finding.severity is Severity.ASK and finding.rule in rules
    }


def test_every_real_list_is_there() -> None:
    """Lists B01 to B10 go through, with all their rows."""
    rows = {name[:3]: len(rows) for name, rows in LISTS.items()}
    assert rows == {
        "B01": 12, "B02": 24, "B03": 40, "B04": 18, "B05": 20,
        "B06": 41, "B07": 38, "B08": 31, "B09": 42, "B10": 8,
    }  # fmt: skip


@pytest.mark.parametrize("name", LISTS)
def test_a_real_list_is_never_stopped_and_silence_has_a_reason(name: str, book: Book) -> None:
    """No line is stopped, and a line without a preload says why."""
    verdict = judge(plan_of(LISTS[name]), book)
    assert verdict.counts[Severity.STOP] == 0
    for answer in verdict.answers:
        reasons = {r for r in answer.unjudged if not re.fullmatch(r"no [\w ]+ stated", r)}
        known = answer.preload_n is not None
        assert known or reasons or "no thread stated" in answer.unjudged
    lines = {f.place.line for f in verdict.findings if f.severity is Severity.ASK}
    assert len(lines) == ASKED[name[:3]][0], ASKED[name[:3]][1]


def test_joints_without_sizes_are_silent_with_a_reason(book: Book) -> None:
    """In a list without sizes every preload is unjudged for want of a thread."""
    verdict = judge(plan_of(LISTS["B04_two_cylinder_diesel"]), book)
    assert asked(verdict, "kind-unsaid") == {
        "Glow plug",
        "Rocker arm nut (prevailing torque of the thread)",
    }
    silent = [answer for answer in verdict.answers if "no thread stated" in answer.unjudged]
    assert len(silent) == 18
    assert verdict.counts[Severity.ASK] == 2


def test_plugs_nozzles_and_pipe_nuts_are_asked_about_not_called_loose(book: Book) -> None:
    """Lines that look like no bolts are named as such, and their low torque is no finding."""
    verdict = judge(plan_of(LISTS["B01_small_diesel_engine"]), book)
    special = {"Glow plugs", "Nozzle holder assembly", "Injection pipe retaining nuts"}
    assert asked(verdict, "kind-unsaid") == special
    assert not asked(verdict, "clamp-too-low", "unit-doubtful")
    (pipe,) = [a for a in verdict.answers if a.line.text("thread") == "PT 1/8"]
    assert any("pipe" in reason for reason in pipe.unjudged)


def test_breakaway_torques_are_asked_about_not_judged(book: Book) -> None:
    """All 13 breakaway torques of a fire truck's list are named, its 28 bolts keep quiet."""
    verdict = judge(plan_of(LISTS["B06_fire_truck_general"]), book)
    assert verdict.counts[Severity.ASK] == 13
    named = [finding for finding in verdict.findings if finding.rule == "kind-unsaid"]
    assert len(named) == 13


def test_a_range_out_of_its_tables_pattern_is_found(book: Book) -> None:
    """1/4 grade 5 at 108-144 lb-in, at 1.06 of proof, is all that is asked about (errata.csv)."""
    verdict = judge(plan_of(LISTS["B08_trailer_general_ranges"]), book)
    found = [(f.rule, f.place.line) for f in verdict.findings if f.severity is Severity.ASK]
    assert found == [("over-proof", 3), ("over-proof", 5)]


def test_the_kart_screw_fires(book: Book) -> None:
    """M3 at 3 N.m, past the proof load of every class, is asked about (errata.csv)."""
    verdict = judge(plan_of(LISTS["B10_open_hardware_kart"]), book)
    assert asked(verdict, "no-class-bears") == {"Steering angle sensor screws"}
    noted = {f.joint for f in verdict.findings if f.rule == "class-needed"}
    assert "Steering motor bracket" in noted  # M6 at 15 N.m needs 10.9


def test_every_slip_of_the_scanner_is_pointed_at(book: Book) -> None:
    """Degree signs read as zeros are named; numbers that lost theirs are asked back."""
    verdict = judge(plan_of(dirty_list()), book)
    zeros = {f.instead for f in verdict.findings if f.rule == "angle-too-far"}
    assert zeros == {"+ 90°", "+ 105°", "+ 150°"}
    assert verdict.counts[Severity.STOP] == 0
    clean = {"Flywheel (M10 x 1 x 135) waisted bolt"}
    stages = {row["joint"] for row in dirty_list() if "total" not in row["joint"]}
    assert asked(verdict, "unit-unsaid") == stages - clean


def test_angle_procedures_go_through(book: Book) -> None:
    """Of 30 angle and stretch procedures, two are asked back for prose in their cells."""
    plan = plan_of(angle_procedures())
    verdict = judge(plan, book)
    assert len(plan) == 30
    assert verdict.counts[Severity.STOP] == 0
    assert len({f.place.line for f in verdict.findings if f.severity is Severity.ASK}) == 2


def test_printed_unit_pairs_disagree_only_where_the_page_is_wrong(book: Book) -> None:
    """Of 171 pairs as printed, the seven that disagree are found and no good one is called bad."""
    pairs = read("real/D_printed_unit_pairs.csv")
    rows = [
        {"tighten": f"{row['value_1']} {row['unit_1']} ({row['value_2']} {row['unit_2']})"}
        for row in pairs
    ]
    verdict = judge(plan_of(rows), book)
    wrong = {f.place.line - 2 for f in verdict.findings if f.rule == "units-disagree"}
    assert len(pairs) == 171
    assert wrong == {i for i, row in enumerate(pairs) if row["verdict"] == "DISAGREES"}
    assert not [f for f in verdict.findings if f.rule in ("unit-unsaid", "cell-unread")]
