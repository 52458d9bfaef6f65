"""Standard output and standard error."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest

from torquebook.render import terminal

if TYPE_CHECKING:
    from collections.abc import Callable


class Screen(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Say so."""
        return True


@pytest.mark.parametrize(
    ("environment", "stream", "bold"),
    [
        ({"TERM": "xterm"}, Screen, True),
        ({"TERM": "xterm", "NO_COLOR": "1"}, Screen, False),
        ({"TERM": "xterm", "NO_COLOR": ""}, Screen, True),
        ({"TERM": "dumb"}, Screen, False),
        ({}, Screen, False),
        ({"TERM": "xterm"}, io.StringIO, False),
    ],
)
def test_bold_only_on_a_terminal_that_may_have_it(
    environment: dict[str, str],
    stream: Callable[[], io.StringIO],
    bold: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A pipe, a dumb terminal and NO_COLOR (where not empty) get plain text."""
    for name in ("TERM", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("sys.stdout", stream())
    assert terminal.paper().bold is bold


def test_stream_without_our_signs_gets_ascii(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal of another encoding shows N.m, not an error."""
    raw = io.BytesIO()
    monkeypatch.setattr("sys.stdout", io.TextIOWrapper(raw, encoding="ascii"))
    terminal.show("60 ±3 N·m\n")
    assert raw.getvalue() == b"60 +/-3 N.m\n"


def test_complaint_is_inert_and_wrapped(capsys: pytest.CaptureFixture[str]) -> None:
    """A message may quote a hostile text; it goes to standard error in 80 columns."""
    terminal.complain("\x1b[2J " + "word " * 40)
    written = capsys.readouterr()
    assert written.out == ""
    assert written.err.startswith("torquebook: \\x1b[2J word")
    assert max(map(len, written.err.splitlines())) <= 80
