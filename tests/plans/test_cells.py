"""From a cell's text to its value."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook import notation
from torquebook.bands import Band
from torquebook.findings import Place
from torquebook.plans.cells import plan_line
from torquebook.plans.model import Cell, Problem

if TYPE_CHECKING:
    from typing import Any

    from torquebook.plans.model import PlanLine

ROW = Place("plan.csv", 2, 1, "A2")


def line(problems: Any = (), extra: dict[str, str] | None = None, **cells: str) -> PlanLine:
    cells = {"tighten": "60 N.m"} | cells
    placed = {
        column: Cell(text, Place("plan.csv", 2, 10 * at + 1))
        for at, (column, text) in enumerate(cells.items())
        if text
    }
    more = {name: Cell(text, ROW) for name, text in (extra or {}).items()}
    return plan_line(ROW, placed, more, problems)


def test_values_of_a_full_line() -> None:
    """Every column that holds a value gives it, and nothing is amiss."""
    found = line(
        tighten="60 N.m + 90 deg",
        count="4",
        engagement="15",
        clamp_length="1 1/4 in",
        length="50 mm",
        order="1-3-2-4",
    )
    assert found.number == 2
    assert found.stages == notation.read("60 N.m + 90 deg")
    assert found.count == 4
    assert found.engagement_mm == Band.exact(15)
    assert found.clamp_length_mm == Band.exact(31.75)
    assert found.length_mm == 50
    assert found.order == ((1, 3, 2, 4),)
    assert found.problems == ()


def test_empty_cells_give_no_value() -> None:
    """What is not said has no value, and is no problem."""
    found = line()
    assert (found.count, found.engagement_mm, found.clamp_length_mm) == (None, None, None)
    assert (found.length_mm, found.order, found.problems) == (None, None, ())


@pytest.mark.parametrize("text", ["4", "x4", "4x", "4 off", "4off", "×4", "4 pcs"])
def test_count_spellings(text: str) -> None:
    """A count is read as workshops write it."""
    assert line(count=text).count == 4


@pytest.mark.parametrize("text", ["0", "-4", "4.5", "four", "1234567", "٤"])
def test_no_count(text: str) -> None:
    """What is no whole number from 1 up is a problem of its cell."""
    found = line(count=text)
    assert found.count is None
    assert [(p.column, p.text) for p in found.problems] == [("count", text)]
    assert "whole number" in found.problems[0].what
    assert found.text("count") == text


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("12-15", 12, 15),
        ("12–15 mm", 12, 15),
        ("12 to 15", 12, 15),
        ("12...15 mm", 12, 15),
        ("1.2 cm", 12, 12),
        ("12,5", 12.5, 12.5),
        ("12 mm - 1.5 cm", 12, 15),
        ("1-1/4 in", 31.75, 31.75),
        ("1/2-3/4 in", 12.7, 19.05),
        ('1/2" to 3/4"', 12.7, 19.05),
    ],
)
def test_length_bands(text: str, low: float, high: float) -> None:
    """Engagement and clamp length may be ranges; a bare number is mm."""
    band = line(engagement=text).engagement_mm
    assert band == line(clamp_length=text).clamp_length_mm
    assert (band.low, band.high) == pytest.approx((low, high))


def test_length_with_a_hyphen_inside_its_number() -> None:
    """The hyphen of a mixed number is no range."""
    assert line(length="2-1/2 in").length_mm == 63.5


@pytest.mark.parametrize(
    ("column", "text", "what", "readings"),
    [
        ("engagement", "15-12", "a range goes from low to high", ("12-15",)),
        ("engagement", "15-12 mm", "a range goes from low to high", ("12-15 mm",)),
        ("clamp_length", "2-1 in", "a range goes from low to high", ("1-2 in",)),
        ("length", "40-50", "one length stands here, not a range", ()),
        ("length", "0", "a length is more than 0", ()),
        ("engagement", "1/2", "no unit", None),
        ("length", "-5", "a value below zero", ()),
        ("length", "60 N.m", None, None),
        ("engagement", "deep", None, None),
        ("clamp_length", "12-", None, None),
        ("clamp_length", "1,350", None, ("1350 mm", "1.35 mm")),
    ],
)
def test_lengths_that_are_none(
    column: str, text: str, what: str | None, readings: tuple[str, ...] | None
) -> None:
    """A length that cannot be read is a problem of its cell, with what would be right."""
    (problem,) = line(**{column: text}).problems
    assert (problem.column, problem.text) == (column, text)
    assert what is None or problem.what == what
    assert readings is None or problem.readings == readings


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("1-3-2-4", ((1, 3, 2, 4),)),
        ("1, 3, 2, 4", ((1, 3, 2, 4),)),
        ("1 3 2 4", ((1, 3, 2, 4),)),
        ("1 > 3 > 2", ((1, 3, 2),)),
        ("1-4-2-5 / 1-2-3-4-5", ((1, 4, 2, 5), (1, 2, 3, 4, 5))),
        ("1-3-2; 1-2-3 then 3-2-1", ((1, 3, 2), (1, 2, 3), (3, 2, 1))),
        ("star", "star"),
        ("cross pattern", "cross pattern"),
    ],
)
def test_orders(text: str, order: Any) -> None:
    """Positions become numbers, pass by pass; a pattern's name stays text."""
    assert line(order=text).order == order


@pytest.mark.parametrize(
    ("text", "readings"),
    [("1-3-x", ("1-3-2-4",)), ("1/3/2/4", ("1-3-2-4",)), ("1-3-2-4-", ("1-3-2-4",))],
)
def test_no_order(text: str, readings: tuple[str, ...] | None) -> None:
    """What starts with a number and is no list of positions is a problem."""
    (problem,) = line(order=text).problems
    assert (problem.column, problem.readings) == ("order", readings)


@pytest.mark.parametrize(
    ("column", "text", "what"),
    [
        ("joint", "=A1", "a formula"),
        ("tighten", "=60*1.1", "a formula"),
        ("class", "#REF!", "a spreadsheet's error"),
        ("thread", "#####", "a spreadsheet's error"),
        ("class", "NaN", "no finite number"),
        ("friction", "1e400", "no finite number"),
        ("thread", '"', "ditto"),
        ("into", "''", "ditto"),
        ("class", "x" * 2001, "2001 characters"),
        ("thread", "8-Mar", "date"),
    ],
)
def test_slips_of_any_column(column: str, text: str, what: str | None) -> None:
    """What a spreadsheet or a hurried hand leaves in a cell is told, and the text kept."""
    found = line(**{column: text})
    (problem,) = found.problems
    assert problem.column == column
    assert what in problem.what
    assert found.text(column) == text


@pytest.mark.parametrize("text", ["NaN", "8-Mar", '"', "x" * 3000])
def test_remarks_may_say_anything(text: str) -> None:
    """In a note, a date or a long text is no slip."""
    assert line(note=text).problems == ()


def test_unit_left_off() -> None:
    """A torque without a unit is asked back with its readings, and gives no stage."""
    found = line(tighten="60")
    (problem,) = found.problems
    assert found.stages == ()
    assert problem.column == "tighten"
    assert "60 N.m" in problem.readings


def test_unit_in_a_column_of_its_own() -> None:
    """A unit beside the tighten cell is not guessed in, but offered first."""
    (problem,) = line(tighten="60", extra={"Unit": "lbf.ft"}).problems
    assert problem.readings[0] == "60 lbf.ft"
    assert len(set(problem.readings)) == len(problem.readings)
    assert problem.what.endswith("the unit belongs in the tighten cell")


def test_useless_unit_column_is_not_offered() -> None:
    """A unit column that does not make the torque readable changes nothing."""
    assert (
        line(tighten="60", extra={"unit": "bar"}).problems[0].readings
        == line(tighten="60").problems[0].readings
    )


def test_nothing_to_tighten_to() -> None:
    """A line that does not say how to tighten has a problem at its row."""
    (problem,) = line(tighten="").problems
    assert (problem.column, problem.place) == ("tighten", ROW)


def test_flawed_cell_is_not_read_again() -> None:
    """A cell that the format's reader refused gives no value and no second problem."""
    known = Problem("count", Place("plan.csv", 2, 11), "4", "merged")
    found = line(problems=[known], count="4")
    assert found.count is None
    assert found.problems == (known,)


def test_problems_go_from_left_to_right() -> None:
    """Problems stand in the order of their cells."""
    found = line(tighten="60", order="1-x", count="0", thread="8-Mar")
    assert [p.column for p in found.problems] == ["tighten", "order", "count", "thread"]
