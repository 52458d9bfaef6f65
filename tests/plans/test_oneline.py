"""One line on the command line."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import Unreadable
from torquebook.plans.oneline import one_line

EXAMPLE = 'such as "M10x1.25 10.9 60 N.m + 90 deg friction=oiled"'


def cells(text: str) -> dict[str, str]:
    return {column: cell.text for column, cell in one_line(text).cells.items()}


def refusal(text: str) -> str:
    with pytest.raises(Unreadable) as refused:
        one_line(text)
    return str(refused.value)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "M10x1.25 10.9 60 N.m + 90 deg",
            {"thread": "M10x1.25", "class": "10.9", "tighten": "60 N.m + 90 deg"},
        ),
        ("60 N.m 10.9 M10", {"thread": "M10", "class": "10.9", "tighten": "60 N.m"}),
        ("M8 8.8 25 Nm x4", {"thread": "M8", "class": "8.8", "tighten": "25 Nm", "count": "4"}),
        ("4 off M8 8.8 25 Nm", {"thread": "M8", "class": "8.8", "tighten": "25 Nm", "count": "4"}),
        ("M10 x 1.25 8.8 45 Nm", {"thread": "M10 x 1.25", "class": "8.8", "tighten": "45 Nm"}),
        ("M12x40 8.8 75 Nm", {"thread": "M12x40", "class": "8.8", "tighten": "75 Nm"}),
        (
            "3/8-16 UNC SAE 8 44 lbf.ft",
            {"thread": "3/8-16 UNC", "class": "SAE 8", "tighten": "44 lbf.ft"},
        ),
        (
            "3/8-24UNF grade 5 30 ft-lb",
            {"thread": "3/8-24UNF", "class": "grade 5", "tighten": "30 ft-lb"},
        ),
        ("1 1/4-7 UNC 500 lbf.ft", {"thread": "1 1/4-7 UNC", "tighten": "500 lbf.ft"}),
        ("1-14 UNS 500 lbf.ft", {"thread": "1-14 UNS", "tighten": "500 lbf.ft"}),
        ("3/8 UNF 30 lbf.ft", {"thread": "3/8 UNF", "tighten": "30 lbf.ft"}),
        ("3/8 SAE 8 44 lbf.ft", {"thread": "3/8", "class": "SAE 8", "tighten": "44 lbf.ft"}),
        ("#10-32 30 lbf.in", {"thread": "#10-32", "tighten": "30 lbf.in"}),
        ("4x M10 8.8 45 N.m", {"count": "4", "thread": "M10", "class": "8.8", "tighten": "45 N.m"}),
        ("M10x1.25-8.8 60 N.m", {"thread": "M10x1.25", "class": "8.8", "tighten": "60 N.m"}),
        ("M10-8.8 45 N.m", {"thread": "M10", "class": "8.8", "tighten": "45 N.m"}),
        ("M8 A2-70 16 N.m", {"thread": "M8", "class": "A2-70", "tighten": "16 N.m"}),
        ("M8 class 8.8 25 N.m", {"thread": "M8", "class": "class 8.8", "tighten": "25 N.m"}),
        ("M12 60 N.m + 1/4 turn", {"thread": "M12", "tighten": "60 N.m + 1/4 turn"}),
        ("M12 80 ±8 N.m", {"thread": "M12", "tighten": "80 ±8 N.m"}),
        ("M12 60-70 N.m", {"thread": "M12", "tighten": "60-70 N.m"}),
        ("5.5 kgf.m", {"tighten": "5.5 kgf.m"}),
        ("M6 8.8 ±1 N.m", {"thread": "M6", "tighten": "8.8 ±1 N.m"}),
        ("M6 8.8 +1/-0.5 N.m", {"thread": "M6", "tighten": "8.8 +1/-0.5 N.m"}),
        ("M6 8.8 N.m", {"thread": "M6", "tighten": "8.8 N.m"}),
        ("M5 5.5-7 N.m", {"thread": "M5", "tighten": "5.5-7 N.m"}),
        ("M10 8.8 +90 deg", {"thread": "M10", "class": "8.8", "tighten": "+90 deg"}),
        ("8.8 M10 +90 deg", {"thread": "M10", "class": "8.8", "tighten": "+90 deg"}),
        ("8.8 thread=M10 +90 deg", {"thread": "M10", "class": "8.8", "tighten": "+90 deg"}),
        ("M10 8.8, 45 N.m", {"thread": "M10", "class": "8.8", "tighten": "45 N.m"}),
        ("thread=M10 8.8 +90 deg", {"thread": "M10", "class": "8.8", "tighten": "+90 deg"}),
        ("M6 class=8.8 8.8-10 N.m", {"thread": "M6", "class": "8.8", "tighten": "8.8-10 N.m"}),
        (
            "M6 tighten='8.8-10 N.m'",
            {"thread": "M6", "tighten": "8.8-10 N.m"},
        ),
        ("M6 max 8.8 N.m", {"thread": "M6", "tighten": "max 8.8 N.m"}),
        ("M6 8.8 8.8 N.m", {"thread": "M6", "class": "8.8", "tighten": "8.8 N.m"}),
        (
            "M10 8.8 45 N.m friction=oiled into=aluminium engagement=15",
            {
                "thread": "M10",
                "class": "8.8",
                "tighten": "45 N.m",
                "friction": "oiled",
                "into": "aluminium",
                "engagement": "15",
            },
        ),
        (
            "joint='pump cover' friction=\"zinc plated\" M8 25 N.m class=",
            {"joint": "pump cover", "friction": "zinc plated", "thread": "M8", "tighten": "25 N.m"},
        ),
        ("tighten='60 N.m' thread=M10", {"tighten": "60 N.m", "thread": "M10"}),
        ("M10 >= 20 N.m", {"thread": "M10", "tighten": ">= 20 N.m"}),
        ("60 N.m M10 + 90 deg", {"thread": "M10", "tighten": "60 N.m + 90 deg"}),
        ("M10\t45 N.m,\nslacken, 45 N.m", {"thread": "M10", "tighten": "45 N.m, slacken, 45 N.m"}),
        ("M36 x4 600 N.m clamp-length=40", None),
    ],
)
def test_parts_in_any_order(text: str, expected: dict[str, str] | None) -> None:
    """Thread, class, count and column=value are found wherever they stand."""
    if expected is None:
        assert "may be a pitch or a count" in refusal(text)
    else:
        assert cells(text) == expected
        assert one_line(text).problems == ()


def test_places() -> None:
    """Every part knows where in the line it stands."""
    line = one_line("M10 8.8 45 N.m friction='oiled'")
    assert [line.place_of(c).column for c in ("thread", "class", "tighten", "friction")] == [
        1,
        5,
        9,
        26,
    ]
    assert str(line.place) == "command line:1:1"


def test_torque_without_unit_is_a_problem() -> None:
    """What cannot be read as a torque is a problem of the line, not its end."""
    line = one_line("M10 8.8 45")
    assert line.text("thread") == "M10"
    assert [p.column for p in line.problems] == ["tighten"]


def test_class_that_may_be_a_torque() -> None:
    """A number between a torque and an angle may be either, and is asked back."""
    line = one_line("M10 60 N.m 10.9 + 90 deg")
    assert line.text("class") == ""
    assert [p.column for p in line.problems] == ["tighten"]


@pytest.mark.parametrize(
    ("text", "tighten", "what"),
    [
        ("M10 8.8 hand tight", "hand tight", "hand tight gives no torque or angle"),
        ("M10 A2-70 -45 Nm", "-45 Nm", "a value below zero"),
        ("M6 8.8 lb", "8.8 lb", "lb may be more than one unit"),
        (
            "M10 8.8 45 N.m dry",
            "45 N.m dry",
            "dry tells of friction and belongs in that column (friction=dry on one line)",
        ),
        ("M10 8.8 1 200 Nm", "1 200 Nm", "the space in 1 200 may mark thousands"),
    ],
)
def test_tightening_that_is_not_understood(text: str, tighten: str, what: str) -> None:
    """The class stays out of what is said of the tightening."""
    line = one_line(text)
    assert line.text("tighten") == tighten
    assert [problem.what.partition(";")[0] for problem in line.problems] == [what]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("M10 8.8", f"1: nothing says how to tighten; write it {EXAMPLE}"),
        ("", f"1: nothing says how to tighten; write it {EXAMPLE}"),
        (
            "flywheel M10 60 N.m",
            (
                '1: "flywheel" is not understood; write joint="flywheel" if it is the name, '
                f"or {EXAMPLE}"
            ),
        ),
        ("M10 60 N.m frction=oiled", '12: there is no column "frction"; write friction='),
        ("M10 5 N.m into=steel into=iron", '22: "into" is given twice; give it once'),
        (
            "M10 60 N.m friction=zinc plated",
            '26: "plated" is not understood; write friction="zinc plated" if it belongs there',
        ),
        (
            "friction=zinc plated M10 60 N.m",
            '15: "plated" is not understood; write friction="zinc plated" if it belongs there',
        ),
        (
            "M10 x 4 45 N.m",
            '5: "x" is not understood; write a count as x4, a pitch as M10x1.25',
        ),
        (
            "M10 8.8 -45 Nm",
            (
                '5: "8.8" may be the class or the low end of a range; '
                'write tighten="8.8-45 Nm", or 8.8 45 Nm'
            ),
        ),
        (
            "M10-8.8 to 45 Nm",
            (
                '5: "8.8" may be the class or the low end of a range; '
                'write tighten="8.8-45 Nm", or 8.8 45 Nm'
            ),
        ),
        ("M10 8.8 dry 45 Nm", '9: "dry" is not understood; write friction="dry"'),
        (
            "M10 x1 60 N.m",
            '1: "M10 x1" may be a pitch or a count; write M10x1, or M10 1 off',
        ),
        (
            "M10 tighten='60 N.m' 70 N.m",
            f'22: "70 N.m" has no place beside tighten=; write column=value, {EXAMPLE}',
        ),
        ("M10 60 N.m\x1b", "11: the character U+001B; take it out"),
        ("9" * 2001, "1: 2001 characters are too many for one line; write a file"),
    ],
)
def test_lines_that_are_none(text: str, message: str) -> None:
    """A line that says nothing to tighten, or a word without a place, is refused."""
    assert refusal(text) == f"command line:1:{message}"


def test_unknown_column_without_a_near_one() -> None:
    """A column that resembles none is answered with the list of columns."""
    assert "the columns are joint, kind, thread" in refusal("M10 60 N.m zzz=1")


@given(
    st.text(max_size=60) | st.text(st.sampled_from("Mx10.9 /-+N.mdegSAE8=\"'#°off"), max_size=60)
)
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nothing but a refusal escapes, and what is read says how to tighten."""
    try:
        line = one_line(text)
    except Unreadable:
        return
    assert line.text("tighten")
    assert line.stages or line.problems
