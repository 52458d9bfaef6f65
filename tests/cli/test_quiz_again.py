"""``torquebook quiz`` where files lie already: no answers are lost, nor the key to them."""

from __future__ import annotations

import csv
import json
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from torquebook.cli.exits import Exit
from torquebook.quiz.keyfile import read_key
from torquebook.quiz.letters import code_of, written

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Runner

SMALL = ("--families", "convert,spanner", "--count", "2", "--sheets", "2", "--date", "2026-11-27")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder in which the commands run."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def made(cli: Runner, *words: str, seed: str = "s", out: str = "o.html") -> tuple[int, str]:
    """Make sheets; return the exit code and what was said."""
    ran = cli("quiz", *SMALL, "--seed", seed, "--out", out, *words)
    return ran.code, " ".join(ran.err.split())


def fill_in(folder: Path, name: str = "o-answers.csv", separator: str = ",") -> bytes:
    """Let an apprentice answer all of sheet 1 as the key has it; return the list."""
    path = folder / name
    head, first, *rest = csv.reader(path.read_text(encoding="utf-8").splitlines())
    sheet = read_key(folder / "o-key.json").sheets[0]
    first[2:] = ["Ann", *(written(one.answer) for one in sheet.questions)]
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file, delimiter=separator).writerows([head, first, *rest])
    return path.read_bytes()


def held(folder: Path) -> dict[str, bytes]:
    """Return all files, by name."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.mark.parametrize("separator", [",", ";"])
def test_the_same_command_again_keeps_the_answers(
    separator: str, cli: Runner, folder: Path
) -> None:
    """The list stays, the rest is made again, and the class is marked by it as before."""
    made(cli)
    answers = fill_in(folder, separator=separator)
    before = held(folder)
    (folder / "o-key.json").unlink()
    code, said = made(cli)
    assert (code, held(folder)) == (Exit.CLEAN, before)
    assert (folder / "o-answers.csv").read_bytes() == answers
    assert said.endswith("o-answers.csv is filled in; it stays as it is")
    assert "written into o-answers.csv" not in said
    marked = json.loads(cli("quiz", "mark", "o-answers.csv", "--key", "o-key.json", "--json").out)
    assert [one["percent_from"] for one in marked["apprentices"]] == [100]


@pytest.mark.parametrize("words", [(), ("--format", "markdown"), ("--json",)])
def test_the_key_of_a_list_that_is_filled_in_is_not_replaced(
    words: tuple[str, ...], cli: Runner, folder: Path
) -> None:
    """Another seed, or another count, is refused before anything is written."""
    made(cli)
    fill_in(folder)
    before, code = held(folder), code_of(read_key(folder / "o-key.json"))
    out = "o-key.json" if words == ("--json",) else "o.html"
    for more, seed in (((), "t"), (("--count", "1"), "s")):
        ended, said = made(cli, *words, *more, seed=seed, out=out)
        assert (ended, held(folder)) == (Exit.UNUSABLE, before)
        assert said.startswith(f"torquebook: o-answers.csv: answers to quiz {code} stand in it")
        assert said.endswith("name another --out, or move that file away first")


def test_a_workbook_that_is_filled_in_counts_too(cli: Runner, folder: Path) -> None:
    """Whoever fills the list in as .xlsx leaves the CSV empty."""
    openpyxl = pytest.importorskip("openpyxl")
    made(cli)
    book = openpyxl.Workbook()
    code = code_of(read_key(folder / "o-key.json"))
    for row in (["sheet", "quiz", "name", 1, 2], [1, code, "Ann", "a", 3]):
        book.active.append(row)
    book.save(folder / "o-answers.xlsx")
    before = held(folder)
    assert made(cli)[0] == Exit.CLEAN
    ended, said = made(cli, seed="t")
    assert (ended, held(folder)) == (Exit.UNUSABLE, before)
    assert f"o-answers.xlsx: answers to quiz {code} stand in it" in said


def rows_of(*codes: str) -> str:
    """Return a list of as many apprentices, each with the code of a quiz."""
    rows = (f"{number},{code},Ann,a,b\n" for number, code in enumerate(codes, 1))
    return f"sheet,quiz,name,1,2\n{''.join(rows)}"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (rows_of("", ""), "answers that name no quiz stand in it"),
        (rows_of(*"FDCB"), "answers to quiz B, C, D and 1 more stand in it"),
        ("sheet,quiz,name,1,2\n1,BBBBB,,-,\n", "answers to quiz BBBBB stand in it"),
        ("sheet,quiz,name,1,2,remarks\n1,BBBBB,,,,ill\n", "answers to quiz BBBBB stand in it"),
        ("Ann was ill\n", 'no mark list that can be read (no column is named "sheet")'),
    ],
)
def test_what_somebody_wrote_is_not_written_over(
    text: str, said: str, cli: Runner, folder: Path
) -> None:
    """Without a code, with several, a dash, a remark, or no list at all."""
    (folder / "o-answers.csv").write_text(text, encoding="utf-8")
    ended, told = made(cli)
    assert (ended, set(held(folder))) == (Exit.UNUSABLE, {"o-answers.csv"})
    assert said in told
    assert (folder / "o-answers.csv").read_text(encoding="utf-8") == text


def test_an_empty_list_makes_room_and_the_key_replaced_is_named(cli: Runner, folder: Path) -> None:
    """Trying out seeds is no trouble; what made the quiz before can be read."""
    made(cli, seed="it's s")
    code = code_of(read_key(folder / "o-key.json"))
    (folder / "o-answers.csv").write_text("", encoding="utf-8")
    ended, said = made(cli, seed="t")
    assert ended == Exit.CLEAN
    assert f"o-key.json was the key of quiz {code}; --seed 'it'\"'\"'s s' makes that quiz" in said
    assert code_of(read_key(folder / "o-key.json")) != code
    assert "was the key" not in made(cli, seed="t")[1]
    assert made(cli, "--json", seed="u", out="o-key.json")[1].startswith(
        "torquebook: written into o-key.json torquebook: o-key.json was the key of quiz "
    )


@pytest.mark.parametrize("text", ["{}", "my own", '{"what": "key of question sheets"', "[" * 99999])
def test_what_is_no_key_is_not_replaced_by_one(text: str, cli: Runner, folder: Path) -> None:
    """A file of somebody's that has the key's name by chance."""
    (folder / "o-key.json").write_text(text, encoding="utf-8")
    ended, said = made(cli)
    assert (ended, set(held(folder))) == (Exit.UNUSABLE, {"o-key.json"})
    assert said.startswith("torquebook: o-key.json: no key of question sheets")


@pytest.mark.parametrize(
    "words",
    [
        ("quiz", *SMALL, "--format", "html", "--out"),
        ("quiz", "--list", "--out"),
        ("quiz", "mark", "copy.csv", "--key", "copy.json", "--format", "csv", "--out"),
    ],
)
def test_nothing_else_is_written_over_answers_or_a_key(
    words: tuple[str, ...], cli: Runner, folder: Path
) -> None:
    """Wherever a file that is named holds them; other files give way, as ever."""
    made(cli)
    fill_in(folder)
    for name, copy in (("o-answers.csv", "copy.csv"), ("o-key.json", "copy.json")):
        (folder / copy).write_bytes((folder / name).read_bytes())
    before = held(folder)
    for name, said in (("o-answers.csv", "answers of apprentices stand"), ("o-key.json", "a key")):
        ran = cli(*words, name)
        assert (ran.code, ran.out) == (Exit.UNUSABLE, "")
        assert held(folder) == before
        assert said in " ".join(ran.err.split()) or "FILE-key.json is what marks" in ran.err
    (folder / "other.csv").write_text("1,2,3\n", encoding="utf-8")
    assert cli(*words, "other.csv").code in {Exit.CLEAN, Exit.FINDINGS}
    assert cli(*words, "other.csv").code in {Exit.CLEAN, Exit.FINDINGS}


def test_a_dash_is_no_file(cli: Runner, folder: Path) -> None:
    """No command writes a file of that name."""
    made(cli)
    before = held(folder)
    for words in (
        SMALL,
        ("--json",),
        ("--list",),
        ("mark", "o-answers.csv", "--key", "o-key.json"),
    ):
        ran = cli("quiz", *words, "--out", "-")
        assert (ran.code, ran.out) == (Exit.UNUSABLE, "")
        assert '"-" is no file; leave --out out' in " ".join(ran.err.split())
    assert held(folder) == before


def test_marks_are_not_written_over_what_they_are_made_of(cli: Runner, folder: Path) -> None:
    """By another spelling, by a link, from standard input: both files stay."""
    made(cli)
    (folder / "a.txt").write_text("sheet,1,2\n1,a,b\n", encoding="utf-8")  # names no quiz
    (folder / "link.txt").hardlink_to(folder / "a.txt")
    before = held(folder)
    for out, source in (
        ("a.txt", "a.txt"),
        (f"../{folder.name}/a.txt", "a.txt"),
        ("link.txt", "a.txt"),
        ("o-key.json", "o-key.json"),
    ):
        ran = cli("quiz", "mark", "a.txt", "--key", "o-key.json", "--format", "csv", "--out", out)
        said = f"torquebook: {out}: the marks would be written over {source}; name another --out"
        assert (ran.code, ran.out) == (Exit.UNUSABLE, "")
        assert " ".join(ran.err.split()).startswith(said)
    words = [sys.executable, "-m", "torquebook", "quiz", "mark", "-", "--key", "o-key.json"]
    with (folder / "a.txt").open("rb") as answers:
        done = subprocess.run(
            [*words, "--out", "a.txt"], stdin=answers, capture_output=True, text=True, check=False
        )
    assert done.returncode == Exit.UNUSABLE
    assert "the marks would be written over standard input" in " ".join(done.stderr.split())
    assert held(folder) == before
    ran = cli("quiz", "mark", "a.txt", "--key", "o-key.json", "--out", "marks.txt")
    assert (ran.code, (folder / "marks.txt").exists()) == (Exit.CLEAN, True)
