"""Judging a plan, and one of any length."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from printed_lists import plan_of, printed_tables

from torquebook.plans.reading import read_line
from torquebook.rules import judge as module
from torquebook.rules.engine import RuleFault
from torquebook.rules.judge import judge, judge_stream
from torquebook.rules.registry import rule_named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.book import Book
    from torquebook.rules.basis.case import Case
    from torquebook.rules.engine import Remark


def test_a_stream_is_judged_as_the_whole_plan(book: Book) -> None:
    """Within one window the answers are those of the whole plan."""
    plan = plan_of(printed_tables()["metric manual"])
    assert tuple(judge_stream(plan.lines, book)) == judge(plan, book).answers


def test_a_stream_is_taken_window_by_window(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """No more than one window of lines is read ahead."""
    monkeypatch.setattr(module, "WINDOW", 2)
    (line,) = read_line("M8 8.8 20 N.m").lines
    taken = 0

    def lines() -> Iterator[object]:
        nonlocal taken
        for _ in range(5):
            taken += 1
            yield line

    answers = judge_stream(lines(), book)  # type: ignore[arg-type]
    next(answers)
    assert taken == 2
    assert len(list(answers)) == 4


def test_findings_come_worst_first(book: Book) -> None:
    """A stop stands before an ask, whatever their lines."""
    plan = plan_of(
        [
            {"thread": "M8", "class": "8.8", "tighten": "20", "friction": "oiled"},
            {"thread": "M8", "class": "8.8", "tighten": "200 N.m", "friction": "oiled"},
        ]
    )
    words = [finding.severity.word for finding in judge(plan, book).findings]
    assert words == ["stop", "ask"]


def test_a_rule_that_fails_is_our_fault_and_is_named(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A broken rule is never skipped: it names itself and the line."""

    def broken(case: Case) -> Iterator[Remark]:
        raise ZeroDivisionError(case.line.number)

    fault = replace(rule_named("unit-unsaid"), check=broken)
    monkeypatch.setattr(module, "_askable", lambda _: ((fault,), ()))
    with pytest.raises(RuleFault, match="unit-unsaid, command line:1:1"):
        judge(read_line("M8 8.8 20 N.m"), book)


@pytest.mark.parametrize(
    ("typed", "offered"),
    [("M8x1.3", "M8"), ("M10x1.3", "M10x1.25"), ("M12x1.7", "M12"), ("M13", None)],
)
def test_a_pitch_is_offered_by_number(book: Book, typed: str, offered: str | None) -> None:
    """ISO 261 lists M8 at 1.25 mm: 1.3 mm comes nearer to it than to 1 mm, however it is spelt."""
    found = judge(read_line(f"{typed} 8.8 20 N.m"), book).findings
    assert [one.instead for one in found if one.rule == "size-unlisted"] == [offered]
