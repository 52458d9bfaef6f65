"""Ctrl-C ends the waiting for a line, and never the writing of an entry."""

from __future__ import annotations

import signal
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from typing import Self, TextIO


class Interrupts:
    """Takes lines; use it with ``with``, in the main thread."""

    def __init__(self) -> None:
        self._reading = False
        self._pending = False
        self._before: Any = None

    def __enter__(self) -> Self:
        """Catch Ctrl-C."""
        self._before = signal.signal(signal.SIGINT, self._caught)
        return self

    def __exit__(self, *_: object) -> None:
        """Leave it as it was."""
        signal.signal(signal.SIGINT, self._before)

    def line(self, stream: TextIO) -> str:
        """Return the next line, empty at the end.

        Raises
        ------
        KeyboardInterrupt
            At Ctrl-C, now or since the line before.
        """
        self._reading = True
        try:
            if self._pending:
                raise KeyboardInterrupt
            return stream.readline()
        finally:
            self._reading = False

    def _caught(self, *_: object) -> None:
        if self._reading:
            raise KeyboardInterrupt
        self._pending = True
