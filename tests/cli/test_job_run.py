"""``torquebook job run``."""

from __future__ import annotations

import io
import json
import os
import re
import shlex
import signal
import stat
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.jobs.journal import read_journal

if TYPE_CHECKING:
    import pytest
    from conftest import Runs

    from torquebook.jobs.steps import RunStep

GOOD = {
    "flywheel face runout": "0,05",
    "new cover beside the old one": "-0.2",
    "hole depth against bolt length": "24 mm",
    "sensor clearance": "0.7",
    "drag of the pinion bearings": "18 lbf.in",
    "hub end float": "0.1",
    "flywheel to crankshaft": "80",
}
"""A reading that passes, by gate or joint of the demo's job."""


def keys(steps: tuple[RunStep, ...], signed: str = "A. Miller") -> str:
    """Return what is typed from the first step to the signature."""
    return "".join(f"{key(step, signed)}\n" for step in steps)


def key(step: RunStep, signed: str) -> str:
    """Return what is typed at a step."""
    if step.kind == "sign":
        return signed
    if step.must:
        return GOOD[step.name]
    return "y" if step.blocks else ""


def flat(text: str) -> str:
    """Return a text without the breaks of its lines."""
    return " ".join(text.split())


def test_the_whole_job(runs: Runs, steps: tuple[RunStep, ...]) -> None:
    """Every step is recorded once, in order, and the signature is the last."""
    ran = runs.run(keys(steps), "--for", "tanker 2")
    assert ran.code == 0
    assert ran.err == ""
    facts = runs.facts()
    assert [one["step"] for one in facts[1:]] == [step.id for step in steps]
    assert (facts[0]["what"], facts[0]["for"], facts[-1]["name"]) == (
        "start", "tanker 2", "A. Miller",
    )  # fmt: skip
    assert "signed off; the record:" in ran.out
    assert "still due: front wheels: retorque after 50 km" in ran.out
    assert max(map(len, ran.out.splitlines())) <= 80


def test_a_pipe_gets_a_paragraph_a_step(runs: Runs) -> None:
    """No clearing, no large digits; what was typed is echoed, and the end of it is a pause."""
    ran = runs.run("y\n\n")
    assert "\x1b" not in ran.out
    assert "##" not in ran.out
    assert "\n2 recorded: spigot bearing\n" in ran.out
    assert "2. flywheel to crankshaft. Stage 1 of 2, bolt 1 of 8, position 1. 30 N·m. " in ran.out
    assert "paused before: flywheel to crankshaft, stage 1 of 2, bolt 1 of 8" in ran.out
    assert "go on: torquebook job run brigade-overhaul\n" in ran.out
    assert runs.facts()[-1]["what"] == "pause"


def test_the_command_that_goes_on_has_all_options(
    runs: Runs, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the run was begun with, it goes on with: else its records, wrenches and unit change."""
    book = tmp_path / "our book"
    book.mkdir()
    options = [
        "--for", "tanker 2", "--book", str(book), "--wrench", "click 20-100",
        "--wrench", "click 100-500", "--unit", "lbf.ft", "--plain", "--ascii",
    ]  # fmt: skip
    runs.run("\n", *options)
    (path,) = runs.folder.glob("*.jsonl")
    monkeypatch.setattr("torquebook.render.paper.WIDTH", 1000)
    shown = runs.run("\n", *options).out.partition("go on: ")[2]
    assert shlex.split(shown) == ["torquebook", "job", "run", "brigade-overhaul", *options]
    fresh = runs.run("\n", *options, "--new").out.partition("go on: ")[2]
    (other,) = set(runs.folder.glob("*.jsonl")) - {path}
    assert shlex.split(fresh)[4:6] == ["--record", str(other)]


def test_every_key(runs: Runs) -> None:
    """Help, back, skip with a reason, what is none, and pause."""
    ran = runs.run("?\nxyz\ny\nb\ny\ns\nno oil\nq\n\n")
    assert "b         back: opens the step before again" in ran.out
    assert '"xyz": y for yes, n for no' in ran.out
    assert "why is it skipped?" in ran.out
    assert "5 recorded: flywheel to crankshaft, before its 8 bolts; skipped: no oil" in ran.out
    kinds = [one["what"] for one in runs.facts()]
    assert kinds == ["start", "gate", "back", "gate", "skip", "pause"]


def test_a_gate_out_of_its_limit_blocks(runs: Runs, steps: tuple[RunStep, ...]) -> None:
    """The next step does not show before a reading passes."""
    at = next(n for n, step in enumerate(steps) if step.name == "flywheel face runout")
    before = "".join(keys(steps).splitlines(keepends=True)[:at])
    ran = runs.run(f"{before}0.2 mm\n\ns\nit is fine\n")
    assert "0.2 mm is above the limit: at most 0.1 mm; the" in flat(ran.out)
    assert "cannot be skipped" in ran.out
    assert "paused before: flywheel face runout" in ran.out
    assert "Did not pass: 0.2 mm." in ran.out
    ran = runs.run("0.09\n")
    assert "0.09 mm is within its limits" in ran.out
    assert "paused before: new cover beside the old one" in ran.out


def test_the_unit_and_the_wrench_are_mine(runs: Runs) -> None:
    """The number is that of the wrench's scale, and of the unit that is asked for."""
    ran = runs.run("y\n\n", "--unit", "lbf.ft", "--wrench", "click 20-150 lbf.ft", "--ascii")
    assert "22.1 lbf.ft. Set on click 20-150 lbf.ft." in flat(ran.out)
    assert ran.out.isascii()


def test_two_vehicles_have_a_record_each(runs: Runs) -> None:
    """Each goes on with its own; with two of them open, one must be named."""
    runs.run("y\n", "--for", "tanker 1")
    runs.run("y\n\n", "--for", "tanker 2")
    assert len(list(runs.folder.glob("*.jsonl"))) == 2
    assert "for tanker 1" in runs.run("", "--for", "tanker 1").out.replace("'", "")
    ran = runs.run("")
    assert ran.code == 2
    assert "tanker 1" in ran.err
    assert "tanker 2" in ran.err
    assert "--record FILE" in flat(ran.err)
    assert [one["for"] for one in runs.facts("-2") if "for" in one] == ["tanker 2"]


def test_a_run_is_for_a_person(runs: Runs) -> None:
    """A program is told where its answer is, which no help offers here, and nothing is begun."""
    assert "--json" not in runs.run("", "--help").out
    assert "--json" in runs.record("--help").out
    ran = runs.run("", "--json")
    assert ran.code == 2
    assert "job record --json" in flat(ran.err)
    assert not runs.folder.exists()


def test_new_begins_another(runs: Runs) -> None:
    """Without it the open one is gone on with."""
    runs.run("\n")
    runs.run("\n")
    assert len(list(runs.folder.glob("*.jsonl"))) == 1
    runs.run("\n", "--new")
    assert len(list(runs.folder.glob("*.jsonl"))) == 2


def test_a_record_can_be_named(runs: Runs, tmp_path: Path) -> None:
    """Then the folder of the platform is left alone, and the pause says which to name."""
    path = tmp_path / "own record.jsonl"
    ran = runs.run("\n", "--record", str(path))
    assert f"--record '{path}'" in ran.out.replace("\n  ", " ")
    assert not runs.folder.exists()
    assert read_journal(path)[0][-1].facts["what"] == "pause"
    assert runs.run("", "--record", str(path), "--new").code == 2


def test_a_held_record_says_who_holds_it(runs: Runs, tmp_path: Path) -> None:
    """Another process that writes to it is named."""
    path = tmp_path / "run.jsonl"
    words = [sys.executable, "-m", "torquebook", "job", "run", "brigade-overhaul"]
    with subprocess.Popen(
        [*words, "--record", str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as other:
        assert other.stdout is not None
        while not other.stdout.readline().startswith("1. spigot"):
            pass
        ran = runs.run("\n", "--record", str(path))
        other.kill()
    assert ran.code == 2
    assert f"process {other.pid}" in " ".join(ran.err.split())
    assert runs.run("\n", "--record", str(path)).code == 0


def test_ctrl_c_is_a_pause(runs: Runs, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is an entry, and says where the work goes on."""

    class Interrupted(io.StringIO):
        def readline(self, *_: object) -> str:  # type: ignore[override]
            signal.raise_signal(signal.SIGINT)
            raise AssertionError

    monkeypatch.setattr("io.StringIO", Interrupted)
    ran = runs.run("")
    assert ran.code == 130
    assert "paused before: spigot bearing" in ran.out
    assert [one["what"] for one in runs.facts()] == ["start", "pause"]


def test_a_read_only_folder_is_one_message(
    runs: Runs, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is begun where nothing can be written."""
    monkeypatch.setenv("XDG_DATA_HOME", "/proc/none")
    ran = runs.run("\n")
    assert ran.code == 2
    assert ran.out == ""
    assert "cannot be made" in ran.err
    locked = tmp_path / "locked"
    locked.mkdir()
    locked.chmod(stat.S_IRUSR | stat.S_IXUSR)
    if os.geteuid() == 0:  # who may write everywhere cannot be kept out by a mode
        locked = Path("/proc")
    ran = runs.run("\n", "--record", str(locked / "run.jsonl"))
    assert ran.code == 2
    assert ran.out == ""
    assert "cannot be locked" in ran.err
    assert ran.err.count("torquebook: ") == 1


def test_a_torn_line_is_named_and_where_it_was_put(runs: Runs, tmp_path: Path) -> None:
    """The run goes on at the step that it was about."""
    path = tmp_path / "run.jsonl"
    runs.run("y\n\n", "--record", str(path))
    with path.open("ab") as stream:
        stream.write(b'{"seq": 5, "wh')
    ran = runs.run("", "--record", str(path))
    assert f"was put into {path}.torn" in ran.out.replace("\n", " ").replace("  ", " ")
    assert Path(f"{path}.torn").read_bytes() == b'{"seq": 5, "wh\n'
    assert "Bolt 1 of 8" in ran.out or "bolt 1 of 8" in ran.out


def test_an_edited_line_is_named(runs: Runs) -> None:
    """The run does not go on with it."""
    runs.run("y\n\n")
    (path,) = runs.folder.glob("*.jsonl")
    path.write_text(path.read_text().replace("spigot", "pilot"))
    ran = runs.run("\n")
    assert ran.code == 2
    assert f"{path.name}:2: this entry was edited".replace(" ", "") in "".join(ran.err.split())


HOSTILE = "=nuts<script>alert(1)</script>"


def test_hostile_names_are_inert(runs: Runs, tmp_path: Path) -> None:
    """Escape sequences in a joint's name are shown, and act on nothing."""
    mine = tmp_path / "mine"
    (mine / "jobs").mkdir(parents=True)
    (mine / "joints").mkdir()
    source = 'source: {kind: invented, title: "x", provenance: "invented"}\n'
    (mine / "jobs" / "brigade-overhaul.yaml").write_text(
        f'kind: job\ntitle: "=1+1"\nname: "{HOSTILE}"\nsteps: [{{joint: joints/j}}]\n{source}'
    )
    (mine / "joints" / "j.yaml").write_text(
        f'kind: joint\ntitle: "x"\nname: "{HOSTILE}"\nfastener: {{thread: "M8"}}\ncount: 1\n'
        f'tighten: "10 N.m"\nconditions: ["=1+1"]\n{source}'
    )
    ran = runs.run("y\n\n", "--book", str(mine), "--for", "\x1b[8m=2")
    assert ran.code == 0
    assert "\x1b" not in ran.out
    assert "job run brigade-overhaul --for '\\x1b[8m=2'" in flat(ran.out)
    (path,) = runs.folder.glob("*.jsonl")
    for form in ("text", "html", "csv", "json"):
        shown = runs.record(path.name, "--format", form).out
        assert "\x1b" not in shown
        assert form != "html" or ("<script" not in shown and "&lt;script" in shown)
        assert form != "csv" or (",'=nuts<script>" in shown and ",'=1+1," in shown)


def test_each_entry_says_what_others_need(runs: Runs) -> None:
    """Time with its zone, job, step, what was asked, and the wrench as it was set."""
    runs.run("y\n\n\n")
    start, gate, _, bolt, _ = runs.facts()
    assert re.fullmatch(r"[0-9a-f]{64}", str(start["records"]))
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d", str(gate["at"]))
    assert json.loads(json.dumps(bolt)) == {
        "what": "bolt",
        "at": bolt["at"],
        "job": "jobs/brigade-overhaul",
        "step": "joints/brigade/flywheel/pass-1/stage-1/position-1",
        "of": "flywheel to crankshaft",
        "spot": "stage 1 of 2, bolt 1 of 8, position 1",
        "asks": "30 N.m",
        "wrench": "click 20-100",
        "setting": "30 N.m",
    }
