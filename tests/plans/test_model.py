"""A plan's model."""

from __future__ import annotations

import pytest

from torquebook.findings import Place
from torquebook.plans.model import COLUMNS, Cell, Plan, PlanLine, Problem

ROW = Place("plan.csv", 3, 1, "A3")
CELL = Cell("M10", Place("plan.csv", 3, 9, "B3"))
LINE = PlanLine(3, ROW, {"thread": CELL}, {})


def test_columns_are_those_of_a_plan() -> None:
    """A plan has twenty-one columns, each named once."""
    assert len(COLUMNS) == len(set(COLUMNS)) == 21
    assert "tighten" in COLUMNS


def test_text_and_place_of_a_cell() -> None:
    """A filled cell gives its own text and place."""
    assert LINE.text("thread") == "M10"
    assert LINE.place_of("thread").cell == "B3"


def test_empty_cell_stands_at_its_row() -> None:
    """An empty cell has no text and stands where its row does."""
    assert LINE.text("class") == ""
    assert LINE.place_of("class") == ROW


def test_plan_goes_through_its_lines() -> None:
    """A plan is as long as its lines and goes through them."""
    plan = Plan("plan.csv", (LINE, LINE))
    assert list(plan) == [LINE, LINE]
    assert len(plan) == 2


@pytest.mark.parametrize(
    ("text", "readings", "message"),
    [
        ("60", ("60 N.m", "60 lbf.ft"), '"60": no unit; write 60 N.m or 60 lbf.ft'),
        ("60", (), '"60": no unit'),
        ("", (), "no unit"),
    ],
)
def test_problem_says_text_fault_and_readings(
    text: str, readings: tuple[str, ...] | None, message: str
) -> None:
    """A problem's message names the text, what is wrong, and what would be right."""
    assert Problem("tighten", ROW, text, "no unit", readings).message == message


def test_problem_shortens_a_long_text() -> None:
    """A text of thousands of characters does not flood the message, but the problem keeps it."""
    problem = Problem("thread", ROW, "9" * 5000, "no thread")
    assert problem.message == f'"{"9" * 60}…": no thread'
    assert len(problem.text) == 5000
