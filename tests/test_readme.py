"""The README prints what the program prints."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from torquebook.cli import run

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SESSIONS = re.findall(r"```\n\$ torquebook (.*)\n([\s\S]*?)\n```", README)


def test_the_readme_shows_sessions() -> None:
    """The README shows the clean list, the planted one, a line, a used bolt, and a job."""
    assert len(SESSIONS) == 5


@pytest.mark.parametrize(("command", "shown"), SESSIONS)
def test_a_session_is_real(
    command: str, shown: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each piece of a session, between the marks where it is cut, is what the command prints."""
    monkeypatch.chdir(ROOT)
    run(shlex.split(command))
    printed = capsys.readouterr().out
    for piece in shown.split("[...]"):
        assert piece.strip("\n") in printed


def test_the_caution_stands_at_the_top() -> None:
    """The usual cautions stand before the first command."""
    top = README.split("## Two commands")[0]
    assert "maker's data for the exact vehicle come first" in top
    assert "licensed practice decide" in top
