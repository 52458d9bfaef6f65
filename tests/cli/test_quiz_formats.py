"""``torquebook quiz`` in formats for files and programs, and from a sheet to its marks."""

from __future__ import annotations

import csv
import json
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZipFile

import pytest

from torquebook.cli.exits import Exit
from torquebook.quiz.keyfile import read_key
from torquebook.quiz.letters import written

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Runner

SMALL = ("--count", "5", "--sheets", "3", "--seed", "formats", "--date", "2026-11-27")
MARKING = ["quiz-answers.csv", "quiz-key.json"]


@pytest.mark.parametrize(
    ("ending", "names"),
    [
        ("md", ["quiz-key.md", "quiz-solutions.md", "quiz.md"]),
        ("json", ["quiz.json"]),
        ("zip", ["quiz-key.zip"]),
    ],
)
def test_documents_of_each_format(
    ending: str, names: list[str], cli: Runner, tmp_path: Path
) -> None:
    """Each has its documents and what marks them; only keys hold the seed or an answer."""
    ran = cli("quiz", *SMALL, "--out", str(tmp_path / f"quiz.{ending}"))
    assert (ran.code, ran.out) == (Exit.CLEAN, "")
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([*names, *MARKING])
    for path in tmp_path.glob("quiz.*"):
        said = path.read_text(encoding="utf-8")
        assert "formats" not in said
        assert "mistake" not in said


def test_a_package_holds_an_item_a_question(cli: Runner, tmp_path: Path) -> None:
    """The archive of three sheets of five questions: a manifest, items, tests, drawings."""
    cli("quiz", *SMALL, "--format", "qti", "--out", str(tmp_path / "course.zip"))
    with ZipFile(BytesIO((tmp_path / "course-key.zip").read_bytes())) as archive:
        names = archive.namelist()
    assert names[0] == "imsmanifest.xml"
    assert sum(name.startswith("items/") for name in names) == 15
    assert sum(name.startswith("tests/") for name in names) == 3


def test_sheets_in_markdown_and_json_on_the_terminal(cli: Runner) -> None:
    """Without a file the sheets are shown, and nothing that tells an answer."""
    assert cli("quiz", *SMALL, "--format", "markdown").out.startswith("# Question sheets\n")
    assert cli("quiz", *SMALL, "--format", "markdown", "--ascii").out.isascii()
    assert json.loads(cli("quiz", *SMALL, "--format", "json").out)["what"] == "question sheets"
    ran = cli("quiz", *SMALL, "--format", "qti")
    assert ran.code == Exit.UNUSABLE
    assert "name --out FILE.zip" in ran.err


@pytest.mark.parametrize("level", ["1", "2", "3"])
def test_a_terminal_shows_the_questions_in_lines_that_fit(
    level: str, cli: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No page pours into it unless it is asked for; no word of the questions is lost."""
    words = ("quiz", *SMALL, "--level", level)
    piped = cli(*words, "--format", "markdown").out
    monkeypatch.setattr("torquebook.render.terminal.is_screen", lambda: True)
    ran = cli(*words)
    assert ran.out.startswith("# Question sheets\n")
    assert ran.out.split() == piped.split()
    assert max(map(len, ran.out.splitlines())) <= 80 < max(map(len, piped.splitlines()))
    assert "pages to print, keys and solutions come with --out FILE" in ran.err
    assert cli(*words, "--format", "html").out.startswith("<!DOCTYPE html>")
    assert cli(*words, "--ascii").out.isascii()


def test_from_sheets_to_marks(cli: Runner, tmp_path: Path) -> None:
    """The list that lies beside the sheets, filled in with the key, gives every point."""
    cli("quiz", *SMALL, "--out", str(tmp_path / "quiz.html"))
    answers, key = tmp_path / "quiz-answers.csv", tmp_path / "quiz-key.json"
    head, *rows = csv.reader(answers.read_text(encoding="utf-8").splitlines())
    for row, sheet in zip(rows, read_key(key).sheets, strict=True):
        row[2:] = ["Ann", *(written(one.answer) for one in sheet.questions)]
    with answers.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([head, *rows])
    ran = cli("quiz", "mark", str(answers), "--key", str(key), "--json")
    assert ran.code == Exit.CLEAN
    assert [one["percent_to"] for one in json.loads(ran.out)["apprentices"]] == [100, 100, 100]
