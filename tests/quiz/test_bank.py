"""The bank says what the rules say today, and a damaged one is told."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from torquebook.errors import Unreadable
from torquebook.quiz import bank
from torquebook.quiz.build import lines
from torquebook.quiz.levels import COUNTRIES
from torquebook.quiz.model import LEVELS
from torquebook.rules.registry import RULES

COMMAND = "python -m torquebook.quiz.build"


def test_the_bank_is_what_the_rules_say() -> None:
    """What is written down equals what the rules and the rulebook say when they are asked anew."""
    written = Path(bank.BANK).read_text(encoding="utf-8").splitlines()
    assert written == list(lines()), f"run {COMMAND}"


def test_every_level_and_unit_has_enough() -> None:
    """A class of thirty meets lists with many kinds of mistakes, found by many rules."""
    entries = [
        json.loads(line) for line in Path(bank.BANK).read_text(encoding="utf-8").splitlines()[1:]
    ]
    for level in LEVELS:
        for unit in COUNTRIES:
            lists = [one for one in entries if one[:3] == [bank.LISTS, level, unit]]
            assert len(lists) >= 20
            assert len({one[7] for one in lists}) >= 6
            assert len({one[5] for one in lists}) == 5  # any line may be the wrong one
    assert {one[7] for one in entries if one[0] == bank.LISTS} <= set(RULES)
    assert {one[4] for one in entries if one[0] == bank.REUSE} == {
        "renew",
        "measure",
        "clean",
        "reuse",
    }


def test_an_installation_without_its_bank(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The message names the file and what to do."""
    bank._lines.cache_clear()  # noqa: SLF001 - read once for each process
    monkeypatch.setattr(bank, "BANK", str(tmp_path / "gone.jsonl"))
    with pytest.raises(Unreadable, match=f"the bank of questions is missing.*{COMMAND}"):
        bank._lines()  # noqa: SLF001 - as above
