"""``torquebook job run``."""

from __future__ import annotations

import io
import json
import os
import re
import signal
import stat
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.jobs.journal import read_journal
from torquebook.jobs.running import closes, trail
from torquebook.jobs.steps import RunStep, steps_of
from torquebook.jobs.working import work_out

if TYPE_CHECKING:
    from collections.abc import Callable

    from conftest import Ran, Runner

KILLS = int(os.environ.get("TORQUEBOOK_KILLS", "100"))
WHOLE = 5
"""So many of them besides end a process of its own, from its start; the others are forked from
one that has imported the program, which saves half a second each and runs the same command."""
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


@pytest.fixture(scope="module")
def steps() -> tuple[RunStep, ...]:
    """Return the steps of the demo's job."""
    return steps_of(work_out(Library(), Book.open(), "brigade overhaul"))


def keys(steps: tuple[RunStep, ...], signed: str = "A. Miller") -> str:
    """Return what is typed from the first step to the signature."""
    lines = [
        signed if step.kind == "sign" else GOOD[step.name] if step.must else "" for step in steps
    ]
    return "".join(f"{line}\n" for line in lines)


def flat(text: str) -> str:
    """Return a text without the breaks of its lines."""
    return " ".join(text.split())


class Bench(NamedTuple):
    """Ways to run a job with some keys and to show a record, and the folder of the records."""

    run: Callable[..., Ran]
    record: Callable[..., Ran]
    folder: Path

    def facts(self, name: str = "") -> list[dict[str, object]]:
        """Return the facts of the one record, or of one by its name."""
        (path,) = self.folder.glob(f"*{name}.jsonl")
        return [dict(entry.facts) for entry in read_journal(path)[0]]


@pytest.fixture
def bench(cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    """Return a bench of its own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("TORQUEBOOK_RECORDS", raising=False)
    monkeypatch.setattr("sys.platform", "linux")

    def run(typed: str, *words: str) -> Ran:
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        return cli("job", "run", "brigade-overhaul", *words)

    def record(*words: str) -> Ran:
        return cli("job", "record", *words)

    return Bench(run, record, tmp_path / "torquebook" / "records")


def test_the_whole_job(bench: Bench, steps: tuple[RunStep, ...]) -> None:
    """Every step is recorded once, in order, and the signature is the last."""
    ran = bench.run(keys(steps), "--for", "tanker 2")
    assert ran.code == 0
    assert ran.err == ""
    facts = bench.facts()
    assert [one["step"] for one in facts[1:]] == [step.id for step in steps]
    assert (facts[0]["what"], facts[0]["for"], facts[-1]["name"]) == (
        "start", "tanker 2", "A. Miller",
    )  # fmt: skip
    assert "signed off; the record:" in ran.out
    assert "still due: front wheels: retorque after 50 km" in ran.out
    assert max(map(len, ran.out.splitlines())) <= 80


def test_a_pipe_gets_a_paragraph_a_step(bench: Bench) -> None:
    """No clearing, no large digits; what was typed is echoed, and the end of it is a pause."""
    ran = bench.run("\n\n")
    assert "\x1b" not in ran.out
    assert "##" not in ran.out
    assert "\n2 recorded: spigot bearing\n" in ran.out
    assert "2. flywheel to crankshaft. Stage 1 of 2, bolt 1 of 8, position 1. 30 N·m. " in ran.out
    assert "paused before: flywheel to crankshaft, stage 1 of 2, bolt 1 of 8" in ran.out
    assert "go on: torquebook job run brigade-overhaul\n" in ran.out
    assert bench.facts()[-1]["what"] == "pause"


def test_every_key(bench: Bench) -> None:
    """Help, back, skip with a reason, what is none, and pause."""
    ran = bench.run("?\nxyz\n\nb\ny\ns\nno oil\nq\n\n")
    assert "b         back: opens the step before again" in ran.out
    assert '"xyz": Enter or y for yes, n for no' in ran.out
    assert "why is it skipped?" in ran.out
    assert "5 recorded: flywheel to crankshaft, before its 8 bolts; skipped: no oil" in ran.out
    kinds = [one["what"] for one in bench.facts()]
    assert kinds == ["start", "gate", "back", "gate", "skip", "pause"]


def test_a_gate_out_of_its_limit_blocks(bench: Bench, steps: tuple[RunStep, ...]) -> None:
    """The next step does not show before a reading passes."""
    at = next(n for n, step in enumerate(steps) if step.name == "flywheel face runout")
    before = "".join(keys(steps).splitlines(keepends=True)[:at])
    ran = bench.run(f"{before}0.2 mm\n\ns\nit is fine\n")
    assert "0.2 mm is above the limit: up to 0.1 mm; the" in ran.out
    assert "cannot be skipped" in ran.out
    assert "paused before: flywheel face runout" in ran.out
    assert "Did not pass: 0.2 mm." in ran.out
    ran = bench.run("0.09\n")
    assert "0.09 mm is within its limits" in ran.out
    assert "paused before: new cover beside the old one" in ran.out


def test_the_unit_and_the_wrench_are_mine(bench: Bench) -> None:
    """The number is that of the wrench's scale, and of the unit that is asked for."""
    ran = bench.run("\n\n", "--unit", "lbf.ft", "--wrench", "click 20-150 lbf.ft", "--ascii")
    assert "22.1 lbf.ft. Set on click 20-150 lbf.ft." in flat(ran.out)
    assert ran.out.isascii()


def test_two_vehicles_have_a_record_each(bench: Bench) -> None:
    """Each goes on with its own; with two of them open, one must be named."""
    bench.run("\n", "--for", "tanker 1")
    bench.run("\n\n", "--for", "tanker 2")
    assert len(list(bench.folder.glob("*.jsonl"))) == 2
    assert "for tanker 1" in bench.run("", "--for", "tanker 1").out.replace("'", "")
    ran = bench.run("")
    assert ran.code == 2
    assert "tanker 1" in ran.err
    assert "tanker 2" in ran.err
    assert "--record FILE" in flat(ran.err)
    assert [one["for"] for one in bench.facts("-2") if "for" in one] == ["tanker 2"]


def test_a_run_is_for_a_person(bench: Bench) -> None:
    """A program is told where its answer is, and nothing is begun."""
    ran = bench.run("", "--json")
    assert ran.code == 2
    assert "job record --json" in flat(ran.err)
    assert not bench.folder.exists()


def test_new_begins_another(bench: Bench) -> None:
    """Without it the open one is gone on with."""
    bench.run("\n")
    bench.run("\n")
    assert len(list(bench.folder.glob("*.jsonl"))) == 1
    bench.run("\n", "--new")
    assert len(list(bench.folder.glob("*.jsonl"))) == 2


def test_a_record_can_be_named(bench: Bench, tmp_path: Path) -> None:
    """Then the folder of the platform is left alone, and the pause says which to name."""
    path = tmp_path / "own record.jsonl"
    ran = bench.run("\n", "--record", str(path))
    assert f"--record '{path}'" in ran.out.replace("\n  ", " ")
    assert not bench.folder.exists()
    assert read_journal(path)[0][-1].facts["what"] == "pause"
    assert bench.run("", "--record", str(path), "--new").code == 2


def test_a_held_record_says_who_holds_it(bench: Bench, tmp_path: Path) -> None:
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
        ran = bench.run("\n", "--record", str(path))
        other.kill()
    assert ran.code == 2
    assert f"process {other.pid}" in " ".join(ran.err.split())
    assert bench.run("\n", "--record", str(path)).code == 0


def test_ctrl_c_is_a_pause(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is an entry, and says where the work goes on."""

    class Interrupted(io.StringIO):
        def readline(self, *_: object) -> str:  # type: ignore[override]
            signal.raise_signal(signal.SIGINT)
            raise AssertionError

    monkeypatch.setattr("io.StringIO", Interrupted)
    ran = bench.run("")
    assert ran.code == 130
    assert "paused before: spigot bearing" in ran.out
    assert [one["what"] for one in bench.facts()] == ["start", "pause"]


def test_a_read_only_folder_is_one_message(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is begun where nothing can be written."""
    monkeypatch.setenv("XDG_DATA_HOME", "/proc/none")
    ran = bench.run("\n")
    assert ran.code == 2
    assert ran.out == ""
    assert "cannot be made" in ran.err
    locked = tmp_path / "locked"
    locked.mkdir()
    locked.chmod(stat.S_IRUSR | stat.S_IXUSR)
    if os.geteuid() == 0:  # who may write everywhere cannot be kept out by a mode
        locked = Path("/proc")
    ran = bench.run("\n", "--record", str(locked / "run.jsonl"))
    assert ran.code == 2
    assert ran.out == ""
    assert "cannot be locked" in ran.err
    assert ran.err.count("torquebook: ") == 1


FULL = """
import resource, signal, sys
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (4000, resource.RLIM_INFINITY))
from torquebook.cli import main
main()
"""


def test_a_full_disk_is_one_message_and_loses_nothing(tmp_path: Path) -> None:
    """What was acknowledged is there, the message is one, and with room it goes on."""
    path = tmp_path / "run.jsonl"
    words = ["job", "run", "brigade-overhaul", "--record", str(path)]
    ran = subprocess.run(
        [sys.executable, "-c", FULL, *words],
        input="\n" * 18, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.returncode == 2
    assert ran.stderr.count("torquebook:") == 1
    assert "cannot be written" in ran.stderr
    entries, torn = read_journal(path)
    assert torn == ""
    assert len(entries) == max(map(int, re.findall(r"^(\d+) recorded", ran.stdout, re.MULTILINE)))
    again = subprocess.run(
        [sys.executable, "-m", "torquebook", *words],
        input="\n", capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert f"\n{len(entries) + 2} recorded: " in again.stdout


def test_a_torn_line_is_named_and_where_it_was_put(bench: Bench, tmp_path: Path) -> None:
    """The run goes on at the step that it was about."""
    path = tmp_path / "run.jsonl"
    bench.run("\n\n", "--record", str(path))
    with path.open("ab") as stream:
        stream.write(b'{"seq": 5, "wh')
    ran = bench.run("", "--record", str(path))
    assert f"was put into {path}.torn" in ran.out.replace("\n", " ").replace("  ", " ")
    assert Path(f"{path}.torn").read_bytes() == b'{"seq": 5, "wh\n'
    assert "Bolt 1 of 8" in ran.out or "bolt 1 of 8" in ran.out


def test_an_edited_line_is_named(bench: Bench) -> None:
    """The run does not go on with it."""
    bench.run("\n\n")
    (path,) = bench.folder.glob("*.jsonl")
    path.write_text(path.read_text().replace("spigot", "pilot"))
    ran = bench.run("\n")
    assert ran.code == 2
    assert f"{path.name}:2: this entry was edited".replace(" ", "") in "".join(ran.err.split())


HOSTILE = "=nuts<script>alert(1)</script>"


def test_hostile_names_are_inert(bench: Bench, tmp_path: Path) -> None:
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
    ran = bench.run("\n\n", "--book", str(mine), "--for", "\x1b[8m=2")
    assert ran.code == 0
    assert "\x1b" not in ran.out
    assert "job run brigade-overhaul --for '\\x1b[8m=2'" in flat(ran.out)
    (path,) = bench.folder.glob("*.jsonl")
    for form in ("text", "html", "csv", "json"):
        shown = bench.record(path.name, "--format", form).out
        assert "\x1b" not in shown
        assert form != "html" or ("<script" not in shown and "&lt;script" in shown)
        assert form != "csv" or (",'=nuts<script>" in shown and ",'=1+1," in shown)


KILLER = """
import os, random, re, select, signal, sys, time
from pathlib import Path
from torquebook.cli import run
from torquebook.jobs import session, keeping, report
from torquebook.jobs.journal import read_journal
from torquebook.jobs.running import trail
import torquebook.cli.job_run
import torquebook.jobs.working

folder, kills, whole = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
KEYS = b"\\n0.05\\n0.7\\n24\\n2\\n100\\nA. Miller\\n" * 250
draw = random.Random(11)
record, acknowledged, useful = 1, 0, 0

def path():
    return folder / f"run-{record}.jsonl"

def child(keys, said, spawn):
    os.dup2(keys, 0)
    os.dup2(said, 1)
    words = ["job", "run", "brigade-overhaul", "--record", str(path()), "--plain"]
    if spawn:
        os.execv(sys.executable, [sys.executable, "-m", "torquebook", *words])
    os._exit(run(words))

for turn in range(kills + whole):
    spawn = turn >= kills
    (keys, typing), (hearing, said) = os.pipe(), os.pipe()
    sys.stdout.flush()
    pid = os.fork()
    if not pid:
        child(keys, said, spawn)
    os.close(keys), os.close(said)
    os.write(typing, KEYS)
    until = time.monotonic() + (draw.uniform(0.3, 1.2) if spawn else draw.uniform(0.0, 0.35))
    heard = b""
    while (left := until - time.monotonic()) > 0:
        if select.select([hearing], [], [], left)[0]:
            more = os.read(hearing, 65536)
            if not more:
                break
            heard += more
    os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
    while more := os.read(hearing, 65536):
        heard += more
    os.close(typing), os.close(hearing)
    seen = [int(one) for one in re.findall(rb"^(\\d+) recorded", heard, re.M)]
    useful += bool(seen)
    entries = read_journal(path())[0] if path().exists() else ()
    acknowledged = max([acknowledged, *seen])
    assert len(entries) >= acknowledged, (turn, len(entries), acknowledged)
    if seen:
        assert entries[seen[0] - 2].facts["what"] in ("start", "resume"), turn
    if trail(entries).signed:
        record, acknowledged = record + 1, 0
print(record, useful)
"""


def test_what_was_acknowledged_survives_a_kill(
    tmp_path: Path, bench: Bench, steps: tuple[RunStep, ...]
) -> None:
    """Killed at any moment, every acknowledged entry is there, none twice, and it goes on."""
    ran = subprocess.run(
        [sys.executable, "-c", KILLER, str(tmp_path), str(KILLS), str(WHOLE)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    records, useful = map(int, ran.stdout.split())
    assert useful > KILLS // 3
    bench.run(
        "\n0.05\n0.7\n24\n2\n100\nA. Miller\n" * 250,
        "--record",
        str(tmp_path / f"run-{records}.jsonl"),
    )
    for path in tmp_path.glob("run-*.jsonl"):
        entries = read_journal(path)[0]
        assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1))
        assert trail(entries).signed
        closing = [entry.facts["step"] for entry in entries if closes(entry.facts)]
        assert len(closing) == len(set(closing)) == len(steps)


def test_each_entry_says_what_others_need(bench: Bench) -> None:
    """Time with its zone, job, step, what was asked, and the wrench as it was set."""
    bench.run("\n\n\n")
    start, gate, _, bolt, _ = bench.facts()
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
