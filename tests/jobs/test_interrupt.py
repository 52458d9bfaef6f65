"""Ctrl-C between lines and while one is waited for."""

from __future__ import annotations

import io
import signal

import pytest

from torquebook.jobs.interrupt import Interrupts


class Interrupted(io.StringIO):
    """A keyboard at which Ctrl-C is pressed."""

    def readline(self, *_: object) -> str:  # type: ignore[override]
        """Press it while a line is waited for."""
        signal.raise_signal(signal.SIGINT)
        raise AssertionError


def test_lines_come_as_they_are() -> None:
    """Without Ctrl-C it reads lines, and leaves the signal as it was."""
    before = signal.getsignal(signal.SIGINT)
    with Interrupts() as keys:
        stream = io.StringIO("a\nb")
        assert [keys.line(stream) for _ in range(3)] == ["a\n", "b", ""]
    assert signal.getsignal(signal.SIGINT) is before


def test_ctrl_c_ends_the_waiting() -> None:
    """Pressed while a line is waited for, it is raised there."""
    with Interrupts() as keys, pytest.raises(KeyboardInterrupt):
        keys.line(Interrupted())


def test_ctrl_c_while_writing_waits_for_the_next_line() -> None:
    """Pressed between two lines, it is raised when the next one is asked for."""
    with Interrupts() as keys:
        signal.raise_signal(signal.SIGINT)
        with pytest.raises(KeyboardInterrupt):
            keys.line(io.StringIO("a\n"))
