"""Plans as lists of mappings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue import strict
from torquebook.errors import Unreadable
from torquebook.plans.tree import tree_plan

if TYPE_CHECKING:
    from torquebook.plans.model import Plan


RIGHT = 'write "lines:" and below it an entry for each joint, such as "- tighten: 60 N.m"'


def plan(text: str, notes: list[str] | None = None) -> Plan:
    return tree_plan(
        text, "plan.yaml", strict.load(text, "plan.yaml"), [] if notes is None else notes
    )


def refusal(text: str) -> str:
    with pytest.raises(Unreadable) as refused:
        plan(text)
    return str(refused.value)


def test_bare_list_and_titled_plan() -> None:
    """A list of mappings is a plan; so is a mapping that holds one, with a title."""
    bare = plan("- joint: wheel\n  tighten: 60 N.m\n")
    titled = plan("plan: overhaul\nprovenance: invented\nlines:\n- {tighten: 60 N.m}\n")
    assert (bare.title, bare.provenance) == ("", "")
    assert (titled.title, titled.provenance) == ("overhaul", "invented")
    assert bare.lines[0].stages == titled.lines[0].stages
    assert (bare.lines[0].number, titled.lines[0].number) == (1, 4)


def test_places() -> None:
    """A cell knows its line and column, and the line where its entry starts is its number."""
    found = plan("lines:\n  - joint: wheel\n    tighten: 60 N.m\n\n  - tighten: 70 N.m\n")
    assert [line.number for line in found] == [2, 5]
    assert str(found.lines[0].place_of("tighten")) == "plan.yaml:3:14"
    assert str(found.lines[1].place) == "plan.yaml:5:5"


def test_keys_are_columns() -> None:
    """Keys are matched as headers are; unknown ones are kept and named in order."""
    found = plan(
        '- Clamp length: "40"\n  shelf: B2\n  tighten: 60 N.m\n- {bin: 7, tighten: 5 N.m}\n'
    )
    assert found.lines[0].clamp_length_mm.nominal == 40
    assert found.lines[0].extra["shelf"].text == "B2"
    assert found.lines[1].extra["bin"].text == "7"
    assert found.unknown_columns == ("shelf", "bin")


def test_numbers_where_numbers_belong() -> None:
    """Counts, lengths and a friction are numbers with or without quotes, kept as typed."""
    (line,) = plan(
        "- {tighten: 60 N.m, count: 4, engagement: 15.0, length: 50, friction: 0.120, joint: 3}"
    )
    assert line.problems == ()
    assert (line.count, line.engagement_mm.nominal, line.length_mm) == (4, 15, 50)
    assert (line.text("friction"), line.text("joint")) == ("0.120", "3")


@pytest.mark.parametrize(
    ("pair", "message"),
    [
        ("class: 8.8", '"8.8": 8.8 is read as the number 8.8; write "8.8" in quotes'),
        ("class: 10.90", '"10.90": 10.90 is read as the number 10.9; write "10.90" in quotes'),
        ("thread: 10", '"10": 10 is read as the number 10; write "10" in quotes'),
        ("nut: true", '"true": true is read as yes or no; write "true" in quotes'),
        ("count: false", '"false": false is read as yes or no; write "false" in quotes'),
        ("order: [1, 3, 2]", '"[1, 3, 2]": a list stands where text belongs; write "1-3-2"'),
        ("into: [steel]", '"["steel"]": a list stands where text belongs'),
        ("head: {a: 1}", '"{"a": 1}": a mapping stands where text belongs'),
    ],
)
def test_types_that_are_wrong(pair: str, message: str) -> None:
    """A number, a word or a list where text belongs is a problem, and its text is kept."""
    (line,) = plan(f"- tighten: 60 N.m\n  {pair}\n")
    (problem,) = line.problems
    assert problem.message == message
    assert line.text(problem.column) == problem.text
    assert str(problem.place) == f"plan.yaml:2:{len(pair.split(maxsplit=1)[0]) + 4}"


def test_torque_as_a_number_or_a_list() -> None:
    """A bare number is asked for its unit, and a list of stages for its shorthand."""
    bare, stages = plan("- tighten: 60\n- tighten: [30 N.m, 60 N.m]\n")
    assert "60 N.m" in bare.problems[0].readings
    assert stages.problems[0].readings == ('"30 N.m, 60 N.m"',)


def test_unknown_columns_may_hold_anything() -> None:
    """Lists and words under unknown keys are kept without a problem."""
    (line,) = plan("- {tighten: 60 N.m, photos: [1, 2], done: true}")
    assert line.problems == ()
    assert {key: cell.text for key, cell in line.extra.items()} == {
        "photos": "[1, 2]",
        "done": "true",
    }


def test_empty_entries_and_values() -> None:
    """Empty entries are left out, empty values are empty cells."""
    found = plan("- \n- {}\n- tighten: 60 N.m\n  class:\n  note: ''\n")
    assert [sorted(line.cells) for line in found] == [["tighten"]]


def test_keys_at_the_top_that_are_not_read() -> None:
    """A key at the top that a plan does not have is named in a note."""
    notes = []
    found = plan("kind: plan\nlines:\n- tighten: 60 N.m\n", notes)
    assert found.notes == tuple(notes) == ('line 1: "kind" is left unread',)


def test_line_without_tighten_has_a_problem() -> None:
    """Where one entry says how to tighten, another that does not is asked."""
    found = plan("- tighten: 60 N.m\n- joint: wheel\n")
    assert [p.column for p in found.lines[1].problems] == ["tighten"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "- torque: 60 N.m\n",
            '1:1: no column is named "tighten"; rename the column "torque" to "tighten"',
        ),
        (
            "line:\n- tighten: 60 N.m\n",
            '1:1: the plan has no "lines"; rename "line" to "lines"',
        ),
        ("lines: 60 N.m\n", f"1:8: no list of a plan's lines; {RIGHT}"),
        ("60 N.m\n", f"1:1: no list of a plan's lines; {RIGHT}"),
        (
            "- tighten: 60 N.m\n- 60 N.m\n",
            '2:3: no mapping; write an entry as "tighten: 60 N.m"',
        ),
        (
            "- {tighten: 5 N.m, note: a, Note: b}",
            '1:29: a second key for the column "note"; keep one of them',
        ),
        (
            "plan: [a]\nlines:\n- tighten: 60 N.m\n",
            '1:7: "plan" is no text; write a line of text',
        ),
    ],
)
def test_plans_that_are_none(text: str, message: str) -> None:
    """A document that holds no plan is refused at its place."""
    assert refusal(text) == f"plan.yaml:{message}"


def test_number_as_a_title() -> None:
    """A title that looks like a number is kept as typed."""
    assert plan("plan: 2025\nlines:\n- tighten: 60 N.m\n").title == "2025"
