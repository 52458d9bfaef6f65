"""The entry point."""

from __future__ import annotations

import gc

import pytest

from torquebook.cli import main


def test_main_leaves_with_the_exit_code(capsys: pytest.CaptureFixture[str]) -> None:
    """The process ends with the command's exit code."""
    try:
        with pytest.raises(SystemExit) as left:
            main(["convert", "12 lbf.in", "lbf.ft"])
    finally:
        gc.enable()
    assert left.value.code == 0
    assert capsys.readouterr().out == "12 lbf·in = 1 lbf·ft\n"
