"""What the tests of the commands share: a way to run one, and golden files by name."""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, Protocol

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.cli import run
from torquebook.jobs.journal import read_journal
from torquebook.jobs.steps import RunStep, steps_of
from torquebook.jobs.working import work_out

if TYPE_CHECKING:
    from collections.abc import Callable

GOLDEN = Path(__file__).parents[1] / "golden"


class Ran(NamedTuple):
    """How a command ended, and what it wrote."""

    code: int
    out: str
    err: str


class Runner(Protocol):
    """Runs the program with the words of a command line."""

    def __call__(self, *words: str, given: str | None = None) -> Ran:
        """Run it, with what is typed into it."""


@pytest.fixture
def cli(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Runner:
    """Run a command in this process, from the folder of the golden files."""
    monkeypatch.delenv("TORQUEBOOK_PATH", raising=False)
    monkeypatch.delenv("TORQUEBOOK_DEBUG", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(GOLDEN)

    def ran(*words: str, given: str | None = None) -> Ran:
        capsys.readouterr()
        if given is not None:
            monkeypatch.setattr("sys.stdin", io.StringIO(given))
        code = run(words)
        written = capsys.readouterr()
        return Ran(int(code), written.out, written.err)

    return ran


@pytest.fixture
def golden(same_as_golden: Callable[[Path, str], None]) -> Callable[[str, str], None]:
    """Compare a text with the golden file of a name."""
    return lambda name, text: same_as_golden(GOLDEN / name, text)


@pytest.fixture(scope="module")
def steps() -> tuple[RunStep, ...]:
    """Return the steps of the demo's job."""
    return steps_of(work_out(Library(), Book.open(), "brigade overhaul"))


class Runs(NamedTuple):
    """Ways to run a job with some keys and to show a record, and the folder of the records."""

    run: Callable[..., Ran]
    record: Callable[..., Ran]
    folder: Path

    def facts(self, name: str = "") -> list[dict[str, object]]:
        """Return the facts of the one record, or of one by its name."""
        (path,) = self.folder.glob(f"*{name}.jsonl")
        return [dict(entry.facts) for entry in read_journal(path)[0]]


@pytest.fixture
def runs(cli: Runner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Runs:
    """Run jobs whose records are kept in a folder of the test."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("TORQUEBOOK_RECORDS", raising=False)
    monkeypatch.setattr("sys.platform", "linux")

    def run(typed: str, *words: str) -> Ran:
        return cli("job", "run", "brigade-overhaul", *words, given=typed)

    def record(*words: str) -> Ran:
        return cli("job", "record", *words)

    return Runs(run, record, tmp_path / "torquebook" / "records")
