"""Reading plans, whatever they are called."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from torquebook import notation
from torquebook.errors import Unreadable
from torquebook.plans.reading import read_line, read_plan

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path
    from typing import Any

    from torquebook.plans.model import Plan


def values(plan: Plan) -> list[Any]:
    """Return all that a plan says, without its places."""
    return [
        (
            {column: cell.text for column, cell in line.cells.items()},
            {column: cell.text for column, cell in line.extra.items()},
            line.stages,
            line.count,
            line.order,
            [problem.message for problem in line.problems],
        )
        for line in plan
    ]


def refusal(source: Any, stdin: Any = None) -> str:
    with pytest.raises(Unreadable) as refused:
        read_plan(source, stdin=stdin)
    return str(refused.value)


def test_every_format_gives_equal_lines(
    tmp_path: Path,
    columns: tuple[str, ...],
    rows: Any,
    as_csv: Callable[[str], str],
    as_json: str,
    as_yaml: str,
    workbook: Callable[..., bytes],
) -> None:
    """The same plan in every format, and from a stream, gives the same lines."""
    contents = {
        "comma.csv": as_csv(",").encode(),
        "semicolon.csv": as_csv(";").encode("utf-8-sig"),
        "tab.tsv": as_csv("\t").encode("utf-16"),
        "pipe.txt": as_csv("|").replace("\n", "\r\n").encode("cp1252"),
        "plan.json": as_json.encode(),
        "plan.yaml": as_yaml.encode(),
        "plan.xlsx": workbook([columns, *rows]),
    }
    plans = {}
    for name, content in contents.items():
        (tmp_path / name).write_bytes(content)
        plans[name] = read_plan(tmp_path / name)
        plans[f"- {name}"] = read_plan("-", stdin=io.BytesIO(content))
    first = plans["comma.csv"]
    assert len(first) == len(rows)
    assert first.lines[0].text("thread") == "M18x1.5"
    assert first.lines[0].order == ((1, 4, 2, 5, 3, 6),)
    assert [line.stages for line in first] == [notation.read(row[4]) for row in rows]
    assert not any(line.problems for line in first)
    for name, plan in plans.items():
        assert values(plan) == values(first), name
        assert plan.unknown_columns == ("shelf",), name
        assert plan.notes == (), name


def test_columns_in_any_order(as_csv: Callable[[str], str], rows: Any) -> None:
    """The order of the columns does not matter."""
    turned = "\n".join(";".join(reversed(line.split(";"))) for line in as_csv(";").splitlines())
    plan = read_plan("-", stdin=io.BytesIO(turned.encode()))
    assert [line.text("joint") for line in plan] == [row[0] for row in rows]


def test_name_title_and_notes(tmp_path: Path, as_yaml: str) -> None:
    """A plan carries its file's name, and its own title and provenance where it has them."""
    path = tmp_path / "overhaul.yml"
    path.write_text(as_yaml)
    plan = read_plan(str(path))
    assert (plan.name, plan.title, plan.provenance) == (str(path), "overhaul", "invented")


def test_row_numbers_count_the_lines_of_the_file() -> None:
    """A line's number is that of the line where its row starts, whatever cells hold."""
    text = b'note,tighten\n"two\nlines",60 N.m\n\n,70 N.m\n,80 N.m\n'
    plan = read_plan("-", stdin=io.BytesIO(text))
    assert [line.number for line in plan] == [2, 5, 6]
    assert [line.place.cell for line in plan] == ["A2", "A4", "A5"]


def test_windows_1252_is_noted() -> None:
    """Text that is no UTF-8 is read, and the plan says how."""
    plan = read_plan("-", stdin=io.BytesIO("tighten\n60 N.m + 90°\n".encode("cp1252")))
    assert plan.notes == ("read as Windows-1252: line 2 is no UTF-8",)
    assert plan.lines[0].stages == notation.read("60 N.m + 90 deg")


def test_workbook_under_another_name(tmp_path: Path, workbook: Callable[..., bytes]) -> None:
    """A workbook is one whatever it is called, and a note says so."""
    path = tmp_path / "plan.csv"
    path.write_bytes(workbook([["tighten"], ["60 N.m"]]))
    assert read_plan(path).notes == ("read as a workbook, though its name ends in .csv",)
    path = tmp_path / "plan.xlsx"
    path.write_text("tighten\n60 N.m\n")
    assert (
        refusal(path) == f"{path}: no workbook, whatever its name says; save it as .xlsx or as CSV"
    )


def test_spreadsheet_numbers_are_no_problem(workbook: Callable[..., bytes]) -> None:
    """A class typed as a number in a sheet is its text; a torque still lacks its unit."""
    content = workbook([["class", "count", "tighten"], [8.8, 4, "25 N.m"], [10.9, 4.0, 60]])
    first, second = read_plan("-", stdin=io.BytesIO(content))
    assert (first.text("class"), first.count, first.problems) == ("8.8", 4, ())
    assert (second.text("class"), second.count) == ("10.9", 4)
    assert [problem.place.cell for problem in second.problems] == ["C3"]


def test_merged_cells_are_asked_for(workbook: Callable[..., bytes]) -> None:
    """A torque merged over two rows is read once and asked for in the second row."""
    content = workbook(
        [["joint", "tighten"], ["wheel", "60 N.m"], ["hub", None]],
        change=lambda book: book.active.merge_cells("B2:B3"),
    )
    first, second = read_plan("-", stdin=io.BytesIO(content))
    assert first.problems == ()
    assert [(p.column, p.place.cell) for p in second.problems] == [("tighten", "B3")]


@pytest.mark.parametrize("text", ["tighten\n", "joint;tighten\n;\n ; \n", '{"lines": []}'])
def test_plan_without_lines(text: str) -> None:
    """A plan without a line is refused; it would pass without having been judged."""
    assert refusal("-", io.BytesIO(text.encode()))


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"tighten;note\n", "a header and nothing below it; write a row for each joint"),
        (
            b'tighten,note\n60 N.m,"a\n',
            (
                ":2:8: a quoted cell is never closed; "
                'close it; a quote inside a quoted cell is doubled (3/8"")'
            ),
        ),
        (
            b"joint,torque\nwheel,60 N.m\n",
            ':1: no column is named "tighten"; rename the column "torque" to "tighten"',
        ),
        (
            b"joint,torque,unit\nwheel,60,N.m\n",
            (
                ':1: no column is named "tighten"; rename the column "torque" to "tighten" '
                "and write the unit into its cells (60 N.m)"
            ),
        ),
        (
            b"tighten,thread,THREAD\n",
            ' cell C1: columns B and C are both named "thread"; give each column a name of its own',
        ),
        (
            b"Light truck\n\njoint,tighten\n",
            (
                ':1: the first row names no column "tighten"; '
                "the header seems to be row 3; delete the rows above it"
            ),
        ),
        (
            b"lines:\n- tighten: 60 N.m\n  tighten: 70 N.m\n",
            ':3:3: the key "tighten" stands twice (first in line 2); keep one of them',
        ),
        (
            b'{"lines": [{"tighten": 1e400}]}',
            ":1:24: this is no finite number; write a plain number",
        ),
        (b"PK\x03\x04 no archive", "a damaged workbook; save it again as .xlsx, or as CSV"),
    ],
)
def test_messages(content: bytes, message: str) -> None:
    """Each fault has one message: where, what, and what would be right."""
    found = refusal("-", io.BytesIO(content))
    assert found.removeprefix("standard input").removeprefix(": ") == message


def test_cells_that_cannot_be_read_do_not_end_the_run() -> None:
    """Each cell that cannot be read is a problem at its own place; the others are read."""
    text = (
        "thread,class,count,tighten,unit,engagement,order\n"
        "M10,NaN,x,60,N.m,15-12,1-3-2\n"
        "8-Mar,8.8,4,=A1,,1e400,02.01.2003,lost\n"
    )
    first, second = read_plan("-", stdin=io.BytesIO(text.encode()))
    assert [(p.column, p.place.cell) for p in first.problems] == [
        ("class", "B2"),
        ("count", "C2"),
        ("tighten", "D2"),
        ("engagement", "F2"),
    ]
    assert first.problems[2].readings[0] == "60 N.m"
    assert first.order == ((1, 3, 2),)
    assert [(p.column, p.place.cell) for p in second.problems] == [
        ("thread", "A3"),
        ("tighten", "D3"),
        ("engagement", "F3"),
        ("order", "G3"),
        ("column H", "H3"),
    ]
    assert second.extra["column H"].text == "lost"
    assert second.count == 4


def test_read_line() -> None:
    """One line is a plan of one line."""
    plan = read_line("M10x1.25 10.9 60 N.m + 90 deg")
    assert (plan.name, len(plan)) == ("command line", 1)
    assert plan.lines[0].stages == notation.read("60 N.m + 90 deg")


def read_or_refuse(content: bytes, suffix: str, tmp_path: Path) -> None:
    path = tmp_path / f"plan{suffix}"
    path.write_bytes(content)
    refused = None
    plan = None
    try:
        plan = read_plan(path)
    except Unreadable as fault:
        refused = fault
    if refused:
        assert refused.where.startswith(str(path))
        assert refused.what
        assert refused.right
    else:
        assert plan
        assert all(line.stages or line.problems for line in plan)


SUFFIXES = st.sampled_from([".csv", ".tsv", ".txt", ".yaml", ".json", ".xlsx", ""])
HEADS = st.sampled_from(
    [
        b"",
        b"tighten\n",
        b"tighten;class,thread\n",
        b"lines:\n- tighten: ",
        b"[",
        b"\xff\xfe",
        b"PK\x03\x04",
    ]
)
FUZZ = settings(
    deadline=None, max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@FUZZ
@given(HEADS, st.binary(max_size=80), SUFFIXES)
def test_any_bytes_are_read_or_refused(
    tmp_path: Path, head: bytes, content: bytes, suffix: str
) -> None:
    """Whatever bytes a file holds, nothing but a refusal that says where, what, right escapes."""
    read_or_refuse(head + content, suffix, tmp_path)


@FUZZ
@given(HEADS, st.text(st.sampled_from('ab1,;|\t"\n =:-{}[]#°½M.'), max_size=80), SUFFIXES)
def test_any_text_is_read_or_refused(
    tmp_path: Path, head: bytes, content: bytes, suffix: str
) -> None:
    """Whatever text a file holds, nothing but a refusal that says where, what, right escapes."""
    read_or_refuse(head + content.encode(), suffix, tmp_path)
