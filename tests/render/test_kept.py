"""The list of records."""

from __future__ import annotations

from pathlib import Path

from torquebook.jobs.keeping import Kept
from torquebook.render import kept
from torquebook.render.paper import Paper

ONE = Kept(Path("pump.jsonl"), "jobs/pump", "2026-05-02", "tanker\x1b[2J", 3, signed=False)


def test_each_record_is_a_paragraph() -> None:
    """With job, vehicle, day and whether it is signed; nothing in it acts."""
    paper = Paper()
    kept.text([ONE], paper)
    assert str(paper) == (
        "pump.jsonl: jobs/pump for tanker\\x1b[2J, begun 2026-05-02, unfinished\n"
    )


def test_no_records_says_how_one_begins() -> None:
    """An empty folder is no trouble."""
    paper = Paper()
    kept.text([], paper)
    assert "torquebook job run JOB" in str(paper)
    assert kept.data([]) == []


def test_data_has_every_field() -> None:
    """For a program: path, job, day, vehicle, entries, signed."""
    assert kept.data([ONE]) == [
        {
            "record": "pump.jsonl",
            "job": "jobs/pump",
            "begun": "2026-05-02",
            "for": "tanker\x1b[2J",
            "entries": 3,
            "signed": False,
        }
    ]
