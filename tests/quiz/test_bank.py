"""The bank says what the rules say today, and a damaged one is told."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from quiz_clauses import CLAUSES, WORDS, reuse_verdict

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.errors import Unreadable
from torquebook.quiz import bank, banked
from torquebook.quiz.build import lines
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import COUNTRIES
from torquebook.quiz.model import LEVELS
from torquebook.quiz.stock import founded
from torquebook.quiz.takenout import Out
from torquebook.quiz.verdicts import verdict_on
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


def entries(which: str) -> list[Any]:
    """Return the bank's lists, or its fasteners."""
    lines = Path(bank.BANK).read_text(encoding="utf-8").splitlines()[1:]
    return [found for found in map(json.loads, lines) if found[0] == which]


@pytest.mark.parametrize("level", LEVELS)
def test_every_verdict_follows_from_a_clause(level: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of every fastener a printed clause or a limit in the question says what the key says."""
    book = Book.open()
    for entry in entries(bank.REUSE):
        if entry[1] == level:
            found = bank.Ruled(*entry[3:])
            monkeypatch.setattr(banked, "ruled", lambda *_, found=found: found)
            made = banked.reuse_verdict(Draw(found.said), book, level, "N.m")
            answer: Any = made.answer
            assert answer.options[answer.key].text == reuse_verdict(made, book), made
            wrong = [one.text for one in answer.options if not one.right]
            assert len(wrong) == len(WORDS) - 1  # how many there are gives no key away


@pytest.mark.parametrize("level", LEVELS)
def test_no_verdict_is_right_most_of_the_time(level: int) -> None:
    """Of 400 draws each verdict gets its share, so none can be given without reading."""
    draw = Draw(f"verdicts|{level}")
    drawn = [bank.ruled(draw, level, "N.m").verdict for _ in range(400)]
    for verdict in WORDS:
        assert 0.1 < drawn.count(verdict) / 400 < 0.5


def test_each_clause_is_asked_for() -> None:
    """No clause and no name in it stands in the table of second keys for nothing."""
    told = [f"{one[3]} Workshop goes by {one[7]} for used parts" for one in entries(bank.REUSE)]
    for clause in CLAUSES:
        for asked in clause.names.values():
            assert any(re.search(asked, text, re.IGNORECASE) for text in told), asked


def test_keys_rest_on_print() -> None:
    """No entry's source is practice without a source, inference or memory."""
    for entry in (*entries(bank.LISTS), *entries(bank.REUSE)):
        source = entry[-2] if entry[0] == bank.LISTS else entry[6]
        assert founded(source)
        assert "no published source" not in source
        assert not re.match("common practice|inference|derived|memory|invented", source)


def test_what_is_measured_is_clean() -> None:
    """One state has one key: what goes back in as it is was told to be clean, the rest dirty."""
    for _, _, _, said, verdict, *_ in entries(bank.REUSE):
        assert ("is clean" in said) or verdict not in {"reuse", "measure"}, said
        if verdict == "clean":
            assert re.search("dirty|rusty|sealant", said), said


@pytest.mark.parametrize(
    "words",
    [
        "M8 locking nut, rotating part",  # AC 43.13-1B, 7-64 a: never this kind, new or used
        "M8 12.9 electroplated",  # ISO 4042:1999, clause 6: never so plated, new or used
        "3/4-10 A325",  # RCSC 2.3.3: only "when approved by the Engineer of Record"
        "M8 8.8 zinc plated tightened repeatedly",  # W. Eccles, 2010: the nut, or lubrication
        "M8 10.9 flywheel bolt",  # nobody printed it
    ],
)
def test_half_a_verdict_is_not_asked_for(words: str) -> None:
    """What holds only with something besides, or rests on no print, gets no entry."""
    out = Out(1, words, "It came out.", {})
    assert verdict_on(Book.open(), Library(), out) is None


def test_what_a_rule_says_besides_stands_in_the_solution() -> None:
    """A nut that drags enough goes back in, and its drag is added; who is stricter is named."""
    out = Out(3, "1/2-20 all-metal locking nut", "It drags.", {"drag_nm": 1.2}, "FAA", "lbf.in")
    entry = verdict_on(Book.open(), Library(), out)
    assert entry is not None
    _, verdict, steps, *_ = entry
    assert verdict == "reuse"
    assert any("is added to the torque of the table" in step for step in steps)
    assert steps[-1].startswith("stricter: US Army TB 43-0218")


@pytest.mark.parametrize(
    ("source", "bears"),
    [
        ("ISO 898-1:2013, table 3", True),
        ("TM 9-2350-277-40&P, p. 44; the cosine is common practice", True),
        ("common practice", False),
        ("common practice: no published source found", False),
        ("Inference from the definition of Rp0.2", False),
        ("a handbook; no published source found for the rest", False),
        ("ISO 2320, from memory", False),
        ("invented: demo", False),
    ],
)
def test_what_bears_a_key(source: str, *, bears: bool) -> None:
    """A key rests on what somebody printed."""
    assert founded(source) is bears


def test_an_installation_without_its_bank(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The message names the file and what to do."""
    bank._lines.cache_clear()  # noqa: SLF001 - read once for each process
    monkeypatch.setattr(bank, "BANK", str(tmp_path / "gone.jsonl"))
    with pytest.raises(Unreadable, match=f"the bank of questions is missing.*{COMMAND}"):
        bank._lines()  # noqa: SLF001 - as above
