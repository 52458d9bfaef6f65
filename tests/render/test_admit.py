"""The text and the JSON of ``admit``, and every format's golden file."""

from __future__ import annotations

import json
import tracemalloc
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from admissions import MIXED, admissions, made
from hypothesis import given

from torquebook.findings import Severity
from torquebook.render.admit_formats import FORMATS
from torquebook.render.paper import WIDTH, Paper
from torquebook.render.plain import width
from torquebook.rules.admission import Admission

if TYPE_CHECKING:
    from collections.abc import Callable

GOLDEN = Path(__file__).parents[1] / "golden"
SUFFIXES = {
    "text": "txt", "json": "json", "sarif": "sarif",
    "junit": "xml", "github": "github", "markdown": "md",
}  # fmt: skip


FOOT = (
    "What is clean is well formed and plausible. Whether it is what its source prints\n"
    "is for whoever reviews it.\n"
)


def written(name: str, answer: Admission, *, plain: bool = False) -> str:
    return "".join(FORMATS[name](answer, Paper(plain=plain)))


def test_each_format_has_a_golden_file() -> None:
    """No format goes without one."""
    assert list(FORMATS) == list(SUFFIXES)


@pytest.mark.parametrize("name", FORMATS)
def test_golden(name: str, same_as_golden: Callable[[Path, str], None]) -> None:
    """A mixed example is written as it was reviewed."""
    same_as_golden(GOLDEN / f"admit-mixed.{SUFFIXES[name]}", written(name, MIXED))


def test_text_says_where_what_and_what_would_be_right() -> None:
    """One line each, wrapped below its own beginning, then the counts."""
    found = made("specs/a.yaml", 3, 9, "8.8 is a number", rule="nut-weaker", instead='write "8.8"')
    assert written("text", Admission(("specs/a.yaml",), (found,))) == (
        'specs/a.yaml:3:9: STOP 8.8 is a number -> write "8.8" [nut-weaker]\n'
        "\n"
        "What a rule asks, and why: torquebook why RULE\n"
        f"1 stop in 1 file\n{FOOT}"
    )


@pytest.mark.parametrize(
    ("files", "said"),
    [((), "nothing found in 0 files\n"), (("a",), "nothing found in 1 file\n")],
)
def test_clean_says_so(files: tuple[str, ...], said: str) -> None:
    """Nothing found is said, with how many files were looked at."""
    assert written("text", Admission(files, ())) == said + FOOT


@pytest.mark.parametrize("plain", [False, True])
@given(answer=admissions())
def test_text_is_never_forged(answer: Admission, *, plain: bool) -> None:
    """Each finding begins one line, all others are indented, and a runner obeys none."""
    *body, last, _, _ = written("text", answer, plain=plain).split("\n")[:-1]
    begun = [line for line in body if line and not line.startswith("  ")]
    hint = ["What a rule asks, and why: torquebook why RULE"] if answer.findings else []
    assert begun[len(begun) - len(hint) :] == hint
    assert len(begun) - len(hint) == len(answer.findings)
    assert all(width(line) <= WIDTH for line in body)
    assert not any(line.lstrip().startswith("::") or "##[" in line for line in body)
    assert last.endswith(f" in {len(answer.files)} file{'' if len(answer.files) == 1 else 's'}")
    assert "".join(body).isascii() or not plain


def test_a_name_cannot_pass_for_a_finding() -> None:
    """A name with a colon or with spaces around it stands in quotes, those in it marked."""
    names = ('a:1:1: STOP "b"', "  a", "“a”：1")
    said = written("text", Admission((), tuple(made(name) for name in names)), plain=True)
    assert said.split("\n")[:3] == [
        '"a:1:1: STOP \\"b\\"":1:1: STOP wrong [nut-weaker]',
        '"  a":1:1: STOP wrong [nut-weaker]',
        '"\\"a\\":1":1:1: STOP wrong [nut-weaker]',
    ]


@given(admissions())
def test_json_reads_back(answer: Admission) -> None:
    """Every program can read it, and finds each file, place, severity and rule."""
    document = written("json", answer)
    assert document.isascii()
    assert "##[" not in document
    read = json.loads(document)
    json.dumps(read, ensure_ascii=False).encode()  # no half of a character anywhere
    assert set(read) == {"files", "findings", "summary"}
    assert len(read["files"]) == len(answer.files)
    assert [(f["line"], f["column"], f["severity"], f["rule"]) for f in read["findings"]] == [
        (f.place.line, f.place.column, f.severity.word, f.rule) for f in answer.findings
    ]
    assert sum(read["summary"].values()) == len(answer.findings)


def test_json_keeps_names_as_they_are() -> None:
    """Only a byte that is no text is shown as an escape."""
    names = ("a\n|\x1b.yaml", "ö.yaml", "b\udcff.yaml")
    read = json.loads(written("json", Admission(names, (made(names[0], severity=Severity.ASK),))))
    assert read["files"] == ["a\n|\x1b.yaml", "ö.yaml", "b\\udcff.yaml"]
    assert read["findings"][0]["file"] == names[0]
    assert read["summary"] == {"stop": 0, "ask": 1, "note": 0}


@pytest.mark.parametrize("name", FORMATS)
def test_many_files_take_little_room(name: str) -> None:
    """The document is never held as a whole, and neither is what it is made of."""
    files = tuple(f"specs/joints/invented/joint-{number:06}.yaml" for number in range(5_000))
    answer = Admission(files, tuple(made(file, message="wrong " * 40) for file in files))
    tracemalloc.start()
    try:
        size = sum(len(piece) for piece in FORMATS[name](answer, Paper()))
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 2_000_000 + size / 4
