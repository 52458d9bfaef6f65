"""The table of a plan's lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from torquebook.bands import Band
from torquebook.findings import Place
from torquebook.mechanics.yield_bands import TightenedBand
from torquebook.notation import Angle, Torque
from torquebook.plans.model import Cell, PlanLine
from torquebook.render.lines import lines_table, numbers
from torquebook.render.paper import Paper
from torquebook.rules.judge import LineAnswer


def answer(number: int, by_angle: bool = False, **cells: str) -> LineAnswer:
    """Return an answer of one line, with figures that are easily told apart."""
    place = Place("plan.csv", number)
    line = PlanLine(
        number,
        place,
        {name: Cell(text, place) for name, text in cells.items()},
        {},
        (Torque("N.m", "exact", (30.0,)), Angle("deg", "exact", (90.0,)))[: 1 + by_angle],
    )
    force, share = Band(11000.0, 12000.0, 13000.0), Band(0.4, 0.5, 0.6)
    return LineAnswer(line, force, share, by_angle, None, (), {}, ())


@pytest.mark.parametrize(
    ("lines", "shown"),
    [([2], "2"), ([3, 2], "2, 3"), ([2, 3, 4, 7, 9, 10], "2–4, 7, 9, 10"), ([5, 5], "5"), ([], "")],
)
def test_numbers(lines: list[int], shown: str) -> None:
    """Three in a row and more are drawn together."""
    assert numbers(lines) == shown


def test_numbers_are_cut_short_with_a_count() -> None:
    """Twenty runs are shown; of more the rest is counted, and where it stands is said."""
    assert numbers(range(2, 42, 2)).endswith(" 36, 38, 40")
    assert numbers(range(2, 5002, 2)).endswith(", 40 and 2480 more (--json has all)")


def test_row_shows_bands_and_marks_the_snug_torque() -> None:
    """Preload and share stand as bands; where an angle follows, the row and a note say so."""
    paper = Paper()
    lines_table([answer(2, by_angle=True, joint="hub", thread="M10")], paper)
    assert str(paper).splitlines() == [
        "  line  joint  thread  tighten       preload kN  % of proof",
        "     2  hub    M10     30 N·m, +90°  11.0–13.0   50 (40–60)",
        "                                     snug",
        "  snug: at the torque before the angle; the angle adds to it",
    ]


def test_row_shows_the_end_of_an_angle() -> None:
    """Where the stretch of the bolt is known, preload and share are those after the angle."""
    ends = [Band(40e3, 45e3, 50e3)] * 4 + [Band(0.9, 1.0, 1.1)] * 5
    turned = TightenedBand(*ends)._replace(preload_n=Band(40e3, 45e3, 50e3))
    paper = Paper()
    lines_table([replace(answer(2, by_angle=True, joint="hub"), turned=turned)], paper)
    text = str(paper)
    assert "40.0–50.0" in text
    assert "end: at the end of the angle" in text
    assert "snug" not in text


def test_no_snug_where_no_angle_follows() -> None:
    """A torque alone is the last word."""
    paper = Paper()
    lines_table([answer(2, joint="hub")], paper)
    assert "snug" not in str(paper)


def test_empty_columns_are_left_out() -> None:
    """One line without a name needs no column for names."""
    paper = Paper()
    lines_table([answer(2, thread="M10")], paper)
    assert str(paper).splitlines()[0].split() == [
        "line", "thread", "tighten", "preload", "kN", "%", "of", "proof"
    ]  # fmt: skip


def test_long_names_are_wrapped_not_cut() -> None:
    """Every letter of a long name is there, in 80 columns."""
    paper = Paper()
    name = "the two long bolts behind the pump's bearing cover on the left " + "x" * 40
    lines_table([answer(2, joint=name, thread="M10x1.25", **{"class": "10.9"})], paper)
    text = str(paper)
    assert max(map(len, text.splitlines())) <= 80
    column = text.splitlines()[0].index("joint")
    end = text.splitlines()[0].index("thread")
    assert "".join(line[column:end].strip() for line in text.splitlines()[1:]).replace(
        " ", ""
    ) == name.replace(" ", "")
