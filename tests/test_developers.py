"""The developers' guide shows records that the models take."""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
from itertools import pairwise
from pathlib import Path
from typing import get_args

import click
import pytest
import yaml
from first_faults import read_folder

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.catalogue.mending import mended
from torquebook.catalogue.reading import vet_text
from torquebook.cli import run
from torquebook.cli.admit import command as admit
from torquebook.findings import Severity
from torquebook.records.base import Source, SourceKind
from torquebook.records.job import JobRecord
from torquebook.records.joint import Fastener, JointRecord
from torquebook.rules.admitting import Vetting
from torquebook.rules.judge_records import judged

ROOT = Path(__file__).parents[1]
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
RECORDS = re.findall(r"```yaml\n(# yaml-language-server[\s\S]*?)```", GUIDE)
SETTINGS = re.findall(r"```yaml\n((?!# yaml-language-server)[\s\S]*?)```", GUIDE)
HOOKS = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder that holds the guide's records, each in the file that it names."""
    root = tmp_path_factory.mktemp("guide")
    for text in RECORDS:
        (name,) = re.findall(r"^kind: .*# (\S+\.yaml)$", text, re.MULTILINE)
        (root / name).parent.mkdir(parents=True)
        (root / name).write_text(text, encoding="utf-8")
    return root


@pytest.mark.parametrize("text", RECORDS)
def test_example_records_are_sound(text: str) -> None:
    """No record in the guide has a fault, and there is nothing to mend in it."""
    record, faults = vet_text(text, "DEVELOPERS.md")
    assert faults == ()
    assert record is not None
    assert mended(text, "DEVELOPERS.md") == (text, (), ())


def test_example_records_are_admitted(folder: Path) -> None:
    """No record in the guide draws a stop or a question."""
    files = sorted(folder.rglob("*.yaml"))
    assert len(files) == len(RECORDS) == 3
    vetting = Vetting()
    found = [finding for path in files for finding in vetting.look(str(path))]
    assert [f"{f.place}: {f.message}" for f in found if f.severity != Severity.NOTE] == []


def test_the_example_becomes_a_row(folder: Path) -> None:
    """The record of friction in the guide becomes a row of its shelf."""
    assert len(read_folder(folder)["frictions"]) == 1


def test_the_example_of_a_job_is_clean(folder: Path) -> None:
    """The guide's joint and job are judged without a question."""
    library = Library([folder])
    job = library.one("jobs", JobRecord, "jobs/example/pump")
    verdict = judged(job, Book.open([folder]), library)
    assert len(verdict.answers) == 1
    assert [(f.rule, f.message) for f in verdict.findings if f.severity != Severity.NOTE] == []


def test_the_example_of_a_joint_names_every_key() -> None:
    """In the guide's joint each key of a joint stands, in force or behind a #."""
    joint = next(text for text in RECORDS if "kind: joint" in text)
    named = set(re.findall(r"^ *(?:# )?(\w+):", joint, re.MULTILINE))
    assert named >= {*JointRecord.model_fields, *Fastener.model_fields, *Source.model_fields}


def test_examples_for_other_repositories() -> None:
    """The hook that the guide names is there, and the workflow is one that others can call."""
    hooks, workflow = map(yaml.safe_load, SETTINGS)
    (hook,) = yaml.safe_load(HOOKS)
    assert hooks["repos"][0]["hooks"] == [{"id": hook["id"], "args": hook["args"]}]
    assert "folder" in workflow[True]["workflow_call"]["inputs"]  # YAML 1.1 reads "on" as true
    steps = workflow["jobs"]["admit"]["steps"]
    assert steps[0]["with"] == {"fetch-depth": 0}
    assert [step["uses"].partition("@")[0] for step in steps if "uses" in step] == [
        "actions/checkout",
        "actions/setup-python",
        "github/codeql-action/upload-sarif",
    ]
    written = {word for step in steps for word in step.get("run", "").split()}
    assert steps[-1]["with"]["sarif_file"] in written


@pytest.mark.parametrize("base", ["main", ""])
def test_the_workflow_looks_at_all_that_was_pushed(base: str, tmp_path: Path) -> None:
    """Of a pull request it looks at what changed since its base, else at every record."""
    job = yaml.safe_load(SETTINGS[1])["jobs"]["admit"]
    assert job["env"]["BASE"] == "${{ github.base_ref }}"  # what GitHub sets for pull requests only
    program = tmp_path / "torquebook"
    program.write_text('#!/bin/sh\nprintf "%s\\n" "$*"\n', encoding="utf-8")
    program.chmod(0o755)
    path = f"{tmp_path}{os.pathsep}{os.environ['PATH']}"
    told = {"PATH": path, "BASE": base, "FOLDER": "my specs", "GITHUB_STEP_SUMMARY": "page"}
    steps = [step["run"] for step in job["steps"] if "torquebook admit" in step.get("run", "")]
    since = f"--changed-since origin/{base} " if base else ""
    commands = [["bash", "-e", "-c", step] for step in steps]
    runs = [
        subprocess.run(command, env=told, check=True, capture_output=True, text=True)
        for command in commands
    ]
    assert [ran.stdout for ran in runs] == [
        f"admit {since}--format github my specs\n",
        f"admit {since}--fail-on never --format sarif --out admit.sarif my specs\n",
        f"admit {since}--fail-on never --format markdown --out page my specs\n",
    ]


@pytest.fixture
def shop(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in a repository with the guide's records; return the file of its joint."""
    shutil.copytree(folder, tmp_path / "shop" / "specs")
    monkeypatch.chdir(tmp_path / "shop")
    git("init", "--quiet")
    git("add", ".")
    git("commit", "--quiet", "--message=records")
    (joint,) = Path("specs/joints").rglob("*.yaml")
    return joint


def git(*words: str) -> None:
    """Run git in the current folder."""
    person = ("-c", "user.name=a", "-c", "user.email=a@example.org")
    command = ["git", *person, *words]
    subprocess.run(command, check=True)


def hooked(capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    """Run the hook as it is run at a commit; return exit code and outputs."""
    (hook,) = yaml.safe_load(HOOKS)
    assert hook["language"] == "python"
    assert hook["always_run"] is True
    assert hook["pass_filenames"] is False
    program, *words = [*shlex.split(hook["entry"]), *hook["args"]]
    assert program == "torquebook"
    code = run(words)
    written = capsys.readouterr()
    return int(code), " ".join(written.out.split()), written.err


def test_the_hook_looks_at_what_changed(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A changed joint and the job that names it are looked at, and no more."""
    text = shop.read_text(encoding="utf-8")
    shop.write_text(text.replace("count: ", "count: 0"), encoding="utf-8")
    code, out, _ = hooked(capsys)
    assert code == 1
    assert f"{shop}:" in out
    assert "in 2 files" in out


def test_the_hook_sees_what_was_taken_out(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A joint that is gone is missed by the job that names it."""
    git("rm", "--quiet", str(shop))
    code, out, _ = hooked(capsys)
    assert code == 1
    assert re.search(r"specs/jobs/\S+:\d+:\d+: STOP", out)


def test_the_hooks_limits_are_as_the_guide_says(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """New files count before they are added; in a clean checkout there is nothing to look at."""
    assert hooked(capsys)[::2] == (0, "torquebook: nothing differs from HEAD\n")
    shutil.copy(shop, shop.with_name("again.yaml"))
    assert hooked(capsys)[0] == 1
    shutil.rmtree(".git")
    git("init", "--quiet")
    code, _, said = hooked(capsys)
    assert code == 2
    assert "git says:" in said
    shutil.rmtree("specs")
    assert hooked(capsys)[0] == 2


def test_commands_in_the_guide_are_taken() -> None:
    """Every option of `admit` in the guide and in the hook exists, with the value it is given."""
    options = {name: option for option in admit.params for name in option.opts}
    (hook,) = yaml.safe_load(HOOKS)
    steps = yaml.safe_load(SETTINGS[1])["jobs"]["admit"]["steps"]
    said = [hook["entry"], *re.findall(r"`(torquebook admit[^`]*)`", GUIDE)]
    said += [step["run"] for step in steps if "torquebook" in step.get("run", "")]
    words = [word for line in said for word in shlex.split(line)]
    assert {"--new", "--fix", "--changed-since", "--format", "--out", "--fail-on"} <= {*words}
    for word, value in pairwise([*words, ""]):
        if word.startswith("--"):
            kind = options[word].type
            assert not isinstance(kind, click.Choice) or value in kind.choices


def test_kinds_of_sources_are_all_named() -> None:
    """The guide's table lists exactly the kinds of sources that a record may have."""
    table = GUIDE.partition("What `source.kind` may be")[2].partition("\n\n`title`")[0]
    assert set(re.findall(r"^\| `([^`]*)` \|", table, re.MULTILINE)) == set(get_args(SourceKind))
