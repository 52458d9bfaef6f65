"""A record for a reader."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.journal import Entry
from torquebook.jobs.report import Report, report_of, row_of, signing, ticking, write_to
from torquebook.jobs.session import Session

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import Bench

    from torquebook.jobs.model import WorkedJob
    from torquebook.jobs.session import Hand

ALL = ("", "", "", "", "s no room", "100", "", "y", "0.05", "0.3", "later")


@pytest.fixture
def run(stretch: WorkedJob, tmp_path: Path, hand: Hand) -> Callable[..., Path]:
    """Return what runs the job with some lines, and gives its record."""

    def ran(*lines: str) -> Path:
        path = tmp_path / "run.jsonl"
        with Session(stretch, path, hand, "tanker 2") as session:
            for line in lines:
                session.take(line)
        return path

    return ran


def test_a_report_knows_what_is_open(run: Callable[..., Path], bench: Bench) -> None:
    """Open steps, skipped ones, what did not pass, and what is due."""
    report = report_of(run(*ALL[:7]), bench.worked)
    assert report.state is not None
    assert [step.name for step in report.state.blocking] == ["hole", "runout", "gap"]
    assert [row.reason for row in report.skipped] == ["no room"]
    assert [one.after for one in report.due] == ["50 km", "a run"]
    assert (report.signed, report.edited, report.missing) == (None, False, "")
    assert report.who == ("anna on shed",)
    assert report.first["for"] == "tanker 2"


def test_a_record_is_shown_without_its_job(run: Callable[..., Path]) -> None:
    """Where the job is not at hand the journal speaks for itself, and cannot be signed."""
    path = run(*ALL, "A. Miller")

    def gone(text: str) -> WorkedJob:
        raise NotUnderstood(text, "no record of that name")

    report = report_of(path, gone)
    assert report.state is None
    assert "no record of that name" in report.missing
    assert report.signed is not None
    assert len(report.due) == 2
    with pytest.raises(Unreadable, match=r"no record of that name.*--book"):
        signing(report, "B. Smith")


def test_a_job_that_was_a_file_is_found_again(bench: Bench, tmp_path: Path, hand: Hand) -> None:
    """A job without an id in a folder of records is worked out from its file."""
    bench.joint()
    path = tmp_path / "run.jsonl"
    with Session(bench.worked(str(bench.folder / "jobs/pump.yaml")), path, hand):
        pass
    asked = []

    def worked(text: str) -> WorkedJob:
        asked.append(text)
        return bench.worked(text)

    assert report_of(path, worked).state is not None
    assert asked == [str(bench.folder / "jobs/pump.yaml")]


def test_an_edit_of_the_job_is_seen(run: Callable[..., Path], bench: Bench) -> None:
    """Other records than those at the start are said."""
    path = run("")
    bench.joint()
    report = report_of(path, bench.worked)
    assert report.edited
    assert report.state is not None
    assert len(report.state.unfit) == 1


def test_signing_asks_for_every_step(run: Callable[..., Path], bench: Bench, hand: Hand) -> None:
    """Nothing is signed while something is open, nor twice, nor without a name."""
    path = run("")
    with pytest.raises(Unreadable, match=r"9 steps are open: pump cover, .*and 6 more; go on"):
        write_to(path, hand, lambda report: signing(report, "A. Miller"), bench.worked)
    run(*ALL[1:])
    with pytest.raises(NotUnderstood, match="no name"):
        write_to(path, hand, lambda report: signing(report, " "), bench.worked)
    report = write_to(path, hand, lambda report: signing(report, " A. Miller "), bench.worked)
    assert report.signed is not None
    assert report.signed.facts["name"] == "A. Miller"
    assert report_of(path, bench.worked).signed == report.signed
    with pytest.raises(Unreadable, match=r"is signed by A. Miller already"):
        write_to(path, hand, lambda report: signing(report, "B. Smith"), bench.worked)


def test_one_open_step_is_named_alone(run: Callable[..., Path], bench: Bench) -> None:
    """Up to three open steps are all named."""
    with pytest.raises(Unreadable, match="1 step is open: gap; go on"):
        signing(report_of(run(*ALL[:9]), bench.worked), "A. Miller")


def test_a_recheck_is_ticked_by_its_words(
    run: Callable[..., Path], bench: Bench, hand: Hand
) -> None:
    """Words that fit one do; those that fit none or more are asked back with what is due."""
    path = run(*ALL, "A. Miller")
    for words, message in (("", "no open"), ("brakes", "no open"), ("pump", "more than one")):
        with pytest.raises(NotUnderstood, match=f'{message}.*"pump cover retorque 50 km"'):
            write_to(path, hand, lambda report, words=words: ticking(report, words), bench.worked)  # type: ignore[misc]
    report = write_to(path, hand, lambda report: ticking(report, "retorque 50 KM"), bench.worked)
    assert [one.what for one in report.due] == ["paint mark"]
    assert report.entries[-1].facts["who"] == "anna on shed"
    assert report.signed is not None


def test_writing_waits_for_no_run(
    run: Callable[..., Path], bench: Bench, hand: Hand, stretch: WorkedJob
) -> None:
    """While a run holds the record, nothing is added to it."""
    path = run(*ALL)
    with Session(stretch, path, hand), pytest.raises(Unreadable, match="is being written by"):
        write_to(path, hand, lambda report: ticking(report, "retorque"), bench.worked)


def test_a_file_that_is_no_record(tmp_path: Path, bench: Bench) -> None:
    """Empty, or not there: one message."""
    (tmp_path / "empty.jsonl").touch()
    with pytest.raises(Unreadable, match="holds no entry"):
        report_of(tmp_path / "empty.jsonl", bench.worked)
    with pytest.raises(Unreadable, match="cannot be read"):
        report_of(tmp_path / "none.jsonl", bench.worked)


@pytest.mark.parametrize(
    ("facts", "value", "verdict"),
    [
        ({"value": 2.0337269225, "unit": "N.m", "typed": "18 lbf.in", "ok": True},
         "2.034 N.m (18 lbf.in)", "passed"),
        ({"value": -0.2, "unit": "mm", "typed": "-0.2", "ok": False}, "-0.2 mm", "out of limits"),
        ({"ok": False}, "", "no"),
        ({"setting": "25 lbf.ft", "wrench": "click"}, "25 lbf.ft on click", ""),
        ({"value": float("nan"), "unit": "mm"}, "", ""),
        ({"value": ["x"], "unit": {}}, "", ""),
    ],
)  # fmt: skip
def test_an_entry_in_words(facts: dict[str, Any], value: str, verdict: str) -> None:
    """Its reading with its unit, or what the wrench was set to, and how it was judged."""
    row = row_of(Entry(3, facts, "", ""))
    assert (row.seq, row.value, row.verdict) == (3, value, verdict)


def test_a_report_of_a_journal_alone(tmp_path: Path) -> None:
    """Without a job, what it says of itself is there."""
    report = Report(tmp_path, (Entry(1, {"what": "sign", "step": "sign"}, "", ""),))
    assert report.signed is not None
    assert report.who == ()
