"""A verdict for a person and for a program, from answers that no rule has a part in."""

from __future__ import annotations

import pytest

from torquebook.findings import Finding, Place, Severity
from torquebook.plans.model import Cell, Plan, PlanLine
from torquebook.render import judge as render
from torquebook.render.paper import Paper
from torquebook.rules.judge import LineAnswer, Verdict


def finding(line: int, rule: str, severity: Severity, instead: str | None = None) -> Finding:
    """Return a finding whose message names its line."""
    place = Place("plan.csv", line, 7, f"F{line}")
    return Finding(rule, severity, place, f"joint {line}", f"message {line}", "a source", instead)


def line(
    number: int,
    *findings: Finding,
    assumed: tuple[str, ...] = (),
    unjudged: dict[str, tuple[str, ...]] | None = None,
) -> LineAnswer:
    """Return an answer of one line without figures."""
    place = Place("plan.csv", number)
    cells = {"tighten": Cell("25", place), "joint": Cell(f"joint {number}", place)}
    plan_line = PlanLine(number, place, cells, {})
    return LineAnswer(plan_line, None, None, False, None, assumed, unjudged or {}, findings)


def shown(*answers: LineAnswer, **plan: object) -> str:
    """Return the text about a plan of these lines, its paragraphs unwrapped."""
    verdict = Verdict(Plan("plan.csv", tuple(a.line for a in answers), **plan), answers)
    paper = Paper()
    render.text(render.Judged((verdict,), 1), paper)
    return str(paper)


def test_worst_comes_first() -> None:
    """Findings stand by severity, then by place, each with place, joint, rule and mend."""
    text = shown(
        line(2, finding(2, "b", Severity.NOTE)),
        line(3, finding(3, "a", Severity.ASK)),
        line(4, finding(4, "c", Severity.STOP, "47 N·m")),
    )
    assert text.index("STOP") < text.index("ASK") < text.index("NOTE") < text.index("Lines")
    assert (
        "STOP  line 4, cell F4: joint 4\n      message 4\n      instead: 47 N·m\n      rule: c\n"
    ) in text
    assert text.startswith("plan.csv: 1 stop, 1 ask, 1 note in 3 lines\n")


def test_notes_of_one_rule_are_one_entry() -> None:
    """Like notes are gathered with their lines; stops and asks never are."""
    notes = [line(n, finding(n, "same", Severity.NOTE)) for n in (2, 3, 4, 9)]
    text = shown(*notes)
    assert text.count("rule: same") == 1
    assert "NOTE  lines 2–4, 9\n      line 2: message 2\n" in text
    asks = [line(n, finding(n, "same", Severity.ASK)) for n in (2, 3)]
    assert shown(*asks).count("rule: same") == 2


def test_gathered_notes_share_a_mend_only_if_it_is_the_same() -> None:
    """What is right for one line is not printed as right for all."""
    same = [line(n, finding(n, "r", Severity.NOTE, "10.9")) for n in (2, 3)]
    assert "instead: 10.9" in shown(*same)
    differ = [line(n, finding(n, "r", Severity.NOTE, f"{n}")) for n in (2, 3)]
    assert "instead" not in shown(*differ)


def test_assumptions_and_gaps_are_gathered_by_lines() -> None:
    """What was assumed and not judged stands once, with the lines it holds for."""
    text = shown(
        line(2, assumed=("friction 0.08 to 0.24",), unjudged={"no nut stated": ("a",)}),
        line(3, assumed=("friction 0.08 to 0.24",), unjudged={"a plug": ("a", "b")}),
        line(4, unjudged={"no nut stated": ("a",), "no class stated": ("b",)}),
        line(5, assumed=("friction 0.08 to 0.24",)),
    )
    assert "\n  friction 0.08 to 0.24: lines 2, 3, 5\n" in text
    assert "\n  a plug: line 3\n" in text
    assert "not stated: nut (lines 2, 4), class (line 4)" in " ".join(text.split())


def test_all_lines_and_one_line_are_said_short() -> None:
    """No list of numbers where all lines are meant, none at all in a plan of one line."""
    text = shown(line(2, assumed=("a hexagon head",)), line(3, assumed=("a hexagon head",)))
    assert "a hexagon head: all lines\n" in text
    assert "a hexagon head\n" in shown(line(1, assumed=("a hexagon head",)))


def test_clean_plan_says_so() -> None:
    """Nothing found is said, and no hint to a rule is given."""
    text = shown(line(2))
    assert text.startswith("plan.csv: nothing found in 1 line\n")
    assert "torquebook why" not in text
    assert "The maker's data" in text


def test_what_the_reader_decided_is_said() -> None:
    """Title, provenance, the reader's notes and unknown columns stand under the name."""
    text = shown(
        line(2),
        title="Overhaul",
        provenance="invented",
        notes=("read as Windows-1252: line 3 is no UTF-8",),
        unknown_columns=("shelf", "price\x1b"),
    )
    head = text.split("\n\n")[0].splitlines()
    assert head[1:] == [
        "  Overhaul",
        "  provenance: invented",
        "  read as Windows-1252: line 3 is no UTF-8",
        "  columns kept but not judged: shelf, price\\x1b",
    ]


@pytest.mark.parametrize(
    ("where", "text"),
    [
        (Place("plan.csv", 7, 30, "F7"), "line 7, cell F7"),
        (Place("plan.yaml", 7, 3), "line 7, column 3"),
    ],
)
def test_place(where: Place, text: str) -> None:
    """A place names the cell of a table, else the column; the heading has named the file."""
    assert render.place(where) == text
