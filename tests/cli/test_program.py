"""The program: its commands, their helps, and what is imported for each."""

from __future__ import annotations

import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import click
import pytest

from torquebook.cli.exits import Exit
from torquebook.cli.job import JOB_HELPS
from torquebook.cli.program import HELPS, program
from torquebook.cli.quiz import QUIZ_HELPS

if TYPE_CHECKING:
    from conftest import Runner

ROOT = Path(__file__).resolve().parents[2]
HEAVY = ("pydantic", "jsonschema_rs", "yaml", "tabulate", "importlib.metadata", "openpyxl")
BENCH = {
    "size": ["size", "M10x1.25", "10.9"],
    "convert": ["convert", "5.5 kgf.m", "N.m"],
    "torque": ["torque", "M10", "8.8", "--torque", "45 N.m"],
    "look": ["look", "clutch", "cover"],
    "wrench": ["wrench", "40 lbf.ft", "--length", "12in", "--extension", "4in"],
}


@pytest.mark.parametrize("name", HELPS)
def test_group_help_is_each_commands_own_first_line(name: str) -> None:
    """The static help of the group equals the first line of the command's help."""
    command = import_module(f"torquebook.cli.{name}").command
    assert isinstance(command, click.Command)
    assert (command.help or "").splitlines()[0] == HELPS[name]


def test_every_command_module_is_listed() -> None:
    """No module that makes a command is missing from the program."""
    folder = Path(import_module("torquebook.cli").__path__[0])
    made = re.compile(r"^(?:@make\(|command: Final = )", re.MULTILINE)
    makes = {path.stem for path in folder.glob("*.py") if made.search(path.read_text())}
    below = {*(f"job_{name}" for name in JOB_HELPS), *(f"quiz_{name}" for name in QUIZ_HELPS)}
    assert makes == {*HELPS, *below}


@pytest.mark.parametrize("name", JOB_HELPS)
def test_help_of_a_jobs_command(name: str, cli: Runner) -> None:
    """The commands of a job have a help of their own, as the others do."""
    command = import_module(f"torquebook.cli.job_{name}").command
    assert (command.help or "").splitlines()[0] == JOB_HELPS[name]
    ran = cli("job", name, "--help")
    assert f"torquebook job {name}" in ran.out.partition("Examples:")[2]
    assert max(map(len, ran.out.splitlines())) <= 80


@pytest.mark.parametrize("name", HELPS)
def test_help_has_examples_that_fit_and_exit_codes(name: str, cli: Runner) -> None:
    """Every help shows an example and all exit codes, in 80 columns of ASCII."""
    ran = cli(name, "--help")
    assert ran.code == Exit.CLEAN
    assert f"torquebook {name}" in ran.out.partition("Examples:")[2]
    assert all(f"{code.value}  {code.meaning}" in ran.out for code in Exit)
    assert ran.out.isascii()
    assert max(map(len, ran.out.splitlines())) <= 80


def test_no_words_show_the_help(cli: Runner) -> None:
    """Without a command the help is shown, and that is no mistake."""
    assert cli() == cli("--help")
    assert cli().code == Exit.CLEAN


def test_version(cli: Runner) -> None:
    """The version is one line."""
    import torquebook  # noqa: PLC0415 - read where it is compared

    assert cli("--version").out == f"torquebook {torquebook.__version__}\n"


def test_unknown_command_offers_what_looks_alike(cli: Runner) -> None:
    """A mistyped command is answered with the command that was meant."""
    ran = cli("jugde", "plan.csv")
    assert ran.code == Exit.UNUSABLE
    assert ran.out == ""
    assert 'no command "jugde"; write judge' in ran.err


def test_get_command_knows_no_other_names() -> None:
    """A module of the package that is no command cannot be run as one."""
    context = click.Context(program)
    assert program.get_command(context, "exits") is None
    assert program.list_commands(context) == list(HELPS)


@pytest.mark.parametrize("name", BENCH)
def test_bench_commands_import_nothing_heavy(name: str) -> None:
    """Commands for the bench load no validator, no parser and no other command."""
    code = (
        "import sys; from torquebook.cli import run; code = run(sys.argv[1:]); "
        "sys.stderr.write(' '.join(sys.modules)); sys.exit(code)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *BENCH[name]],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    loaded = set(done.stderr.split())
    others = {f"torquebook.cli.{other}" for other in HELPS if other != name}
    assert f"torquebook.cli.{name}" in loaded
    assert not loaded & (others | set(HEAVY))
    assert not {module for module in loaded if module.startswith("torquebook.rules")}


def test_run_as_a_module() -> None:
    """``python -m torquebook`` is the same program."""
    command = [sys.executable, "-m", "torquebook", "convert", "12 lbf.in", "lbf.ft"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
    assert done.stdout.decode() == "12 lbf·in = 1 lbf·ft\n"
