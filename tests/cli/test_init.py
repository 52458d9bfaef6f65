"""The entry point."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from pathlib import Path

import pytest

from torquebook.cli import main

ROOT = Path(__file__).resolve().parents[2]


class Left(BaseException):
    """The process has ended."""


@pytest.mark.parametrize("debug", [False, True])
def test_main_leaves_with_the_exit_code(
    debug: bool, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The process ends with the command's exit code, its answer written; slowly only in debug."""

    def leave(code: int) -> None:
        raise Left(code)

    monkeypatch.setattr(os, "_exit", leave)
    monkeypatch.setenv("TORQUEBOOK_DEBUG", "1" if debug else "")
    try:
        with pytest.raises(SystemExit if debug else Left) as left:
            main(["convert", "12 lbf.in", "lbf.ft"])
    finally:
        gc.enable()
    assert left.value.args == (0,)
    assert capsys.readouterr().out == "12 lbf·in = 1 lbf·ft\n"


def test_a_reader_who_left_is_no_trouble() -> None:
    """A pipe that is closed too early ends the process with its code and without a complaint."""
    code = (
        "import os, sys; from torquebook.cli import main; read, write = os.pipe(); os.close(read);"
        " os.dup2(write, 1); main(['convert', '12 lbf.in', 'lbf.ft'])"
    )
    done = subprocess.run([sys.executable, "-c", code], check=False, capture_output=True, cwd=ROOT)
    assert (done.returncode, done.stderr) == (0, b"")
