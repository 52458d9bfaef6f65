"""``torquebook job run`` on a full disk, and killed at any moment."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from typing import TYPE_CHECKING

from torquebook.jobs.journal import read_journal
from torquebook.jobs.running import closes, trail

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Runs

    from torquebook.jobs.steps import RunStep

KILLS = int(os.environ.get("TORQUEBOOK_KILLS", "100"))
WHOLE = 5
"""So many of them besides end a process of its own, from its start; the others are forked from
one that has imported the program, which saves half a second each and runs the same command."""


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
        input="y\n" + "\n" * 17, capture_output=True, text=True, check=False,
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
KEYS = b"y\\n\\n0.05\\n0.7\\n24\\n2\\n100\\nA. Miller\\n" * 250
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
    tmp_path: Path, runs: Runs, steps: tuple[RunStep, ...]
) -> None:
    """Killed at any moment, every acknowledged entry is there, none twice, and it goes on."""
    ran = subprocess.run(
        [sys.executable, "-c", KILLER, str(tmp_path), str(KILLS), str(WHOLE)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    records, useful = map(int, ran.stdout.split())
    assert useful > KILLS // 3
    runs.run(
        "y\n\n0.05\n0.7\n24\n2\n100\nA. Miller\n" * 250,
        "--record",
        str(tmp_path / f"run-{records}.jsonl"),
    )
    for path in tmp_path.glob("run-*.jsonl"):
        entries = read_journal(path)[0]
        assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1))
        assert trail(entries).signed
        closing = [entry.facts["step"] for entry in entries if closes(entry.facts)]
        assert len(closing) == len(set(closing)) == len(steps)
