"""The journal: nothing lost, nothing twice, nothing edited."""

from __future__ import annotations

import hashlib
import json
import os
import random
import signal
import subprocess
import sys
import time
from typing import TYPE_CHECKING

import pytest

from torquebook.errors import Unreadable
from torquebook.jobs.journal import START, Journal, entry_after, read_entries

if TYPE_CHECKING:
    from io import FileIO
    from pathlib import Path

WRITER = """
import sys
from pathlib import Path
from torquebook.jobs.journal import Journal
journal = Journal.open(Path(sys.argv[1]))
while True:
    entry = journal.append({"what": "bolt", "value": "60 N·m"})
    sys.stdout.write(f"{entry.seq}\\n")
    sys.stdout.flush()
"""
KILLS = int(os.environ.get("TORQUEBOOK_KILLS", "100"))


def test_an_entry_carries_the_hash_of_the_one_before(tmp_path: Path) -> None:
    """Each hash is the SHA-256 of the hash before and the entry's values by name in order."""
    journal = Journal.open(tmp_path / "run.jsonl")
    journal.append({"what": "start"})
    journal.append({"what": "gate", "reading": 0.03})
    journal.close()
    first, second = map(json.loads, (tmp_path / "run.jsonl").read_text().splitlines())
    assert first["prev"] == START == "0" * 64
    body = '{"reading":0.03,"seq":2,"what":"gate"}'
    stamp = hashlib.sha256(f"{first['hash']}\n{body}".encode()).hexdigest()
    assert (second["prev"], second["hash"]) == (first["hash"], stamp)


def test_a_journal_goes_on_where_it_was(tmp_path: Path) -> None:
    """Opened again, it holds what was written, and the chain goes on."""
    path = tmp_path / "run.jsonl"
    for count in range(1, 4):
        journal = Journal.open(path)
        assert journal.append({"what": "bolt"}).seq == count
        assert journal.torn == ""
        journal.close()
    assert [entry.seq for entry in read_entries(path.read_text(), "run")] == [1, 2, 3]


def test_a_torn_line_is_kept_aside_and_named(tmp_path: Path) -> None:
    """A last line without its end is moved into a file of its own, and the rest holds."""
    path = tmp_path / "run.jsonl"
    entry = entry_after(None, {"what": "start"})
    path.write_bytes(f'{entry.line}\n{{"seq": 2, "wh'.encode())
    journal = Journal.open(path)
    assert journal.torn == '{"seq": 2, "wh'
    assert (tmp_path / "run.jsonl.torn").read_text() == '{"seq": 2, "wh\n'
    journal.append({"what": "gate"})
    journal.close()
    assert len(read_entries(path.read_text(), "run")) == 2


@pytest.mark.parametrize(
    ("edit", "message"),
    [
        (lambda lines: [lines[0], lines[1].replace("60", "06"), lines[2]], r":2: .* was edited"),
        (lambda lines: [lines[0], lines[2]], r":2: .* one is missing"),
        (lambda lines: [*lines, lines[2]], r":4: .* one is missing"),
        (lambda lines: [lines[1], lines[0], lines[2]], r":1: .* one is missing"),
        (lambda lines: [lines[0], "{}", lines[2]], r":2: this entry is none"),
        (lambda lines: [lines[0], "[" * 100_000, lines[2]], r":2: this entry is none"),
        (lambda lines: [lines[0], lines[1].replace('"seq": 2', '"seq": "2"')], r":2: .* is none"),
        (lambda lines: [lines[0], lines[1].replace("N.m", "N·m")], r":2: .* holds bytes"),
    ],
)
def test_an_edited_journal_is_named(tmp_path: Path, edit: object, message: str) -> None:
    """A line that was changed, taken out, put in or moved is found, with its number."""
    path = tmp_path / "run.jsonl"
    journal = Journal.open(path)
    for _ in range(3):
        journal.append({"what": "bolt", "value": "60 N.m"})
    journal.close()
    lines = edit(path.read_text().splitlines())  # type: ignore[operator]
    path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    with pytest.raises(Unreadable, match=message):
        Journal.open(path)


def test_what_was_acknowledged_survives_a_kill(tmp_path: Path) -> None:
    """Killed at any moment, every acknowledged entry is there, none twice, and it goes on."""
    draw = random.Random(7)  # noqa: S311 - moments, not secrets
    path = tmp_path / "run.jsonl"
    acknowledged = 0
    for _ in range(KILLS):
        with subprocess.Popen(
            [sys.executable, "-S", "-c", WRITER, str(path)], stdout=subprocess.PIPE, text=True
        ) as writer:
            assert writer.stdout is not None
            first = writer.stdout.readline()
            time.sleep(draw.uniform(0, 0.01))
            writer.send_signal(signal.SIGKILL)
            seen = [first, *writer.stdout.read().splitlines()]
        entries = read_entries(_whole(path), "run")
        assert int(first) > acknowledged
        acknowledged = max(int(line) for line in seen if line.strip())
        assert len(entries) >= acknowledged
        assert [entry.seq for entry in entries] == list(range(1, len(entries) + 1))


def _whole(path: Path) -> str:
    text = path.read_bytes().decode("ascii")
    return text[: text.rfind("\n") + 1]


FULL = """
import resource, signal, sys
from pathlib import Path
from torquebook.errors import Unreadable
from torquebook.jobs.journal import Journal
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
journal = Journal.open(Path(sys.argv[1]))
resource.setrlimit(resource.RLIMIT_FSIZE, (2000, resource.RLIM_INFINITY))
try:
    while True:
        journal.append({"what": "bolt"})
except Unreadable as trouble:
    print(trouble)
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
print(journal.append({"what": "after"}).seq)
"""


def test_a_full_disk_is_one_message_and_loses_nothing(tmp_path: Path) -> None:
    """An entry that does not fit is refused whole; with room again the chain goes on."""
    path = tmp_path / "run.jsonl"
    ran = subprocess.run(
        [sys.executable, "-c", FULL, str(path)], capture_output=True, text=True, check=True
    )
    message, seq = ran.stdout.splitlines()
    assert message.startswith(f"{path}: cannot be written (")
    entries = read_entries(path.read_text(), "run")
    assert len(entries) == int(seq) > 3
    assert entries[-1].facts == {"what": "after"}


def test_a_folder_that_is_none_is_one_message(tmp_path: Path) -> None:
    """A journal in no folder, or that is a folder, is refused with its name."""
    with pytest.raises(Unreadable, match="cannot be written"):
        Journal.open(tmp_path / "none" / "run.jsonl")
    with pytest.raises(Unreadable, match="cannot be written"):
        Journal.open(tmp_path)


def test_an_entry_that_cannot_be_kept_leaves_the_journal_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither a part of a line nor a line that may not last stays behind."""
    path = tmp_path / "run.jsonl"
    journal = Journal.open(path)
    journal.append({"what": "start"})
    before = path.read_bytes()

    def refuse(_: int) -> None:
        raise OSError(5, "Input/output error")

    with monkeypatch.context() as patched:
        patched.setattr("torquebook.jobs.journal.os.fsync", refuse)
        with pytest.raises(Unreadable, match="Input/output error"):
            journal.append({"what": "bolt"})
    assert path.read_bytes() == before

    class Short:
        """A stream that takes a part of what it is given."""

        def __init__(self, stream: FileIO) -> None:
            self.stream = stream

        def __getattr__(self, name: str) -> object:
            return getattr(self.stream, name)

        def write(self, line: bytes) -> int:
            return self.stream.write(line[:5])

    with monkeypatch.context() as patched:
        patched.setattr(journal, "_stream", Short(journal._stream))  # noqa: SLF001 - a disk that is full
        with pytest.raises(Unreadable, match="No space left"):
            journal.append({"what": "bolt"})
    assert path.read_bytes() == before
    assert journal.append({"what": "bolt"}).seq == 2
    journal.close()
