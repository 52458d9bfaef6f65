"""What the tests of the commands share: a way to run one, and golden files by name."""

from __future__ import annotations

from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, Protocol

import pytest

from torquebook.cli import run

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

    def __call__(self, *words: str, given: str = "") -> Ran:
        """Run it, with what is typed into it."""


@pytest.fixture
def cli(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Runner:
    """Run a command in this process, from the folder of the golden files."""
    monkeypatch.delenv("TORQUEBOOK_PATH", raising=False)
    monkeypatch.delenv("TORQUEBOOK_DEBUG", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(GOLDEN)

    def ran(*words: str, given: str = "") -> Ran:
        capsys.readouterr()
        if given:
            monkeypatch.setattr("sys.stdin", StringIO(given))
        code = run(words)
        written = capsys.readouterr()
        return Ran(int(code), written.out, written.err)

    return ran


@pytest.fixture
def golden(same_as_golden: Callable[[Path, str], None]) -> Callable[[str, str], None]:
    """Compare a text with the golden file of a name."""
    return lambda name, text: same_as_golden(GOLDEN / name, text)
