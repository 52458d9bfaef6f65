"""Whatever goes wrong is one message and an exit code."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from torquebook.cli.exits import Exit

if TYPE_CHECKING:
    from conftest import Runner

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("job", "order", "8", "--svg"), "requires an argument; see torquebook job order --help"),
        (("size",), "Missing argument 'THREAD'; see torquebook size --help"),
        (("size", "M10", "--frob"), "No such option"),
        (("size", "M10x1.3"), "M10x1.25"),
        (("convert", "60 lb", "N.m"), "60 lbf.ft or 60 lbf.in"),
        (("judge", "--fail-on", "often", "x"), "'often' is not one of"),
    ],
)
def test_what_the_user_can_mend_is_one_message(
    words: tuple[str, ...], message: str, cli: Runner
) -> None:
    """Trouble of the user's is exit code 2, with the message on standard error alone."""
    ran = cli(*words)
    assert ran.code == Exit.UNUSABLE
    assert ran.out == ""
    assert message in " ".join(ran.err.split())
    assert ran.err.startswith("torquebook: ")
    assert max(map(len, ran.err.splitlines())) <= 80
    assert "Traceback" not in ran.err


def test_fault_of_ours_is_exit_3_without_traceback(
    cli: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fault of our own says so, names what to report, and shows no traceback."""

    def broken(_: object) -> None:
        raise ZeroDivisionError("the belt slipped")

    monkeypatch.setattr("torquebook.cli.convert.conversion", broken)
    ran = cli("convert", "1 N.m")
    assert ran.code == Exit.FAULT
    assert "our own fault: ZeroDivisionError: the belt slipped; please report" in ran.err
    assert "Traceback" not in ran.err


def test_debug_shows_where_a_fault_happened(cli: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    """With TORQUEBOOK_DEBUG set a fault of our own keeps its traceback."""

    def broken(_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("torquebook.cli.convert.conversion", broken)
    monkeypatch.setenv("TORQUEBOOK_DEBUG", "1")
    with pytest.raises(ZeroDivisionError):
        cli("convert", "1 N.m")


def test_interrupt_is_quiet(cli: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C ends the run as a shell expects, without a word."""

    def interrupted(_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("torquebook.cli.convert.conversion", interrupted)
    ran = cli("convert", "1 N.m")
    assert ran.code == 130
    assert "torquebook" not in ran.err


def test_ascii_holds_for_complaints(cli: Runner) -> None:
    """``--ascii`` covers the message about a command line that cannot be used."""
    ran = cli("convert", "±5 N.m", "--ascii")
    assert ran.code == Exit.UNUSABLE
    assert ran.err.isascii()


@pytest.mark.skipif(sys.platform == "win32", reason="pipes close differently there")
def test_reader_who_has_left_is_no_trouble() -> None:
    """A closed pipe ends the run quietly, and the exit code stays that of the command."""
    code = "import time; time.sleep(0.3); from torquebook.cli import main; main()"
    with subprocess.Popen(
        [sys.executable, "-c", code, "judge", "M8 8.8 250 N.m"],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert process.stdout
        assert process.stderr
        process.stdout.close()
        complaint = process.stderr.read()
        assert process.wait(30) == Exit.FINDINGS
    assert complaint == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is full")
def test_answer_that_cannot_be_written_is_said() -> None:
    """A full disk is told in one message, as something that the user can mend."""
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "torquebook", "convert", "1 N.m"],
            cwd=ROOT,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.stderr.startswith(b"torquebook: the answer: cannot be written")
    assert b"Traceback" not in done.stderr
