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
    assert "cannot be written" in " ".join(ran.err.split())
    ran = cli("job", "sheet", "brigade-overhaul", "--out", "sheet.docx")
    assert ran.code == 2
    assert "write FILE.html or FILE.pdf" in " ".join(ran.err.split())


def test_a_job_without_a_command_shows_the_help(cli: Runner) -> None:
    """No command is no mistake: the help is shown."""
    assert cli("job") == cli("job", "--help")
