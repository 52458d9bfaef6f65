"""``torquebook judge``."""

from __future__ import annotations

import io
import json
from typing import TYPE_CHECKING

import pytest

from torquebook.cli.exits import Exit

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import Runner

BAD = "M8 8.8 250 N.m friction=oiled"
GOOD = "M8 8.8 20 N.m friction=oiled"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("judge-plan", ("brigade.csv",)),
        ("judge-plan-ascii", ("brigade.csv", "--ascii")),
        ("judge-line", (GOOD,)),
        ("judge-hostile", ("hostile.json",)),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one."""
    golden(f"{name}.txt", cli("judge", *words).out)


def test_text_fits_80_columns(cli: Runner) -> None:
    """No line of an answer about a plain plan is wider than a terminal."""
    for words in (("brigade.csv",), ("brigade.csv", "--ascii"), (BAD,)):
        assert max(map(len, cli("judge", *words).out.splitlines())) <= 80


def test_ascii_is_ascii(cli: Runner) -> None:
    """``--ascii`` leaves nothing else, whatever the plan holds."""
    for plan in ("brigade.csv", "hostile.json"):
        assert cli("judge", "--ascii", plan).out.isascii()


def test_hostile_names_are_shown_not_obeyed(cli: Runner) -> None:
    """What would act on a terminal stands there as an escape."""
    out = cli("judge", "hostile.json").out
    assert "\\u202e" in out
    assert not any(character in out for character in "\u202e\u200b\x1b")


@pytest.mark.parametrize(
    ("fail_on", "line", "code"),
    [
        ("stop", BAD, Exit.FINDINGS),
        ("stop", GOOD, Exit.CLEAN),
        ("stop", "M8 8.8 20 N.m", Exit.CLEAN),
        ("note", "M8 8.8 20 N.m", Exit.FINDINGS),
        ("never", BAD, Exit.CLEAN),
    ],
)
def test_fail_on(fail_on: str, line: str, code: Exit, cli: Runner) -> None:
    """Findings at or above the severity end in exit code 1, and none below it."""
    assert cli("judge", "--fail-on", fail_on, line).code == code


def test_json_is_the_object_of_the_contract(cli: Runner) -> None:
    """One plan is one object: plan, lines, findings, summary, and nothing else."""
    answer = json.loads(cli("judge", "--json", "brigade.csv").out)
    keys = ["plan", "unknown_columns", "lines", "findings", "invented_wrenches", "summary"]
    assert list(answer) == keys
    assert answer["plan"] == "brigade.csv"
    assert [line["line"] for line in answer["lines"]] == list(range(2, 11))
    keys = "line joint preload_n utilisation by_angle at_end assumed unjudged findings"
    assert all(" ".join(line) == keys for line in answer["lines"])
    assert answer["lines"][2]["preload_n"] is None
    preload = answer["lines"][0]["preload_n"]
    assert preload["low"] < preload["nominal"] < preload["high"]
    findings = [finding for line in answer["lines"] for finding in line["findings"]]
    keys = ["rule", "severity", "place", "message", "numbers", "instead", "source"]
    assert findings
    assert all(list(finding) == keys for finding in findings)
    assert set(answer["summary"]) == {"stop", "ask", "note"}
    for severity, count in answer["summary"].items():
        assert count == sum(finding["severity"] == severity for finding in findings)


def test_json_of_several_plans_is_a_list(cli: Runner) -> None:
    """Several plans give a list in the order of the command line, even if one is lost."""
    answer = json.loads(cli("judge", "--json", GOOD, "brigade.csv").out)
    assert [one["plan"] for one in answer] == ["command line", "brigade.csv"]
    ran = cli("judge", "--json", GOOD, "nowhere.csv")
    assert len(json.loads(ran.out)) == 1
    assert json.loads(cli("judge", "--json", "here.csv", "nowhere.csv").out) == []


def test_notes_of_the_reader_go_to_standard_error_beside_json(cli: Runner) -> None:
    """Unknown columns are named there, and in the JSON object too."""
    assert "columns kept but not judged: shelf" in cli("judge", "--json", "brigade.csv").err
    assert "columns kept but not judged: shelf" in cli("judge", "brigade.csv").out


def test_unreadable_plan_does_not_keep_the_others_waiting(cli: Runner) -> None:
    """The others are judged, the lost one is named, and the exit code is 2 even so."""
    ran = cli("judge", "nowhere.csv", BAD)
    assert ran.code == Exit.UNUSABLE
    assert "nowhere.csv: there is no such file" in ran.err
    assert "command line: 1 stop" in ran.out


@pytest.mark.parametrize(
    ("argument", "message"),
    [
        ("plan.xlsx", "there is no such file"),
        ("plans/front", "there is no such file"),
        ("front plan.csv", "there is no such file"),
        ("M10", "no such file, and no line of a plan"),
        ("hello world", '"hello world" is not understood'),
    ],
)
def test_argument_that_is_neither_file_nor_line(argument: str, message: str, cli: Runner) -> None:
    """The message says whether a file was looked for or a line was read."""
    ran = cli("judge", argument)
    assert ran.code == Exit.UNUSABLE
    assert message in " ".join(ran.err.split())
    assert ran.out == ""


def test_inch_thread_in_a_line_is_no_path(cli: Runner) -> None:
    """A line with a slash in its thread is read as a line."""
    assert cli("judge", "3/8-16 SAE 8 40 lbf.ft friction=dry").out.startswith("command line:")


def test_file_comes_first(cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An argument that names a file is that file, however odd its name."""
    (tmp_path / "M8 8.8 20 N.m").write_text("tighten\n250 N.m\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert cli("judge", "M8 8.8 20 N.m").out.startswith("M8 8.8 20 N.m:")


def test_standard_input(cli: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    """``-`` is standard input."""
    text = b"joint,thread,class,tighten\npump,M8,8.8,250 N.m\n"
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(text)))
    ran = cli("judge", "-")
    assert ran.code == Exit.FINDINGS
    assert "standard input: 1 stop" in ran.out


def test_rule_that_raises_is_a_fault_of_ours(cli: Runner, monkeypatch: pytest.MonkeyPatch) -> None:
    """A broken rule never looks like a clean plan: exit code 3, with rule and line."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("torquebook.rules.engine.Rule.completed", broken)
    ran = cli("judge", BAD)
    assert ran.code == Exit.FAULT
    assert "our own fault" in ran.err
    assert "command line" in ran.err


def test_json_lines(cli: Runner, tmp_path: Path) -> None:
    """A CSV of any length is answered line by line, the counts last; exit as ever."""
    path = tmp_path / "plan.csv"
    path.write_text("thread,class,tighten\nM8,8.8,20 N.m\nM8,8.8,200 N.m\n")
    ran = cli("judge", "--json-lines", str(path))
    answers = [json.loads(line) for line in ran.out.splitlines()]
    assert [answer.get("line") for answer in answers] == [2, 3, None]
    assert answers[-1]["summary"]["stop"] == 1
    assert ran.code == 1
    assert cli("judge", "--json-lines", str(tmp_path / "none.csv")).code == 2


@pytest.mark.parametrize(
    ("name", "content", "what"),
    [
        ("plan.yaml", b"lines:\n- {tighten: 20 N.m}\n", "YAML"),
        ("plan.json", b'[{"tighten": "20 N.m"}]', "JSON"),
        ("plan.txt", b'[{"tighten": "20 N.m"}]', "JSON"),
        ("plan.xlsx", b"PK\x03\x04 and so on", "XLSX"),
    ],
)
def test_json_lines_read_csv_only(
    name: str, content: bytes, what: str, cli: Runner, tmp_path: Path
) -> None:
    """Another format is named for what it is, with what to write instead; so is one line."""
    path = tmp_path / name
    path.write_bytes(content)
    ran = cli("judge", "--json-lines", str(path))
    assert ran.code == Exit.UNUSABLE
    told = " ".join(ran.err.split())
    assert f"{name}: this is {what}, and --json-lines reads CSV only" in told
    assert "save it as CSV, or write --json in place of --json-lines" in told
    ran = cli("judge", "--json-lines", GOOD)
    assert ran.code == Exit.UNUSABLE
    assert f"{GOOD}: this is one line, and --json-lines reads CSV only" in " ".join(ran.err.split())


def test_invented_wrenches_are_said_to_be_once(cli: Runner, tmp_path: Path) -> None:
    """Wrenches of the demo book are told from a range, in text, JSON and line by line."""
    path = tmp_path / "plan.csv"
    rows = "M8,8.8,20 N.m,click 20-100\nM8,8.8,20 N.m,10-50 N.m\nM8,8.8,21 N.m,click 20-100\n"
    path.write_text(f"thread,class,tighten,wrench\n{rows}", encoding="utf-8")
    out = cli("judge", str(path)).out
    assert (
        out.count(
            "click 20-100 is of the demo book, invented; name your own with torquebook bench."
        )
        == 1
    )
    assert json.loads(cli("judge", "--json", str(path)).out)["invented_wrenches"] == [
        "click 20-100"
    ]
    last = cli("judge", "--json-lines", str(path)).out.splitlines()[-1]
    assert json.loads(last)["invented_wrenches"] == ["click 20-100"]
    assert "demo book" not in cli("judge", GOOD).out


@pytest.mark.parametrize("cell", ["=B2*2", "NaN N.m", "1e400 N.m", "#REF!"])
def test_a_cell_that_is_no_value_makes_the_plan_unusable(
    cell: str, cli: Runner, tmp_path: Path
) -> None:
    """Formulas and numbers that are none are told with their cell, and end in exit code 2."""
    path = tmp_path / "plan.csv"
    path.write_text(f"thread,class,tighten\nM8,8.8,20 N.m\nM8,8.8,{cell}\n", encoding="utf-8")
    ran = cli("judge", str(path))
    assert ran.code == Exit.UNUSABLE
    assert "C3:" in ran.err
    assert "M8" in ran.out


def test_a_job_is_judged_like_a_plan(cli: Runner) -> None:
    """The demo's job ends in exit code 0 even if a question were enough to fail."""
    ran = cli("judge", "--fail-on", "ask", "jobs/brigade-overhaul")
    assert ran.code == Exit.CLEAN
    assert ran.out.startswith("jobs/brigade-overhaul: 1 note in 25 lines")
    assert "NOTE  joints/brigade/flywheel.yaml:19:10: flywheel to crankshaft\n" in ran.out


def test_a_place_in_another_file_is_shown_from_here(
    cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Below the working folder a file is shown from there, elsewhere with its whole path."""
    file = tmp_path / "joints" / "example.yaml"
    file.parent.mkdir()
    text = 'kind: joint\ntitle: "x"\nname: "example"\nfastener: {thread: "M8"}\ncount: 1\n'
    end = 'tighten: "250 N.m"\nsource: {kind: manual, title: "x", provenance: "read"}\n'
    file.write_text(text + end, encoding="utf-8")
    words = ("judge", "--book", str(tmp_path), "joints/example")
    shown = "".join(cli(*words).out.split())
    assert f"STOP{file}:6:10:example" in shown
    monkeypatch.chdir(tmp_path)
    assert "STOP  joints/example.yaml:6:10: example\n" in cli(*words).out


def test_places_of_a_job_are_in_the_files_of_its_joints(cli: Runner) -> None:
    """A program reads where each finding stands, and the job's own beside its joints'."""
    answer = json.loads(cli("judge", "--json", "jobs/brigade-overhaul").out)
    assert answer["plan"] == "jobs/brigade-overhaul"
    assert answer["findings"] == []
    (place,) = [found["place"] for line in answer["lines"] for found in line["findings"]]
    assert place.endswith("flywheel.yaml:19:10")


def test_a_file_of_a_joint_is_judged(cli: Runner, tmp_path: Path) -> None:
    """A YAML file is a record if it says so; its faults end in exit code 2, with their place."""
    file = tmp_path / "example.yaml"
    text = (
        'kind: joint\ntitle: "An example"\nname: "example"\nfastener: {thread: "M8"}\n'
        'count: 1\ntighten: "250 N.m"\n'
        'source: {kind: invented, title: "an example", provenance: "invented"}\n'
    )
    file.write_text(text, encoding="utf-8")
    ran = cli("judge", str(file))
    assert ran.code == Exit.FINDINGS
    assert "STOP  line 6, column 10: example" in ran.out
    file.write_text(text.replace("count: 1", "count: one"), encoding="utf-8")
    ran = cli("judge", str(file), GOOD)
    assert ran.code == Exit.UNUSABLE
    assert f"{file.name}:5:8" in "".join(ran.err.split())
    assert "command line: nothing found" in ran.out


def test_an_unknown_record_is_answered_with_near_ones(cli: Runner) -> None:
    """A mistyped id does not keep the other plans waiting."""
    ran = cli("judge", "joints/brigade/flywhel", GOOD)
    assert ran.code == Exit.UNUSABLE
    assert "joints/brigade/flywheel" in ran.err
    assert "command line: nothing found" in ran.out


def test_a_note_on_several_joints_names_them(cli: Runner, tmp_path: Path) -> None:
    """In a job lines of several files share a note by their names; a gate alone is no line."""
    end = 'source: {kind: manual, title: "an example", provenance: "read"}\n'
    (tmp_path / "joints").mkdir()
    for name in ("front", "rear"):
        text = f'kind: joint\ntitle: "{name}"\nname: "{name}"\n'
        text += (
            f'fastener: {{thread: "M8", strength_class: "8.8"}}\ncount: 1\ntighten: "20 N.m"\n{end}'
        )
        (tmp_path / "joints" / f"{name}.yaml").write_text(text, encoding="utf-8")
    job, head = tmp_path / "work.yaml", 'kind: job\ntitle: "Work"\nname: "work"\nsteps:\n'
    job.write_text(f"{head}  - joint: joints/front\n  - joint: joints/rear\n{end}", "utf-8")
    out = cli("judge", "--book", str(tmp_path), str(job)).out
    assert "NOTE  front, rear\n      front: friction not stated" in out
    gate = '  - gate: {name: "a", question: "Is it?", why: "It is."}\n'
    job.write_text(f"{head}{gate}{end}", encoding="utf-8")
    out = cli("judge", str(job)).out
    assert "nothing found in 0 lines" in " ".join(out.split())
    assert "\nLines" not in out
