"""``torquebook job run`` and ``job record``: piped keys, kills, locks, exports."""

from __future__ import annotations

import csv
import json
import os
import random
import re
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from torquebook.jobs.journal import read_entries

if TYPE_CHECKING:
    from conftest import Runner

ROOT = Path(__file__).parents[2]
RUN = ("job", "run", "brigade-overhaul", "--plain")
KILLS = int(os.environ.get("TORQUEBOOK_RUN_KILLS", "12"))
#: An answer for every step: questions first, then readings, then Enter.
GATES = {
    "flywheel face runout": "0.05", "new cover beside the old one": "0",
    "hole depth against bolt length": "24", "sensor clearance": "0.7",
    "drag of the pinion bearings": "2", "hub end float": "0.1",
}  # fmt: skip


@pytest.fixture
def records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep records in a folder of the test."""
    monkeypatch.setenv("TORQUEBOOK_RECORDS", str(tmp_path / "records"))
    return tmp_path / "records"


def key_for(screen: str) -> str:
    """Return the right answer to a screen."""
    if "y or n" in screen:
        return "y"
    if "reading in N.m" in screen and "flywheel" in screen:
        return "90"
    named = next((value for name, value in GATES.items() if name in screen), "")
    return named if "reading in" in screen else ""


def drive(cli: Runner, total: int) -> str:
    """Go on with the run, a screen at a time, until all is done."""
    keys = [""] * total
    for _ in range(40):
        ran = cli(*RUN, given="\n".join(keys) + "\n")
        if "steps are done" in ran.err:
            return ran.err
        last = re.split(r"(?m)^(?=\d+ of \d+ )", ran.out)[-1]
        keys = [key_for(last), *[""] * total]
    raise AssertionError(ran.out[-500:])


def test_a_whole_job_is_run_recorded_and_signed(records: Path, cli: Runner) -> None:
    """From the first gate to the signature, then the rechecks: all in one journal."""
    assert "steps are done" in drive(cli, 223)
    (path,) = records.glob("*.jsonl")
    entries = read_entries(path.read_text(), "run")
    assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1))
    ran = cli("job", "record", "brigade-overhaul", "--sign", "A. Miller")
    assert ran.code == 0
    assert "A. Miller" in ran.out
    assert max(map(len, ran.out.splitlines())) <= 80
    assert cli("job", "record", str(path), "--sign", "B").code == 2
    ticked = json.loads(cli("job", "record", str(path), "--done", "front wheels", "--json").out)
    assert "front wheels: retorque" not in ticked["rechecks_due"]
    assert "rear wheels: retorque" in ticked["rechecks_due"]


def test_a_run_goes_on_where_it_was(records: Path, cli: Runner) -> None:
    """Pause, the end of the input and a new start lead to the same step; back and help work."""
    first = cli(*RUN, "--for", "truck 2", given="y\n\n?\nb\n\np\n")
    assert "paused" in first.err
    assert "Enter: done" in first.err
    assert "back to flywheel" in first.err
    again = cli(*RUN, given="")
    assert "3 of 223" in again.out or "2 of 223" in again.out
    assert len(list(records.glob("*.jsonl"))) == 1
    other = cli(*RUN, "--new", given="p\n")
    assert "1 of 223" in other.out
    ran = cli(*RUN, given="p\n")
    assert ran.code == 2
    assert "more than one run" in " ".join(ran.err.split())


def test_the_number_is_large(records: Path, cli: Runner) -> None:
    """Without --plain a setting is drawn in rows; nothing is wider than 80 columns."""
    assert not records.exists()
    out = cli("job", "run", "brigade-overhaul", given="y\n\np\n").out
    assert "######  ######" in out
    assert max(map(len, out.splitlines())) <= 80
    assert "\x1b" not in out


def test_a_run_says_what_it_cannot_do(records: Path, cli: Runner, tmp_path: Path) -> None:
    """JSON, the record of another job, a record that is edited: one message each."""
    assert "for a person" in cli(*RUN, "--json").err
    path = tmp_path / "other.jsonl"
    cli(*RUN, "--record", str(path), given="y\np\n")
    text = path.read_text()
    path.write_text(text.replace("spigot", "pilot"))
    ran = cli(*RUN, "--record", str(path), given="")
    assert ran.code == 2
    assert "was edited" in ran.err
    assert "no record of" in " ".join(cli("job", "record", "nothing").err.split())
    assert not list(records.glob("*.jsonl"))


def test_a_changed_job_is_told(records: Path, cli: Runner, tmp_path: Path) -> None:
    """Records that changed since the run began are named at its next start."""
    assert not records.exists()
    source = 'source: {kind: invented, title: "x", provenance: "invented"}\n'
    for folder in ("jobs", "joints"):
        (tmp_path / folder).mkdir()
    joint = tmp_path / "joints" / "a.yaml"
    joint.write_text(
        'kind: joint\ntitle: "a"\nname: "a=1"\ncount: 1\ntighten: "44 N.m"\n'
        f'fastener: {{thread: "M10", strength_class: "8.8"}}\n{source}'
    )
    (tmp_path / "jobs" / "a.yaml").write_text(
        f'kind: job\ntitle: "=1+1<script>"\nname: "a"\nsteps: [{{joint: joints/a}}]\n{source}'
    )
    words = ("job", "run", "jobs/a", "--book", str(tmp_path), "--plain")
    cli(*words, given="p\n")
    joint.write_text(joint.read_text().replace("44 N.m", "40 N.m"))
    assert "were changed since this run began" in " ".join(cli(*words, given="\n\n").err.split())
    page = cli("job", "record", "a", "--format", "html").out
    assert "<script>" not in page
    assert "&lt;script&gt;" in page
    rows = list(csv.reader(cli("job", "record", "a", "--format", "csv").out.splitlines()))
    assert rows[0][0] == "seq"
    assert not any(cell.startswith("=") for row in rows for cell in row)


def test_a_killed_run_loses_nothing_that_was_shown(tmp_path: Path) -> None:
    """Killed at any moment, the next start stands at the step that was not yet acknowledged."""
    draw = random.Random(11)  # noqa: S311 - moments, not secrets
    path = tmp_path / "run.jsonl"
    command = [sys.executable, "-m", "torquebook", *RUN, "--record", str(path)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    shown = 0
    for _ in range(KILLS):
        with subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            text=True, env=environment, cwd=tmp_path,
        ) as run:  # fmt: skip
            assert run.stdin is not None
            assert run.stdout is not None
            first = run.stdout.readline()
            at = int(first.split()[0])
            assert at >= shown
            run.stdin.write("y\n" if at == 1 else "\n" * 20)
            run.stdin.flush()
            time.sleep(draw.uniform(0, 0.02))
            run.send_signal(signal.SIGKILL)
            rest = run.stdout.read()
        shown = max([at, *(int(number) for number in re.findall(r"(?m)^(\d+) of 223", rest))])
        text = path.read_bytes().decode()
        entries = read_entries(text[: text.rfind("\n") + 1], "run")
        steps = [entry.facts["step"] for entry in entries if entry.facts["what"] == "done"]
        assert len(steps) == len(set(steps))
        assert len(steps) >= shown - 1


def test_a_phone_page_and_its_journal(records: Path, cli: Runner, tmp_path: Path) -> None:
    """The page is one file; a journal from elsewhere is taken in once, longer ones go on."""
    out = tmp_path / "phone.html"
    assert cli("job", "sheet", "brigade-overhaul", "--phone", "--out", str(out)).code == 0
    assert out.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    path = tmp_path / "away.jsonl"
    cli(*RUN, "--record", str(path), given="y\np\n")
    assert cli("job", "record", str(path), "--import").code == 0
    (kept,) = records.glob("*.jsonl")
    assert kept.read_text() == path.read_text()
    cli(*RUN, "--record", str(path), given="\np\n")
    assert cli("job", "record", str(path), "--import").code == 0
    assert kept.read_text() == path.read_text()
    cli(*RUN, "--record", str(kept), given="p\n")
    cli(*RUN, "--record", str(path), given="\np\n")
    ran = cli("job", "record", str(path), "--import")
    assert ran.code == 2
    assert "went on apart" in " ".join(ran.err.split())
    (tmp_path / "empty.jsonl").write_text("")
    assert "holds no entry" in cli("job", "record", str(tmp_path / "empty.jsonl"), "--import").err
