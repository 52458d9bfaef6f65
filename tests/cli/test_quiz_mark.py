"""``torquebook quiz mark``."""

from __future__ import annotations

import csv
import json
from io import StringIO
from typing import TYPE_CHECKING, NamedTuple

import pytest
from click import UsageError
from markdown_it import MarkdownIt
from quiz_class import QUIZ

from torquebook.cli.quiz_mark import command
from torquebook.errors import Unreadable
from torquebook.quiz.keyfile import key_data
from torquebook.quiz.letters import code_of
from torquebook.render.data import json_text

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import Runner

CODE = code_of(QUIZ)
ANSWERS = f"""sheet;quiz;name;1;2;3;4;remarks
1;{CODE};Ann;c;34,8 lbf ft;1-3-2-4;11,8;
2;{CODE};Ben;64;A);BCA;-;ill last week
3;{CODE};"=SUM(A1) <script>";4-2-3-1;12 %;a;about 50;
4;{CODE};Dan;a;b;c;d;
"""


class Marks(NamedTuple):
    """How the command ended, and what it wrote."""

    code: int
    out: str
    err: str


@pytest.fixture
def run(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Marks]:
    """Return what marks the class in a folder of its own, with more words."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "answers.csv").write_text(ANSWERS, encoding="utf-8")
    (tmp_path / "key.json").write_text(json_text(key_data(QUIZ)), encoding="utf-8")

    def marked(*words: str, answers: str = "answers.csv") -> Marks:
        code = command.main([answers, "--key", "key.json", *words], "mark", standalone_mode=False)
        return Marks(int(code), *capsys.readouterr())

    return marked


def test_marks_of_a_class(run: Callable[..., Marks], golden: Callable[[str, str], None]) -> None:
    """The reviewed text, in 80 columns; something is not read, so that the code is 1."""
    ran = run()
    golden("quiz-mark.txt", ran.out)
    assert (ran.code, ran.err) == (1, "")
    assert max(map(len, ran.out.splitlines())) <= 80
    plain = run("--ascii").out
    assert plain.isascii()
    assert max(map(len, plain.splitlines())) <= 80


def test_marks_for_a_program(run: Callable[..., Marks]) -> None:
    """Everything that the text says, answer by answer, and what could not be read."""
    ran = run("--json")
    assert ran.out == run("--format", "json").out
    found = json.loads(ran.out)
    assert [(one["name"], one["right"], one["not_read"]) for one in found["apprentices"]] == [
        ("Ann", 4, 0), ("Ben", 1, 0), ("=SUM(A1) <script>", 1, 1), ("Dan", 0, 0),
    ]  # fmt: skip
    assert [one["marked"] for one in found["apprentices"]] == [True, True, True, False]
    assert found["apprentices"][1]["answers"][0] == {
        "question": 1, "family": "torque", "given": "64", "key": "47.2 N·m", "status": "wrong",
        "mistake": "the number in lbf·ft",
    }  # fmt: skip
    spanner = next(one for one in found["families"] if one["family"] == "spanner")
    assert (spanner["asked"], spanner["right"], spanner["mistakes"]) == (
        3, 1, [{"text": "the spanner of …", "count": 2}],
    )  # fmt: skip
    assert [(one["line"], one["cell"], one["text"]) for one in found["unread"]] == [
        (4, "G4", "about 50"), (5, "A5", "4"),
    ]  # fmt: skip
    assert any("counted as 47.18 N·m" in note for note in found["notes"])


def test_marks_for_a_spreadsheet(run: Callable[..., Marks]) -> None:
    """A row for each apprentice in which no cell acts; standard error tells the rest."""
    ran = run("--format", "csv")
    head, *rows = csv.reader(StringIO(ran.out))
    assert [dict(zip(head, row, strict=True))["name"] for row in rows] == [
        "Ann", "Ben", "'=SUM(A1) <script>", "Dan",
    ]  # fmt: skip
    third = dict(zip(head, rows[2], strict=True))
    assert (third["percent_from"], third["percent_to"]) == ("25", "50")
    assert third["4"] == "not read: about 50"
    assert third["1"] == "wrong: the right order turned round"
    assert (rows[3][3], rows[3][7]) == ("", "")
    assert ran.err.count("torquebook: ") == 4
    assert 'the column "remarks" was left alone' in ran.err
    assert (ran.code, "answers.csv cell G4" in ran.err) == (1, True)


def test_marks_in_markdown(run: Callable[..., Marks], tmp_path: Path) -> None:
    """Two tables and the lists, into a file; names show as they are."""
    ran = run("--format", "markdown", "--out", "marks.md")
    assert ran.out == ""
    document = (tmp_path / "marks.md").read_text(encoding="utf-8")
    tokens = MarkdownIt("commonmark").enable("table").parse(document)
    assert sum(token.type == "table_open" for token in tokens) == 2
    texts = [
        "".join(part.content for part in token.children or [] if part.type.startswith("text"))
        for token in tokens
        if token.type == "inline"
    ]
    assert "=SUM(A1) <script>" in texts
    assert any(text.startswith('answers.csv cell G4: "about 50": a number') for text in texts)
    assert "2 × the spanner of …" in texts


def test_a_clean_class(run: Callable[..., Marks], tmp_path: Path) -> None:
    """Nothing to mend: no such heading, and exit code 0."""
    (tmp_path / "clean.csv").write_text("sheet,1,2,3,4\n1,c,47.2,1324,12\n", encoding="utf-8")
    ran = run(answers="clean.csv")
    assert ran.code == 0
    assert "Not read" not in ran.out
    assert "no name, line 2" in ran.out
    assert "100" in ran.out


def test_a_person_is_shown_no_more_than_he_reads(run: Callable[..., Marks], tmp_path: Path) -> None:
    """Of a list that went wrong from top to bottom 100 cells, and how many more; a program all."""
    rows = "".join(f"{number},{CODE},N{number},47 Nm\n" for number in range(900, 1030))
    (tmp_path / "long.csv").write_text(f"sheet,quiz,name,2\n{rows}", encoding="utf-8")
    for form, people in (("text", 130), ("markdown", 130), ("csv", 0)):
        ran = run("--format", form, answers="long.csv")
        said = " ".join((ran.out + ran.err).split())
        assert said.count("write one of them here") == 100
        assert said.count("and 30 more; --format json has them all") == 1
        assert said.count("N1029") == 1
        assert ran.out.count("not marked") == people
    assert len(json.loads(run("--json", answers="long.csv").out)["unread"]) == 130


def test_notes_are_cut_short_too(run: Callable[..., Marks], tmp_path: Path) -> None:
    """A class that answers in another unit throughout."""
    rows = f"1,{CODE},Ann,34.8 lbf ft\n" * 130
    (tmp_path / "units.csv").write_text(f"sheet,quiz,name,2\n{rows}", encoding="utf-8")
    for form in ("text", "markdown", "csv"):
        ran = run("--format", form, answers="units.csv")
        said = " ".join((ran.out + ran.err).split())
        assert (ran.code, said.count("counted as")) == (0, 100)
        assert "and 33 more; --format json has them all" in said


def test_the_program_knows_it(
    run: Callable[..., Marks], cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It stands in the help of ``quiz``, and a bad file ends in one message and exit code 2."""
    assert "Mark a class: points" in cli("quiz", "--help").out
    assert max(map(len, cli("quiz", "mark", "--help").out.splitlines())) <= 80
    monkeypatch.chdir(tmp_path)
    ran = cli("quiz", "mark", "answers.csv", "--key", "key.json")
    assert (ran.code, ran.out) == (1, run().out)
    ran = cli("quiz", "mark", "answers.csv", "--key", "answers.csv")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        "torquebook: answers.csv: this is no key of question sheets; name the key that\n"
        "  was written with the sheets\n"
    )


def test_what_cannot_be_used_is_told(run: Callable[..., Marks]) -> None:
    """A list in place of the key, no list at all, and one stream for both."""
    with pytest.raises(Unreadable, match=r"key\.json: answers are read from a CSV or a workbook"):
        run(answers="key.json")
    with pytest.raises(Unreadable, match="there is no such file; name the mark list"):
        run(answers="none.csv")
    with pytest.raises(UsageError, match="either the answers or the key"):
        command.main(["-", "--key", "-"], "mark", standalone_mode=False)
