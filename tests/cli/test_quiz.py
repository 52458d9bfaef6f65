"""``torquebook quiz``: sheets, keys and solutions into files, and what cannot be made."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click
import pypdf
import pytest

from torquebook.cli import quiz as command_module
from torquebook.cli.exits import Exit
from torquebook.cli.quiz import command
from torquebook.quiz.making import make_quiz
from torquebook.quiz.registry import FAMILIES, FROM

if TYPE_CHECKING:
    from collections.abc import Callable

    from conftest import Runner

ROOT = Path(__file__).resolve().parents[2]
SMALL = ("--families", "convert,circle-order,gate-order,head-mark,table-row", "--count", "5")
SMALL += ("--seed", "golden", "--class", "1A", "--date", "2026-11-27")
PARTS = ("", "-key", "-solutions")
MARKING = {"quiz-key.json", "quiz-answers.csv"}


def files(folder: Path, ending: str = "html") -> dict[str, bytes]:
    """Return the papers in a folder, by what stands behind the name of the sheets."""
    found = {path.name: path.read_bytes() for path in folder.iterdir()}
    assert set(found) == {f"quiz{part}.{ending}" for part in PARTS} | MARKING
    return {part: found[f"quiz{part}.{ending}"] for part in PARTS}


def test_a_small_quiz_is_as_it_was(
    cli: Runner, golden: Callable[[str, str], None], tmp_path: Path
) -> None:
    """Sheets, key and solutions of two small sheets; five files, each named on standard error."""
    ran = cli("quiz", "--sheets", "2", *SMALL, "--out", str(tmp_path / "quiz.html"))
    assert (ran.code, ran.out) == (Exit.CLEAN, "")
    assert ran.err.count("written into") == 5
    for part, document in files(tmp_path).items():
        golden(f"quiz{part}.html", document.decode())


def test_the_list_of_families(cli: Runner, golden: Callable[[str, str], None]) -> None:
    """Every family is listed with its first level and its aim, for a person and for a program."""
    shown = cli("quiz", "--list")
    golden("quiz-list.txt", shown.out)
    listed = json.loads(cli("quiz", "--list", "--json").out)
    assert [one["family"] for one in listed] == list(FAMILIES)
    assert {one["family"]: one["level"] for one in listed if one["level"] > 1} == FROM
    assert all(one["aim"].endswith(".") for one in listed)
    assert max(map(len, shown.out.splitlines())) <= 80


def test_the_same_seed_writes_the_same_files(cli: Runner, tmp_path: Path) -> None:
    """Two runs differ in nothing; another seed differs in all three."""
    made = []
    for name, seed in (("a", "s"), ("b", "s"), ("c", "t")):
        (tmp_path / name).mkdir()
        words = ("--level", "3", "--seed", seed, "--date", "2026-11-27")
        cli("quiz", *words, "--sheets", "4", "--out", str(tmp_path / name / "quiz.html"))
        made.append(files(tmp_path / name))
    assert made[0] == made[1]
    assert all(made[0][part] != made[2][part] for part in PARTS)


def test_date_and_class_are_the_seed_where_none_is_named(cli: Runner, tmp_path: Path) -> None:
    """What standard error says to write makes the same sheets again."""
    out = str(tmp_path / "quiz.html")
    ran = cli("quiz", "--class", "year 1's best", "--date", "2026-11-27", "--out", out)
    said = " ".join(ran.err.split())
    assert "--date 2026-11-27 --seed '2026-11-27 year 1'\"'\"'s best'" in said
    assert "for a test name one of your own" in said
    first = files(tmp_path)
    words = ("--class", "year 1's best", "--date", "2026-11-27")
    again = cli("quiz", *words, "--seed", "2026-11-27 year 1's best", "--out", out)
    assert "--seed" not in again.err
    assert files(tmp_path) == first


def test_without_a_date_it_is_todays(cli: Runner) -> None:
    """Today's date is printed, and is the seed."""
    before = date.today().isoformat()  # noqa: DTZ011 - as the command has it
    ran = cli("quiz", "--json")
    made = json.loads(ran.out)
    assert before <= made["date"] <= date.today().isoformat()  # noqa: DTZ011 - as above
    assert made["seed"] == made["date"]
    assert f"--date {made['date']} --seed {made['date']}" in " ".join(ran.err.split())


def test_without_a_file_the_questions_are_shown(cli: Runner) -> None:
    """They alone go to standard output; where the keys are is said beside them."""
    ran = cli("quiz", *SMALL)
    assert ran.out.startswith("<!DOCTYPE html>")
    assert "keys and solutions come with --out FILE" in ran.err
    assert "wrong:" not in ran.out
    assert "golden" not in ran.out


def test_a_pdf_by_its_ending_and_by_its_format(cli: Runner, tmp_path: Path) -> None:
    """FILE.pdf is a PDF on the paper that is asked for, and so is any file with --format pdf."""
    cli("quiz", *SMALL, "--paper", "Letter", "--out", str(tmp_path / "quiz.pdf"))
    for path in sorted(tmp_path.glob("*.pdf")):
        (page, *_) = pypdf.PdfReader(path).pages
        assert tuple(map(float, page.mediabox[2:])) == pytest.approx((612, 792), abs=1)
    assert len(files(tmp_path, "pdf")) == 3
    cli("quiz", *SMALL, "--format", "pdf", "--out", str(tmp_path / "sheets"))
    assert (tmp_path / "sheets-key").read_bytes().startswith(b"%PDF-")


def test_json_holds_questions_and_keys(cli: Runner) -> None:
    """For programs the whole quiz is one document."""
    made = json.loads(cli("quiz", *SMALL, "--sheets", "2", "--json").out)
    assert made["seed"] == "golden"
    assert [len(sheet["questions"]) for sheet in made["sheets"]] == [5, 5]


def test_ascii_sheets(cli: Runner, tmp_path: Path) -> None:
    """With --ascii all three files are ASCII."""
    cli("quiz", "--level", "3", "--seed", "a", "--ascii", "--out", str(tmp_path / "quiz.html"))
    assert all(document.isascii() for document in files(tmp_path).values())


def test_the_unit_of_the_bench(
    cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no unit is named the one of my bench counts, else N·m."""
    bench = tmp_path / "bench.json"
    assert json.loads(cli("quiz", "--json").out)["unit"] == "N.m"
    monkeypatch.setenv("TORQUEBOOK_BENCH", str(bench))
    from torquebook.catalogue.bench import Bench, write_bench  # noqa: PLC0415 - only here

    write_bench(str(bench), Bench(unit="lbf.ft"))
    assert json.loads(cli("quiz", "--json").out)["unit"] == "lbf.ft"
    assert json.loads(cli("quiz", "--unit", "kgf.m", "--json").out)["unit"] == "kgf.m"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--families", "konvert"), '"konvert": no family of questions; write convert'),
        (("--families", "angle-units"), '"angle-units": asked from level 2 on, not at 1'),
        (("--level", "4"), "level 4: there are 1, 2, 3"),
        (("--level", "one"), "'one' is not a valid integer"),
        (("--count", "0"), "0 questions: 1 to 100 can be made"),
        (("--count", "101"), "101 questions: 1 to 100 can be made"),
        (("--families", "spanner", "--count", "60"), "spanner has no further question"),
        (("--families", "spanner", "--count", "1", "--sheets", "40"), "comes out like another"),
        (("--sheets", "0"), "0 sheets: 1 to 500 can be made"),
        (("--sheets", "1000"), "1000 sheets: 1 to 500 can be made"),
        (("--unit", "psi"), "psi is no unit of torque; usual are N.m"),
        (("--date", "2026-02-30"), '"2026-02-30": no date; write year, month and day'),
        (("--date", "31.5.2026"), "no date; write year, month and day like 2026-05-31"),
        (("--format", "doc"), "'doc' is not one of"),
        (("--out", "quiz.doc"), '"quiz.doc": there are no sheets of this kind; write FILE.html'),
        (
            ("--format", "html", "--out", "q.json"),
            '"q.json": FILE-key.json is what marks; end FILE',
        ),
        (("--format", "pdf"), "name --out FILE.pdf"),
        (("--format", "qti", "--out", "t.html"), '"t.html": a package is a ZIP archive; name'),
        (("--format", "qti", "--out", "course"), "name --out FILE.zip"),
        (("--out", "no such folder/quiz.html"), "there is no folder"),
        (("mrk",), 'there is no command "mrk"'),
    ],
)
def test_what_cannot_be_made_is_one_message(
    words: tuple[str, ...], said: str, cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each says what is wrong and what would be right; nothing is printed, nothing written."""
    monkeypatch.chdir(tmp_path)
    ran = cli("quiz", *words)
    assert (ran.code, ran.out) == (Exit.UNUSABLE, "")
    assert said in " ".join(ran.err.split())
    assert ran.err.count("torquebook: ") == 1
    assert list(tmp_path.iterdir()) == []


def test_options_of_the_sheets_go_with_no_other_command(
    cli: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A command below quiz is run by its name, and an option before its name is refused."""
    told = click.Command("told", callback=lambda: click.echo("told"))
    monkeypatch.setitem(command_module.QUIZ_HELPS, "told", "Tell.")
    monkeypatch.setattr(command, "get_command", lambda _ctx, _name: told)
    assert cli("quiz", "told").out == "told\n"
    ran = cli("quiz", "--level", "2", "told")
    assert ran.code == Exit.UNUSABLE
    assert "--level belongs to the sheets; write it behind told" in " ".join(ran.err.split())


def test_sheets_import_nothing_heavy(tmp_path: Path) -> None:
    """Thirty sheets with keys as HTML load no model, no validator, no parser, and typst neither."""
    heavy = ("pydantic", "jsonschema_rs", "yaml", "tabulate", "typst", "importlib.metadata")
    code = (
        "import sys; from torquebook.cli import run; code = run(sys.argv[1:]); "
        "print(' '.join(sys.modules)); sys.exit(code)"
    )
    words = ["quiz", "--level", "3", "--sheets", "30", "--count", "20", "--seed", "s"]
    done = subprocess.run(
        [sys.executable, "-c", code, *words, "--out", str(tmp_path / "quiz.html")],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    loaded = set(done.stdout.split())
    assert "torquebook.render.quizsheet.page" in loaded
    assert not loaded & set(heavy)
    assert not {name for name in loaded if name.startswith(("torquebook.rules", "torquebook.jobs"))}
    assert len(files(tmp_path)) == 3
    assert make_quiz.__module__ in loaded
