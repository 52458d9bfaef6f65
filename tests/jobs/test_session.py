"""A run with its journal."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from torquebook.errors import Unreadable
from torquebook.jobs.journal import read_entries
from torquebook.jobs.session import Session, hand_here

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Bench

    from torquebook.jobs.model import WorkedJob
    from torquebook.jobs.session import Hand

ALL = ("", "", "", "", "", "100", "", "y", "0.05", "0.7", "A. Miller")
"""What closes every step of the job with an angle."""


def test_a_run_begins_with_what_it_is(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """The first entry names job, vehicle, who, and the records as they are."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand, "tanker 2") as session:
        first = session.journal.entries[0].facts
        assert session.vehicle == "tanker 2"
        assert session.notes == []
        assert session.take("").facts is not None
    assert {key: first[key] for key in ("what", "job", "for", "who", "steps", "format")} == {
        "what": "start", "job": "jobs/pump", "for": "tanker 2", "who": "anna on shed",
        "steps": 11, "format": 1,
    }  # fmt: skip
    assert first["at"].startswith("2026-05-02T10:00:0")
    assert len(first["records"]) == 64
    entries = read_entries(path.read_text(), "run")
    assert [entry.facts["what"] for entry in entries] == ["start", "done"]
    assert entries[1].facts["job"] == "jobs/pump"


def test_a_run_goes_on_where_it_was(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """Left after any step, the next run is at the one behind it."""
    path = tmp_path / "run.jsonl"
    for count, line in enumerate(ALL):
        with Session(stretch, path, hand) as session:
            assert session.state.current == session.steps[count]
            assert session.take(line).facts is not None
    kinds = [entry.facts["what"] for entry in session.journal.entries]
    assert kinds.count("start") == 1
    assert kinds.count("resume") == len(ALL) - 1
    with pytest.raises(Unreadable, match="is signed off; begin another with --new"):
        Session(stretch, path, hand).__enter__()


def test_what_was_recorded_is_said(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """The number of the entry, the step, and what came of it."""
    with Session(stretch, tmp_path / "run.jsonl", hand) as session:
        for line, said in (
            ("", ["2 recorded: pump cover, before its 2 bolts"]),
            ("b", ["3 recorded: open again: pump cover, before its 2 bolts"]),
            ("b", ["this is the first step"]),
            ("s no time", ["4 recorded: pump cover, before its 2 bolts; skipped: no time"]),
            ("?", []),
        ):
            assert session.said(session.take(line)) == said


def test_a_pause_is_an_entry(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """It names the step at which the work goes on; a run that is over has none."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand) as session:
        session.pause()
        assert session.journal.entries[-1].facts["what"] == "pause"
        for line in ALL:
            session.take(line)
        count = len(session.journal.entries)
        session.pause()
        assert len(session.journal.entries) == count


def test_two_runs_of_one_record_do_not_mix(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """The second is told who holds it, and writes nothing."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand) as session:
        with pytest.raises(Unreadable, match="by anna on shed, process 77"):
            Session(stretch, path, hand).__enter__()
        with Session(stretch, tmp_path / "other.jsonl", hand, "tanker 2") as other:
            other.take("")
        session.take("")
    assert len(read_entries(path.read_text(), "run")) == 2


def test_a_record_of_something_else_is_refused(
    stretch: WorkedJob, bench: Bench, tmp_path: Path, hand: Hand
) -> None:
    """Another job, another vehicle, or one that should be new: nothing is written."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand, "tanker 1"):
        pass
    before = path.read_bytes()
    with pytest.raises(Unreadable, match="is a record for tanker 1; name another"):
        Session(stretch, path, hand, "tanker 2").__enter__()
    with pytest.raises(Unreadable, match="is a record already"):
        Session(stretch, path, hand, fresh=True).__enter__()
    bench.write("jobs/other", (bench.folder / "jobs/pump.yaml").read_text().partition("source")[0])
    with pytest.raises(Unreadable, match="is a record of jobs/pump; name another"):
        Session(bench.worked("jobs/other"), path, hand).__enter__()
    assert path.read_bytes() == before
    with Session(stretch, tmp_path / "none.jsonl", hand):
        pass
    with pytest.raises(Unreadable, match="a vehicle that was not named"):
        Session(stretch, tmp_path / "none.jsonl", hand, "tanker 2").__enter__()


def test_an_edit_of_the_job_is_said(
    bench: Bench, stretch: WorkedJob, tmp_path: Path, hand: Hand
) -> None:
    """What no longer fits is named and open again; what still fits stays done."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand) as session:
        for line in ALL:
            session.take(line)
    text = (bench.folder / "joints/example/cover.yaml").read_text()
    (bench.folder / "joints/example/cover.yaml").write_text(text.replace("20 N.m", "22 N.m"))
    with Session(bench.worked("jobs/pump"), path, hand) as session:
        edited, unfit = session.notes
        assert edited == "the job's records were edited since this record was written to"
        assert unfit == (
            "no longer as it was done, so looked at again: "
            "pump cover, stage 1 of 2, bolt 1 of 2, position 1, "
            "pump cover, stage 1 of 2, bolt 2 of 2, position 2, pump overhaul"
        )
        assert [step.kind for step in session.state.open] == ["bolt", "bolt", "sign"]


def test_a_torn_line_is_named(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """The run says where it was put, and asks again."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand) as session:
        session.take("")
    with path.open("ab") as stream:
        stream.write(b'{"seq": 3, "what": "bo')
    with Session(stretch, path, hand) as session:
        (note,) = session.notes
        assert note.startswith(f"a last line that was never finished was put into {path}.torn; ")
        assert session.state.current == session.steps[1]


def test_an_edited_line_lets_go_of_the_lock(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> None:
    """A broken chain is named, and the next try says the same and not that it is locked."""
    path = tmp_path / "run.jsonl"
    with Session(stretch, path, hand):
        pass
    path.write_text(path.read_text().replace("anna", "anne"))
    for _ in range(2):
        with pytest.raises(Unreadable, match=r"run\.jsonl:1: this entry was edited"):
            Session(stretch, path, hand).__enter__()


def test_a_run_that_is_not_open_has_no_journal(
    stretch: WorkedJob, tmp_path: Path, hand: Hand
) -> None:
    """It must be entered first."""
    with pytest.raises(LookupError):
        Session(stretch, tmp_path / "run.jsonl", hand).take("")


def test_the_hand_at_this_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """User, machine, process, and the time with its zone; a user may have no name."""
    monkeypatch.setenv("LOGNAME", "anna")
    hand = hand_here()
    assert (hand.user, hand.pid) == ("anna", os.getpid())
    assert hand.now()[10] == "T"
    assert hand.now()[-6] in "+-"

    def nobody() -> str:
        raise OSError

    monkeypatch.setattr("torquebook.jobs.session.getuser", nobody)
    monkeypatch.setattr("torquebook.jobs.session.node", str)
    assert hand_here().who == "unknown on unknown"
