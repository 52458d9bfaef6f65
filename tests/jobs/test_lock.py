"""One run of one record at a time."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from types import SimpleNamespace
from typing import TYPE_CHECKING

import pytest

from torquebook.errors import Unreadable
from torquebook.jobs.lock import Lock

if TYPE_CHECKING:
    from pathlib import Path

HOLDER = {"user": "anna", "host": "shed", "pid": 77, "since": "2026-05-02T10:00:00+02:00"}
HOLDS = """
import sys, time
from pathlib import Path
from torquebook.jobs.lock import Lock
lock = Lock(Path(sys.argv[1]), {"user": "ben", "host": "shed", "pid": 1, "since": "today"})
lock.take()
print("held", flush=True)
time.sleep(60)
"""


def test_a_second_run_is_told_who_holds_it(tmp_path: Path) -> None:
    """The message names user, machine, process and since when; freed, it can be taken."""
    path = tmp_path / "run.jsonl"
    with Lock(path, HOLDER):
        with pytest.raises(Unreadable) as caught:
            Lock(path, {**HOLDER, "user": "ben"}).take()
        assert "is being written by anna on shed, process 77, since 2026-05-02" in str(caught.value)
        assert "--record FILE" in str(caught.value)
    with Lock(path, {**HOLDER, "user": "ben"}) as lock:
        assert b'"ben"' in lock.path.read_bytes()
    lock.free()


@pytest.mark.parametrize("words", ["", "[1]", "{}", "[" * 9000])
def test_a_lock_without_a_name_still_holds(tmp_path: Path, words: str) -> None:
    """Whatever the file says, the system knows that it is held."""
    path = tmp_path / "run.jsonl"
    with Lock(path, HOLDER) as lock:
        lock.path.write_text(words)
        with pytest.raises(Unreadable, match="by another run"):
            Lock(path, HOLDER).take()


def test_a_killed_process_holds_nothing(tmp_path: Path) -> None:
    """The system lets go of what a killed process held."""
    path = tmp_path / "run.jsonl"
    with subprocess.Popen(
        [sys.executable, "-c", HOLDS, str(path)], stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "held\n"
        with pytest.raises(Unreadable, match="by ben on shed"):
            Lock(path, HOLDER).take()
        other.kill()
        other.wait()
    with Lock(path, HOLDER):
        pass


def test_a_folder_that_cannot_be_written_to_is_one_message(tmp_path: Path) -> None:
    """No folder, no lock."""
    with pytest.raises(Unreadable, match="cannot be locked"):
        Lock(tmp_path / "none" / "run.jsonl", HOLDER).take()


def test_a_disk_that_knows_no_locks_is_one_message(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the system cannot lock, nobody is said to hold it."""

    def refuse(*_: object) -> None:
        raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    monkeypatch.setattr("fcntl.flock", refuse)
    with pytest.raises(Unreadable, match="cannot be locked"):
        Lock(tmp_path / "run.jsonl", HOLDER).take()


def test_a_full_disk_takes_no_lock(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What cannot say who holds it is let go of again."""
    path = tmp_path / "run.jsonl"

    def full(*_: object) -> str:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr("torquebook.jobs.lock.json.dumps", full)
        with pytest.raises(Unreadable, match="No space"):
            Lock(path, HOLDER).take()
    with Lock(path, HOLDER):
        pass


def test_windows_locks_a_byte_behind_the_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """There the file can be read by others while it is held."""
    asked: list[tuple[int, int, int]] = []

    def locking(handle: int, mode: int, count: int) -> None:
        asked.append((os.lseek(handle, 0, os.SEEK_CUR), mode, count))

    monkeypatch.setitem(sys.modules, "msvcrt", SimpleNamespace(LK_NBLCK=2, locking=locking))
    monkeypatch.setattr("torquebook.jobs.lock.os", SimpleNamespace(name="nt"))
    with Lock(tmp_path / "run.jsonl", HOLDER) as lock:
        assert b"anna" in lock.path.read_bytes()
    assert asked == [(1 << 20, 2, 1)]
