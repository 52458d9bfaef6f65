"""Checks of ``torquebook admit``."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from torquebook.catalogue.places import specs_root
from torquebook.render.admit_formats import FORMATS

if TYPE_CHECKING:
    from conftest import Runner

JOINT = """\
# yaml-language-server: $schema=../../../schema/joint.json
kind: joint
title: "Cover of the pump"
name: "pump cover"
fastener: {thread: "M8", strength_class: "8.8", head: "hexagon"}
count: 4
into: "steel"
engagement_mm: 12
friction: "oiled"
tighten: "10 N.m, 20 N.m"
order: "1-3-2-4"
source: {kind: invented, title: "an example", provenance: "invented"}
"""


UNTIDY_JOB = """\
# yaml-language-server: $schema=../../schema/job.json
kind: job
name: "pump overhaul"
title: "Overhaul of the pump"
steps:
  - joint: joints/example/pump-cover
source: {kind: invented, title: "an example", provenance: "invented"}
"""


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, cli: Runner) -> Path:
    """Stand beside a folder of records with one joint in it."""
    assert cli
    monkeypatch.setenv("GITHUB_WORKSPACE", "")
    path = tmp_path / "specs" / "joints" / "example" / "pump-cover.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(JOINT, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return path


def mistaken(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_a_sound_record_is_admitted(book: Path, cli: Runner) -> None:
    """Nothing found ends in 0, and says what that means."""
    ran = cli("admit", "specs")
    assert book.exists()
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith("nothing found in 1 file\nWhat is clean is well formed")


def test_all_findings_of_all_files_in_one_run(book: Path, cli: Runner) -> None:
    """Each is a line with its place, sorted by place; the exit code is 1."""
    mistaken(book, '"8.8"', "8.8")
    (book.parent / "a.yaml").write_text("kind: joint\n\tname: x\n", encoding="utf-8")
    tight = JOINT.replace("10 N.m, 20", "200").replace("pump cover", "tight").replace("Co", "Ti")
    (book.parent / "tight.yaml").write_text(tight, encoding="utf-8")
    ran = cli("admit", "specs")
    assert ran.code == 1
    begun = [line.split(" ")[:2] for line in ran.out.splitlines() if line.startswith("specs")]
    assert begun == [
        ["specs/joints/example/a.yaml:2:1:", "STOP"],
        ["specs/joints/example/pump-cover.yaml:5:42:", "STOP"],
        ["specs/joints/example/tight.yaml:8:16:", "ASK"],
        ["specs/joints/example/tight.yaml:10:10:", "STOP"],
    ]
    assert '8.8 is read as the number 8.8 -> write "8.8"' in " ".join(ran.out.split())
    assert all(len(line) <= 80 for line in ran.out.splitlines())


def test_what_only_wants_quotes_is_judged_too(book: Path, cli: Runner) -> None:
    """Missing quotes hide nothing else, and nothing moves by the quotes that are not there."""
    mistaken(book, 'strength_class: "8.8", head: "hexagon"', 'strength_class: 8.8, head: "hexgon"')
    mistaken(book, '"1-3-2-4"', '"1-3-2"')
    said = [line for line in cli("admit", "specs").out.splitlines() if line.startswith("specs")]
    place = "specs/joints/example/pump-cover.yaml"
    assert [line.split(" ")[0] for line in said] == [
        f"{place}:5:42:", f"{place}:5:53:", f"{place}:11:8:",
    ]  # fmt: skip
    assert book.read_text(encoding="utf-8").splitlines()[4][52:].startswith('"hexgon"')


@pytest.mark.parametrize(
    ("fail_on", "code"), [("stop", 0), ("ask", 1), ("note", 1), ("never", 0), (None, 1)]
)
def test_what_fails(book: Path, cli: Runner, fail_on: str | None, code: int) -> None:
    """A question fails too, if nothing else is said: what goes green is settled."""
    mistaken(book, JOINT.split("\n", 1)[0] + "\n", "")
    words = () if fail_on is None else ("--fail-on", fail_on)
    ran = cli("admit", *words, "specs")
    assert ran.code == code
    assert "ASK the first line names no schema" in ran.out


@pytest.mark.parametrize("form", FORMATS)
def test_every_format_into_a_file(book: Path, cli: Runner, form: str) -> None:
    """What is written to a file is what is written to standard output."""
    mistaken(book, "count: 4", "count: 0")
    shown = cli("admit", "--format", form, "specs")
    ran = cli("admit", "--format", form, "--out", "found", "specs")
    assert (ran.code, ran.out, ran.err) == (1, "", "torquebook: written into found\n")
    assert Path("found").read_text(encoding="utf-8") == shown.out
    assert "value-outside" in shown.out
    if form in ("json", "sarif"):
        json.loads(shown.out)
    elif form == "junit":
        ET.fromstring(shown.out)  # noqa: S314 - our own


def told_of(cli: Runner, form: str) -> list[str]:
    """Return the files of the findings, run from inside the folder of records."""
    out = cli("admit", "--format", form, "joints").out
    if form == "github":
        return re.findall(r"^::\w+ file=([^,]*),", out, re.MULTILINE)
    found = json.loads(out)["runs"][0]["results"]
    places = (one["locations"][0]["physicalLocation"]["artifactLocation"] for one in found)
    return [place["uri"] for place in places]


@pytest.mark.parametrize("form", ["github", "sarif"])
def test_annotations_point_from_the_top_of_the_repository(
    book: Path, cli: Runner, form: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A CI shows them beside lines only so: by its own word, else by the folder of git."""
    mistaken(book, "count: 4", "count: 0")
    top, name = Path.cwd(), book.relative_to(Path.cwd()).as_posix()
    monkeypatch.delenv("GITHUB_WORKSPACE")
    monkeypatch.chdir("specs")
    assert told_of(cli, form) == [name.removeprefix("specs/")]
    (top / ".git").write_text("gitdir: elsewhere\n", encoding="utf-8")  # as in a second work tree
    assert told_of(cli, form) == [name]
    (top / "linked").symlink_to(top)
    monkeypatch.setenv("GITHUB_WORKSPACE", str(top / "linked" / "specs"))
    assert told_of(cli, form) == [name.removeprefix("specs/")]
    assert book.name in cli("admit", "joints").out.replace("\n", "")


def test_json_is_a_format(book: Path, cli: Runner) -> None:
    """``--json`` is the option of every command."""
    assert book.exists()
    said = cli("admit", "--format", "json", "specs").out
    assert cli("admit", "--json", "specs").out == said
    assert cli("admit", "--json", "--format", "json", "specs").out == said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "no PATH: name a file or folder of records"),
        (("nowhere",), "nowhere: no such file or folder; name a file or folder of records"),
        (("empty",), "empty: no records there; records end in .yaml"),
        (("--format", "xml", "specs"), "'xml' is not one of"),
        (("--changed-since", "HEAD", "specs"), "git says:"),
        (("--new", "bolt"), '"bolt": no kind of record; write'),
        (("",), "no PATH: name a file or folder of records"),
        (("--changed-since", "HEAD", ""), "no PATH: name a file or folder of records"),
        (("--changed-since", "", "specs"), "git says:"),
        (("--new", ""), '"": no kind of record; write'),
        (("--new", "joint", "specs"), "--new takes no PATH"),
        (
            ("--new", "joint", "--format", "text", "--fix"),
            "--new takes no --fix and no --format",
        ),
        (("--new", "joint", "--json"), "--new takes no --json"),
        (("--new", "joint", "--changed-since", "main"), "--new takes no --changed-since"),
        (
            ("--json", "--format", "github", "specs"),
            "--json is --format json; leave it or --format github out",
        ),
        (("--out", "no/such/folder", "specs"), "there is no folder no/such; make it first"),
        (
            ("--new", "joint", "--out", "specs/joints/example/pump-cover.yaml/x.yaml"),
            "cannot be made",
        ),
    ],
)
def test_what_cannot_be_used(book: Path, cli: Runner, words: tuple[str, ...], said: str) -> None:
    """A command line that leads nowhere ends in 2 and one message."""
    assert book.exists()
    Path("empty").mkdir()
    ran = cli("admit", *words)
    assert ran.code == 2
    assert said in " ".join(ran.err.split())
    assert ran.err.startswith("torquebook: ")


def committed() -> None:
    """Make the current folder a repository with all that is in it."""
    for words in (("init", "-q"), ("add", "."), ("commit", "-q", "-m", "x")):
        person = ("-c", "user.name=a", "-c", "user.email=a@example.org")
        command = ["git", *person, *words]
        subprocess.run(command, check=True)


def test_changed_since(book: Path, cli: Runner) -> None:
    """Only what changed is looked at, but against all names; nothing changed is clean."""
    (book.parent / "old.yaml").write_text("kind: none\n", encoding="utf-8")
    committed()
    ran = cli("admit", "--changed-since", "HEAD", "specs")
    assert (ran.code, ran.out.splitlines()[0]) == (0, "nothing found in 0 files")
    assert ran.err == "torquebook: nothing differs from HEAD\n"
    shutil.copy(book, book.parent / "pump.yaml")
    ran = cli("admit", "--changed-since", "HEAD", "specs")
    assert (ran.code, ran.err) == (1, "")
    assert '"pump cover" stands in joints/example/pump-cover already' in " ".join(ran.out.split())
    assert "old.yaml" not in ran.out


def test_fix(book: Path, cli: Runner) -> None:
    """What is purely mechanical is mended before it is looked at, and that is said."""
    mistaken(book, '"8.8"', "8.8")
    mistaken(book, 'name: "pump cover"\n', "")
    mistaken(book, "count: 4\n", 'count: 4\nname: "pump cover"\n')
    ran = cli("admit", "--fix", "specs")
    assert ran.code == 0
    assert "specs/joints/example/pump-cover.yaml" in ran.err
    assert book.read_text(encoding="utf-8") == JOINT
    assert cli("admit", "--fix", "specs").err == ""


def test_fix_leaves_alone_what_others_wrote(book: Path, cli: Runner) -> None:
    """With ``--changed-since`` only what was changed is mended, not what depends on it."""
    job = Path("specs/jobs/overhaul.yaml")
    job.parent.mkdir()
    job.write_text(UNTIDY_JOB, encoding="utf-8")
    committed()
    mistaken(book, "count: 4", "count: 6")
    ran = cli("admit", "--fix", "--changed-since", "HEAD", "specs")
    assert ran.code == 1
    assert str(job) in ran.out
    assert ran.err == ""
    assert job.read_text(encoding="utf-8") == UNTIDY_JOB


def test_fix_goes_on_behind_a_file_that_cannot_be_written(
    book: Path, cli: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is named, nothing is left beside it, the others are mended, and the run ends in 2."""
    mistaken(book, '"8.8"', "8.8")
    other = book.parent / "tight.yaml"
    shutil.copy(book, other)
    mistaken(other, "pump cover", "tight")
    mistaken(other, "Cover of", "Tight")
    spoilt, replace = book.read_bytes(), os.replace

    def refuse(old: str, new: str) -> None:
        if str(new).endswith(book.name):
            raise OSError(28, "No space left on device")
        replace(old, new)

    monkeypatch.setattr(os, "replace", refuse)
    ran = cli("admit", "--fix", "specs")
    assert ran.code == 2
    assert "pump-cover.yaml: cannot be written (No space left on device)" in " ".join(
        ran.err.split()
    )
    assert "8.8 is read as the number 8.8" in " ".join(ran.out.split())
    assert book.read_bytes() == spoilt
    assert 'strength_class: "8.8"' in other.read_text(encoding="utf-8")
    assert sorted(path.name for path in book.parent.iterdir()) == [book.name, other.name]


@pytest.mark.parametrize("path", ["specs", "./specs", "specs//", "."])
@pytest.mark.parametrize("whole", [True, False])
def test_a_file_has_one_name_however_it_is_asked_for(
    book: Path, cli: Runner, path: str, *, whole: bool
) -> None:
    """What is found in it stands under its name, also what the list of a job shows of a joint."""
    steps = ""
    for name, torque in (("a", "15.8"), ("b", "16"), ("c", "16.2"), ("d", "16.4"), ("e", "16.6")):
        text = JOINT.replace("pump cover", name).replace("10 N.m, 20 N.m", f"{torque} N.m")
        (book.parent / f"{name}.yaml").write_text(text, encoding="utf-8")
        steps += f"  - joint: joints/example/{name}\n"
    mistaken(book, "10 N.m, 20 N.m", "23 N.m")
    job = Path("specs/jobs/overhaul.yaml")
    job.parent.mkdir()
    job.write_text(UNTIDY_JOB.replace("steps:\n", f"steps:\n{steps}"), encoding="utf-8")
    start = Path.cwd() if whole else Path()
    asked = f"{start}/{path}" if whole else path
    (row,) = (
        f
        for f in json.loads(cli("admit", "--json", asked).out)["findings"]
        if f["rule"] == "wrong-row"
    )
    assert row["file"] == str(start / book.relative_to(Path.cwd()))
    suite = ET.fromstring(cli("admit", "--format", "junit", asked).out)  # noqa: S314 - our own
    assert len(suite) == 7
    cases = {case.get("name"): len(case) for case in suite}
    assert cases[row["file"]] == 1


def test_a_new_record(book: Path, cli: Runner) -> None:
    """A template goes where it is told, with the way to its schema, and is refused unfilled."""
    assert book.exists()
    out = "specs/joints/example/engine/sump.yaml"
    assert cli("admit", "--new", "joint", "--out", out).code == 0
    text = Path(out).read_text(encoding="utf-8")
    assert text.startswith("# yaml-language-server: $schema=../../../../schema/joint.json\n")
    assert cli("admit", out).code == 1
    ran = cli("admit", "--new", "joint", "--out", out)
    assert ran.code == 2
    assert "is there already" in ran.err
    assert cli("admit", "--new", "printed table").out.startswith("# yaml-language-server")


def test_our_own_book(cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Our own book passes, by itself and as a copy."""
    assert cli("admit", str(specs_root())).code == 0
    shutil.copytree(specs_root(), tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    assert cli("admit", "specs").code == 0


def test_many_files_use_all_processors(
    book: Path, cli: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is found does not hang on how many processes look."""
    for number in range(40):
        text = JOINT.replace("pump cover", f"pump cover {number}").replace("count: 4", "count: 3")
        (book.parent / f"pump-cover-{number}.yaml").write_text(text, encoding="utf-8")
    alone = cli("admit", "specs")
    monkeypatch.setattr("torquebook.rules.admission.MANY", 2)
    monkeypatch.setattr("threading.active_count", lambda: 1)
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    assert cli("admit", "specs") == alone
    assert alone.code == 1


def test_a_long_look_shows_how_far_it_is(
    book: Path, cli: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On a terminal a bar goes to standard error; what is found is the same."""
    assert book.exists()
    plain = cli("admit", "specs")
    monkeypatch.setattr("torquebook.cli.admit.LONG", 1)
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    ran = cli("admit", "specs")
    assert ran.out == plain.out
    assert "looked at" in ran.err
