"""A run: its steps, where it stands, and what answers do."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.journal import entry_after
from torquebook.jobs.keeping import (
    entries_of,
    new_path,
    slug,
    start_facts,
    take_in,
    unfinished,
)
from torquebook.jobs.lock import Lock
from torquebook.jobs.record import recheck_facts, record_of, sign_facts
from torquebook.jobs.running import answered, read_value, state_of
from torquebook.jobs.steps import Reading, RunStep, limits_text, steps_of

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Bench

    from torquebook.jobs.journal import Entry

GATE = (
    '  - gate: {name: "float", why: "it wears", tool: "dial gauge", '
    "measure: {what: end float, unit: mm, low: 0.05, high: 0.15}}\n"
    '  - gate: {name: "dowels", why: "they locate", question: "Are both in?", blocks: false}\n'
)
RECHECK = 'rechecks: [{what: retorque, after: "50 km"}]\n'


def run_of(bench: Bench, **changes: str) -> tuple[RunStep, ...]:
    """Return the steps of a small job: a cover, a measured gate and a question."""
    bench.record("cover", RECHECK, **changes)
    return steps_of(bench.job("example/cover", steps=GATE))


def answers(steps: tuple[RunStep, ...], *texts: str) -> list[Entry]:
    """Answer from the beginning; return the entries of the journal."""
    entries: list[Entry] = []
    for text in texts:
        facts = answered(state_of(steps, entries), text).facts
        if facts is not None:
            entries.append(entry_after(entries[-1] if entries else None, facts))
    return entries


def test_every_bolt_of_every_stage_is_a_step(bench: Bench) -> None:
    """Four bolts in two stages are eight steps in the order of the pattern."""
    steps = run_of(bench)
    bolts = [step for step in steps if step.kind == "bolt"]
    assert [step.kind for step in steps] == ["before", *["bolt"] * 8, "gate", "gate"]
    assert len({step.id for step in steps}) == len(steps)
    assert [step.id.rpartition(" ")[2] for step in bolts[:4]] == ["1", "3", "2", "4"]
    assert bolts[0].big == "20 N·m"
    assert bolts[4].lines[0] == "bolt 1 of 4, position 1, stage 2 of 2"


def test_a_single_bolt_needs_no_order(bench: Bench) -> None:
    """One bolt is one step a stage."""
    steps = run_of(bench, count="1", layout=None, tighten='"44 N.m"')  # type: ignore[arg-type]
    assert [step.id for step in steps if step.kind == "bolt"] == ["1/stage 1"]


def test_an_angle_ends_in_a_reading(bench: Bench) -> None:
    """After the last angle the torque that the wrench showed is asked for, and judged."""
    steps = run_of(bench, tighten='"20 N.m + 90 deg"')
    (finish,) = [step for step in steps if step.kind == "finish"]
    assert finish.reading is not None
    low, high = finish.reading.low or 0.0, finish.reading.high or 0.0
    before = [""] * steps.index(finish)
    state = state_of(steps, answers(steps, *before))
    assert state.step == finish
    assert "strips or the bolt necks" in answered(state, f"{low / 2:g}").said
    assert "bottoms" in answered(state, f"{high * 2:g}").said
    assert answered(state, f"{(low + high) / 2:g} N.m").said == ""


def test_a_gate_out_of_its_limits_blocks(bench: Bench) -> None:
    """A blocking gate is neither passed nor left out until its reading is within limits."""
    steps = run_of(bench)
    entries = answers(steps, *[""] * 9, "0.5")
    state = state_of(steps, entries)
    assert state.step is not None
    assert state.step.title == "float"
    assert "0.5 mm, and it has to be at most 0.15 mm" in state.failed
    assert "this gate blocks" in answered(state, "s no time").said
    entries = answers(steps, *[""] * 9, "0.5", "0,1 mm")
    after = state_of(steps, entries).step
    assert after is not None
    assert after.title == "dowels"


def test_a_question_is_answered_by_yes_or_no(bench: Bench) -> None:
    """No is kept; a gate that does not block may then be left out, with a reason."""
    steps = run_of(bench)
    at = [""] * 9
    state = state_of(steps, answers(steps, *at, "0.1", "n"))
    assert state.failed == "no"
    with pytest.raises(NotUnderstood, match="yes or no"):
        answered(state, "")
    with pytest.raises(NotUnderstood, match="only with a reason"):
        answered(state, "s")
    entries = answers(steps, *at, "0.1", "n", "s one is new and on order")
    assert state_of(steps, entries).step is None
    record = record_of("run", [entry_after(None, {"what": "start", "steps": []}), *entries])
    assert record.skipped == (("dowels", "one is new and on order"),)


def test_back_opens_the_last_step(bench: Bench) -> None:
    """Back goes to the step that was done last, again and again; nothing is deleted."""
    steps = run_of(bench)
    entries = answers(steps, "", "", "b")
    assert state_of(steps, entries).step == steps[1]
    assert len(entries) == 3
    assert answered(state_of(steps, []), "b").said == "this is the first step"


def test_pause_ends_the_run_for_now(bench: Bench) -> None:
    """P and q pause; anything else typed at a bolt is asked back."""
    state = state_of(run_of(bench), [])
    assert answered(state, "p").pauses
    assert answered(state, "q").pauses
    with pytest.raises(NotUnderstood, match="nothing is typed"):
        answered(state, "44")


def test_a_run_that_is_done_has_no_step() -> None:
    """An answer beyond the last step is a mistake of ours."""
    with pytest.raises(LookupError):
        answered(state_of((), []), "")


@pytest.mark.parametrize(
    ("unit", "text", "value"),
    [
        ("mm", "0.05", 0.05),
        ("mm", "0,05", 0.05),
        ("mm", "0.004 in", pytest.approx(0.1016)),
        ("N.m", "2 N.m", 2),
        ("bar", "2.5 bar", 2.5),
        ("%", "40", 40),
    ],
)
def test_readings(unit: str, text: str, value: float) -> None:
    """A bare number is in the unit of the step; another unit of its kind is converted."""
    assert read_value(Reading("x", unit, 0.01, 50.0), text) == value


@pytest.mark.parametrize(
    ("unit", "text"),
    [("mm", ""), ("mm", "abc"), ("mm", "2 N.m"), ("mm", "nan"), ("mm", "9000"), ("bar", "2 psi")],
)
def test_what_is_no_reading_is_asked_back(unit: str, text: str) -> None:
    """Nothing, words, another kind, and what cannot be are asked back."""
    with pytest.raises(NotUnderstood):
        read_value(Reading("x", unit, 0.05, 0.15), text)


def test_limits_are_said() -> None:
    """Both limits, or the one that there is."""
    assert limits_text(Reading("x", "mm", 1, 2)) == "1 to 2 mm"
    assert limits_text(Reading("x", "mm", None, 2)) == "at most 2 mm"
    assert limits_text(Reading("x", "mm", 1, None)) == "at least 1 mm"


def test_a_record_is_signed_when_nothing_is_open(bench: Bench) -> None:
    """Open steps and failed gates keep it from being signed; rechecks are ticked later."""
    bench.record("cover", RECHECK)
    job = bench.job("example/cover", steps=GATE)
    steps = steps_of(job)
    first = entry_after(None, start_facts(job, steps, "truck 2"))

    def record(*texts: str) -> list[Entry]:
        found = [first]
        for entry in answers(steps, *texts):
            found.append(entry_after(found[-1], entry.facts))
        return found

    with pytest.raises(NotUnderstood, match="steps are open: pump cover"):
        sign_facts(record_of("r", record()), "me")
    with pytest.raises(NotUnderstood, match="out of its limits: float"):
        sign_facts(record_of("r", record(*[""] * 9, "0.5")), "me")
    done = record(*[""] * 9, "0.1", "y")
    signed = [*done, entry_after(done[-1], sign_facts(record_of("r", done), "me"))]
    with pytest.raises(NotUnderstood, match="signed off by me"):
        sign_facts(record_of("r", signed), "you")
    due = record_of("r", signed)
    assert [one.name for one in due.due] == ["pump cover: retorque"]
    with pytest.raises(NotUnderstood, match="pump cover: retorque"):
        recheck_facts(due, "wheels")
    ticked = [*signed, entry_after(signed[-1], recheck_facts(due, "Pump cover"))]
    assert record_of("r", ticked).due == ()


def test_records_have_names_of_their_own(tmp_path: Path) -> None:
    """Two runs of one day are numbered; what is signed off or of another job is not resumed."""
    from datetime import date  # noqa: PLC0415 - only here

    day = date(2026, 11, 25)
    assert slug("jobs/Pump overhaul!") == "pump-overhaul"
    first = new_path(tmp_path, "jobs/pump", day)
    start = entry_after(None, {"what": "start", "job": "jobs/pump"})
    first.write_text(f"{start.line}\n")
    second = new_path(tmp_path, "jobs/pump", day)
    assert (first.name, second.name) == ("pump-2026-11-25-1.jsonl", "pump-2026-11-25-2.jsonl")
    assert unfinished(tmp_path, "jobs/pump") == [first]
    first.write_text(f"{start.line}\n{entry_after(start, {'what': 'sign'}).line}\n")
    assert unfinished(tmp_path, "jobs/pump") == []


def test_one_run_at_a_time(tmp_path: Path) -> None:
    """A second run is told who holds the record; after the first it is free."""
    path = tmp_path / "run.jsonl"
    held = pytest.raises(Unreadable, match=r"is being run by .* process \d+")
    with Lock(path), held, Lock(path):
        pass
    with Lock(path):
        pass
    with pytest.raises(Unreadable, match="cannot be locked"), Lock(tmp_path / "none" / "run.jsonl"):
        pass


def test_a_record_that_is_none_is_one_message(tmp_path: Path) -> None:
    """A record that is not there, and one that cannot be taken in, are named."""
    with pytest.raises(Unreadable, match="cannot be read"):
        entries_of(tmp_path / "none.jsonl")
    source = tmp_path / "away.jsonl"
    source.write_text(f"{entry_after(None, {'what': 'start', 'job': 'jobs/a'}).line}\n")
    kept = take_in(source, tmp_path / "records")
    assert kept.name == "a-1970-01-01-1.jsonl"
    assert [entry.seq for entry in entries_of(kept)] == [1]
