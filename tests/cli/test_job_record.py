"""``torquebook job record``."""

from __future__ import annotations

import csv
import io
import json
from typing import TYPE_CHECKING

import pytest

from torquebook.jobs.journal import Journal

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Ran, Runner

KEYS = "y\n\n0.05\n0.7\n24\n2\n80\nA. Miller\n" * 250


@pytest.fixture
def folder(cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder of records with one that is signed."""
    monkeypatch.setenv("TORQUEBOOK_RECORDS", str(tmp_path / "records"))
    ran = cli("job", "run", "brigade-overhaul", "--for", "tanker 2", given=KEYS)
    assert "signed off" in ran.out
    return tmp_path / "records"


def record(cli: Runner, *words: str) -> Ran:
    """Show the one record."""
    return cli("job", "record", "brigade-overhaul", *words)


def test_records_are_listed(cli: Runner, folder: Path) -> None:
    """Without a name all of them, for a person and for a program."""
    assert "jobs/brigade-overhaul for tanker 2" in " ".join(cli("job", "record").out.split())
    for words in (("--json",), ("--format", "json")):
        (one,) = json.loads(cli("job", "record", *words).out)
        assert (one["for"], one["signed"], one["record"][: len(str(folder))]) == (
            "tanker 2", True, str(folder),
        )  # fmt: skip
    assert cli("job", "record", "--sign", "A. Miller").code == 2
    assert cli("job", "record", "--format", "html").code == 2


@pytest.mark.usefixtures("folder")
def test_a_record_says_who_when_and_what_is_open(cli: Runner) -> None:
    """Verified, signed, what is due, what did not pass, and every entry."""
    ran = record(cli)
    assert ran.code == 0
    assert "brigade's light truck: clutch, driveline, axle, wheels, for tanker 2" in " ".join(
        ran.out.split()
    )
    assert "entries, each fits the one before" in ran.out
    assert "signed: A. Miller, 2" in ran.out
    assert "To be looked at again\n" in ran.out
    assert "front wheels: retorque after 50 km" in ran.out
    assert "Did not pass when it was looked at\n" in ran.out
    assert "drag of the pinion bearings: 0.7 N·m" in ran.out
    assert "stage 1 of 2, bolt 1 of 8, position 1; 30 N·m; 30 N·m on click 20-100" in " ".join(
        ran.out.split()
    )
    assert "N.m" not in ran.out
    assert "; +60°" in ran.out
    plain = record(cli, "--ascii").out
    assert "drag of the pinion bearings: 0.7 N.m" in plain
    assert plain.isascii()
    assert "Steps still open" not in ran.out
    assert max(map(len, ran.out.splitlines())) <= 80


@pytest.mark.usefixtures("folder")
def test_each_format_has_every_entry(cli: Runner, tmp_path: Path) -> None:
    """CSV, JSON and HTML, on the terminal or in a file."""
    held = json.loads(record(cli, "--json").out)
    assert held["verified"] is True
    assert held["open_steps"] == []
    rows = list(csv.DictReader(io.StringIO(record(cli, "--format", "csv").out)))
    assert [int(row["seq"]) for row in rows] == [one["seq"] for one in held["entries"]]
    out = tmp_path / "record.html"
    ran = record(cli, "--format", "html", "--out", str(out))
    assert (ran.code, ran.out) == (0, "")
    assert "written into" in ran.err
    page = out.read_text(encoding="utf-8")
    assert page.count("<tr>") == len(rows) + 1
    assert "<td>30 N·m</td>" in page
    assert "30 N.m" in {row["asks"] for row in rows}
    assert "default-src 'none'" in page
    assert "<script" not in page


@pytest.mark.usefixtures("folder")
def test_a_recheck_is_ticked(cli: Runner) -> None:
    """It leaves the list, and the signature stands."""
    ran = record(cli, "--done", "front wheels retorque")
    assert ran.code == 0
    due = ran.out.partition("To be looked at again")[2].partition("Did not pass")[0]
    assert "front wheels" not in due
    assert "rear wheels" in due
    assert record(cli, "--done", "front wheels retorque").code == 2
    assert "signed by A. Miller already" in " ".join(record(cli, "--sign", "B. Smith").err.split())


def test_an_open_job_is_not_signed(cli: Runner, folder: Path) -> None:
    """The open steps are named, and shown in the record."""
    cli("job", "run", "brigade-overhaul", "--new", "--for", "tanker 3", given="y\ns no time\n")
    (path,) = folder.glob("*-2.jsonl")
    ran = cli("job", "record", path.stem, "--sign", "A. Miller")
    assert ran.code == 2
    assert "steps are open: flywheel to crankshaft" in " ".join(ran.err.split())
    text = cli("job", "record", path.stem).out
    assert "Steps still open\n" in text
    assert "  and 2" in text
    assert "Skipped\n  flywheel to crankshaft, before its 8 bolts: no time" in text
    assert "2 records" in record(cli).err
    assert "for tanker 3" in " ".join(record(cli, "--for", "tanker 3").out.split())
    assert record(cli, "--for", "tanker 2").out.count("signed: A. Miller") == 1
    for words in (("--for", "tanker 3"), (str(path), "--import", "--for", "tanker 3")):
        assert cli("job", "record", *words).code == 2


def test_an_edited_line_is_named(cli: Runner, folder: Path) -> None:
    """And ends in exit code 2."""
    (path,) = folder.glob("*.jsonl")
    path.write_text(path.read_text().replace('"value": 0.05', '"value": 0.04', 1))
    ran = record(cli)
    assert (ran.code, ran.out) == (2, "")
    assert "wasedited" in "".join(ran.err.split())


def test_a_record_cut_at_its_end_stands_as_it_was_before(cli: Runner, folder: Path) -> None:
    """What the chain cannot notice, as the help says: it is then open and unsigned."""
    (path,) = folder.glob("*.jsonl")
    path.write_text("".join(path.read_text().splitlines(keepends=True)[:-9]))
    ran = record(cli)
    assert ran.code == 0
    assert "signed: no" in ran.out
    assert "Steps still open" in ran.out


def test_what_a_record_lacks_is_said(cli: Runner, folder: Path) -> None:
    """A torn line, a job that is not at hand, and steps that no longer fit."""
    (path,) = folder.glob("*.jsonl")
    with path.open("ab") as stream:
        stream.write(b'{"seq"')
    assert "its last line is not finished" in record(cli).out
    other = folder / "other.jsonl"
    journal = Journal.open(other)
    journal.append({"what": "start", "at": "now", "job": "jobs/none", "for": "\x1b[2J"})
    journal.append({"what": "bolt", "step": "x", "of": "<b>=1", "asks": "=1+1\x1b[2J"})
    journal.close()
    for form in ("text", "csv", "html", "json"):
        shown = cli("job", "record", str(other), "--format", form).out
        assert "\x1b" not in shown
        assert form != "html" or "<b>" not in shown
        assert form != "csv" or "'=1+1\\x1b[2J" in shown
    assert "open steps are not known: " in cli("job", "record", str(other)).out
    first = {"what": "start", "at": "now", "job": "jobs/brigade-overhaul", "records": "0"}
    path = folder / "third.jsonl"
    journal = Journal.open(path)
    journal.append(first)
    journal.append({"what": "bolt", "step": "x", "of": "an old joint", "spot": "", "asks": "y"})
    journal.close()
    text = cli("job", "record", str(path)).out
    assert "No longer as it was done\n  an old joint\n" in text
    assert "the job's records were edited since" in text


def test_a_journal_is_taken_in(cli: Runner, folder: Path, tmp_path: Path) -> None:
    """One that was made elsewhere is verified and kept; taken in twice it is there once."""
    (path,) = folder.glob("*.jsonl")
    away = tmp_path / "away.jsonl"
    lines = path.read_text().splitlines(keepends=True)
    path.unlink()
    away.write_text("".join(lines[:20]))
    assert cli("job", "record", str(away), "--import").code == 0
    away.write_text("".join(lines))
    assert cli("job", "record", str(away), "--import").code == 0
    (kept,) = folder.glob("*.jsonl")
    assert kept.read_text() == "".join(lines)
    away.write_text("".join(lines[:5]))
    journal = Journal.open(away)
    journal.append({"what": "bolt", "step": "elsewhere"})
    journal.close()
    assert "wentonapart" in "".join(cli("job", "record", str(away), "--import").err.split())
    away.write_text("")
    assert "holdsnoentry" in "".join(cli("job", "record", str(away), "--import").err.split())
