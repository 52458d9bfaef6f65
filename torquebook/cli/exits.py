"""What the program's exit codes mean."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """How a run ended; every command's help shows these."""

    CLEAN = 0
    FINDINGS = 1
    UNUSABLE = 2
    FAULT = 3

    @property
    def meaning(self) -> str:
        """What the code says, in a few words."""
        return _MEANINGS[self]


_MEANINGS = {
    Exit.CLEAN: "clean",
    Exit.FINDINGS: "findings at or above --fail-on",
    Exit.UNUSABLE: "input or command line that cannot be used",
    Exit.FAULT: "a fault of our own",
}
