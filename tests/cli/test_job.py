"""``torquebook job``."""

from __future__ import annotations

import csv
import json
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import Runner

HOSTILE = '"=SUM(A1)\\u0007<script>"'


@pytest.mark.parametrize("command", ["parts", "tools"])
def test_lists_of_the_demo(command: str, cli: Runner, golden: Callable[[str, str], None]) -> None:
    """The lists of the brigade's overhaul are the reviewed ones and fit 80 columns."""
    ran = cli("job", command, "brigade-overhaul")
    assert ran.code == 0
    golden(f"job-{command}.txt", ran.out)
    assert max(map(len, ran.out.splitlines())) <= 80
    assert cli("job", command, "brigade-overhaul", "--ascii").out.isascii()


def test_parts_for_a_program(cli: Runner) -> None:
    """JSON says what to order, to have ready and to measure, with units in the names."""
    answer = json.loads(cli("job", "parts", "brigade-overhaul", "--json").out)
    assert {"order", "ready", "measure"} <= set(answer)
    washer = next(one for one in answer["order"] if "washer" in one["what"])
    assert (washer["count"], washer["joints"]) == (1, ["gearbox drain plug"])


def test_lists_for_a_spreadsheet(cli: Runner, tmp_path: Path) -> None:
    """CSV goes into a file: one header, a row for each thing."""
    for command in ("parts", "tools"):
        out = tmp_path / f"{command}.csv"
        assert cli("job", command, "brigade-overhaul", "--csv", "--out", str(out)).out == ""
        first, *rows = csv.reader(out.read_text(encoding="utf-8").splitlines())
        assert first[0] == "list"
        assert len(rows) > 10
        assert {len(row) for row in rows} == {len(first)}


def test_tools_in_my_unit_on_my_wrench(cli: Runner) -> None:
    """Stages are shown in the unit asked for; one wrench alone leaves stages uncovered."""
    words = ("job", "tools", "brigade-overhaul", "--unit", "lbf.ft", "--wrench", "click 5-25")
    answer = json.loads(cli(*words, "--json").out)
    assert [use["wrench"] for use in answer["wrenches"]] == ["click 5-25"]
    assert all("lbf·ft" in one["shown"] for one in answer["uncovered"])


def test_what_is_not_there_is_told(cli: Runner) -> None:
    """A mistyped job and a mistyped command are told the near ones."""
    ran = cli("job", "parts", "brigade-overhal")
    assert ran.code == 2
    assert "jobs/brigade-overhaul" in ran.err
    ran = cli("job", "part", "x")
    assert ran.code == 2
    assert 'no command "part"; write parts' in " ".join(ran.err.split())


def test_help_lists_the_commands(cli: Runner) -> None:
    """The group's help names its commands and the exit codes."""
    out = cli("job", "--help").out
    assert "parts" in out
    assert "Exit codes" in out


def test_hostile_names_are_inert(cli: Runner, tmp_path: Path) -> None:
    """A formula, a control character and markup in a name act nowhere."""
    source = 'source: {kind: invented, title: "an example", provenance: "invented"}\n'
    (tmp_path / "joints").mkdir()
    (tmp_path / "jobs").mkdir()
    joint = (
        f'kind: joint\ntitle: {HOSTILE}\nname: "=SUM(A1)<script>"\ncount: 1\n'
        'fastener: {thread: "M10", strength_class: "8.8"}\ntighten: "44 N.m"\n'
        'reuse: {always_new: true, source: "=1"}\n'
    )
    (tmp_path / "joints" / "a.yaml").write_text(joint.replace("\\u0007", "") + source)
    job = f'kind: job\ntitle: "a"\nname: "a"\nsteps:\n  - joint: joints/a\n{source}'
    (tmp_path / "jobs" / "a.yaml").write_text(job)
    words = ("job", "parts", "a", "--book", str(tmp_path))
    out = cli(*words, "--csv").out
    assert "\n=" not in out
    assert ",=" not in out
    assert "'=SUM(A1)<script>" in out
    assert "=SUM(A1)<script>" in cli(*words).out


@pytest.mark.parametrize("command", ["parts", "tools"])
def test_names_that_act_are_shown_as_they_are(command: str, cli: Runner, tmp_path: Path) -> None:
    """An unseen sign in a joint's name, a supply or a tool reaches no terminal and no cell."""
    source = 'source: {kind: invented, title: "an example", provenance: "invented"}\n'
    for shelf in ("joints", "jobs"):
        (tmp_path / shelf).mkdir()
    joint = (
        'kind: joint\ntitle: "a"\nname: "@a\u200c\u200d"\ncount: 1\n'
        'fastener: {thread: "M10", strength_class: "8.8"}\ntighten: "44 N.m"\n'
        'supplies: ["+1 \u200dglue"]\n'
    )
    gate = (
        '  - gate: {name: "-new", why: "w", tool: "=\u200cgauge", '
        'measure: {what: "@x", unit: mm, low: 1}}\n'
    )
    (tmp_path / "joints" / "a.yaml").write_text(joint + source, encoding="utf-8")
    job = f'kind: job\ntitle: "a"\nname: "a"\nsteps:\n  - joint: joints/a\n{gate}{source}'
    (tmp_path / "jobs" / "a.yaml").write_text(job, encoding="utf-8")
    words = ("job", command, "a", "--book", str(tmp_path))
    ran = cli(*words)
    assert ran.code == 0
    for out in (ran.out, cli(*words, "--csv").out, cli(*words, "--json").out):
        assert not set(out) & set("\u200c\u200d\x1b")
        assert "\\u" in out
    cells = [cell for row in csv.reader(cli(*words, "--csv").out.splitlines()) for cell in row]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
    assert "'=\\u200cgauge" in cells


def test_a_sheet_goes_to_the_terminal_or_a_file(cli: Runner, tmp_path: Path) -> None:
    """HTML is shown or written; a file that ends in .pdf is a PDF; JSON holds the content."""
    assert cli("job", "sheet", "brigade-overhaul").out.startswith("<!DOCTYPE html>")
    out = tmp_path / "sheet.pdf"
    assert cli("job", "sheet", "brigade-overhaul", "--out", str(out)).code == 0
    assert out.read_bytes().startswith(b"%PDF")
    held = json.loads(cli("job", "sheet", "brigade-overhaul", "--json").out)
    assert len(held["cards"]) == 37


def test_a_sheet_that_cannot_be_written_is_one_message(cli: Runner, tmp_path: Path) -> None:
    """A folder that is not there is refused, and so is a file that is no page."""
    ran = cli("job", "sheet", "brigade-overhaul", "--out", str(tmp_path / "none" / "a.html"))
    assert ran.code == 2
    assert "there is no folder" in " ".join(ran.err.split())
    ran = cli("job", "sheet", "brigade-overhaul", "--out", "sheet.docx")
    assert ran.code == 2
    assert "write FILE.html or FILE.pdf" in " ".join(ran.err.split())


def test_a_job_without_a_command_shows_the_help(cli: Runner) -> None:
    """No command is no mistake: the help is shown."""
    assert cli("job") == cli("job", "--help")


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("made", ["8"]),
        ("rows", ["--rows", "5,5"]),
        ("joint", ["--joint", "brigade/axle-carrier"]),
        ("faulty", ["6", "--order", "round / 1-2-3-5"]),
    ],
)
def test_orders(
    name: str, words: list[str], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """An order made, of rows, of a joint, and one with faults are the reviewed ones."""
    ran = cli("job", "order", *words)
    assert ran.code == (1 if name == "faulty" else 0)
    golden(f"job-order-{name}.txt", ran.out)
    assert max(map(len, ran.out.splitlines())) <= 80
    assert cli("job", "order", *words, "--ascii").out.isascii()


@pytest.mark.parametrize(
    ("words", "option", "name"),
    [
        (("parts", "brigade-overhaul"), "--out", "a.txt"),
        (("tools", "brigade-overhaul", "--csv"), "--out", "a.csv"),
        (("sheet", "brigade-overhaul"), "--out", "a.html"),
        (("sheet", "brigade-overhaul"), "--out", "a.pdf"),
        (("sheet", "brigade-overhaul", "--phone"), "--out", "a.html"),
        (("order", "8"), "--svg", "a.svg"),
    ],
)
def test_where_a_file_went_is_said(
    words: tuple[str, ...],
    option: str,
    name: str,
    cli: Runner,
    tmp_path: Path,
) -> None:
    """On standard error, in one line, and only where a file was written."""
    ran = cli("job", *words, option, str(tmp_path / name))
    assert ran.code == 0
    assert (tmp_path / name).stat().st_size
    assert "".join(ran.err.split()) == f"torquebook:writteninto{tmp_path / name}"
    assert cli("job", "order", "8").err == ""


def test_an_order_is_drawn(cli: Runner, tmp_path: Path) -> None:
    """The drawing holds each bolt's turn and position; groups differ by their outline."""
    svg, out = tmp_path / "order.svg", tmp_path / "order.txt"
    words = ("job", "order", "--joint", "brigade/axle-carrier", "--svg", str(svg))
    assert cli(*words, "--out", str(out)).out == ""
    assert "1-7" in out.read_text(encoding="utf-8")
    drawn = svg.read_text(encoding="utf-8")
    assert "order 1-7-4-10-2-8-5-11-3-9-6-12" in drawn
    assert drawn.count("<text") == 24
    assert drawn.count("<polygon") == 10


def test_a_single_bolt_is_told_so(cli: Runner, tmp_path: Path) -> None:
    """A joint of one bolt has no order, and is drawn without a number."""
    svg = tmp_path / "one.svg"
    ran = cli("job", "order", "--joint", "brigade/pinion-nut", "--svg", str(svg))
    assert ran.code == 0
    assert "one bolt has no order" in ran.out
    assert "<circle" in svg.read_text(encoding="utf-8")


def test_an_order_for_a_program(cli: Runner) -> None:
    """JSON says positions, passes with what was found, remarks and published orders."""
    answer = json.loads(cli("job", "order", "4", "--order", "1-2-3 / round", "--json").out)
    first, last = answer["passes"]
    assert (first["missed"], first["pull"], first["even"]) == ([4], None, False)
    assert (last["order"], last["round"], last["even"]) == ([1, 2, 3, 4], True, True)
    assert answer["positions"][0] == [0.0, 1.0]
    assert answer["published"][0]["order"] == [1, 3, 2, 4]
    assert [one["severity"] for one in answer["remarks"]] == ["stop"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "name one of: a number of positions, --rows, --joint"),
        (["6", "--rows", "3,3"], "name one of"),
        (["0"], "not in the range"),
        (["--rows", "3;3"], "write how many positions each row has"),
        (["--rows", "3,0"], "a row has 1 position or more"),
        (["--rows", "150,150"], "all together up to 200"),
        (["6", "--order", "crss"], "write cross"),
        (["6", "--order", "circle of 8"], "an order of 8 positions, and the joint has 6"),
    ],
)
def test_an_order_that_cannot_be_is_asked_back(words: list[str], told: str, cli: Runner) -> None:
    """One message, exit code 2."""
    ran = cli("job", "order", *words)
    assert ran.code == 2
    assert told in " ".join(ran.err.split())
