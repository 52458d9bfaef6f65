"""Exit codes."""

from __future__ import annotations

from torquebook.cli.exits import Exit


def test_codes_are_the_contract() -> None:
    """The numbers are those that scripts rely on, and each says what it means."""
    assert {code.name: code.value for code in Exit} == {
        "CLEAN": 0,
        "FINDINGS": 1,
        "UNUSABLE": 2,
        "FAULT": 3,
    }
    assert all(code.meaning for code in Exit)
