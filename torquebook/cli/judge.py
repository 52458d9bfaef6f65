"""``torquebook judge``: the validator."""

from __future__ import annotations

import gc
import os.path
from pathlib import PurePath
from typing import TYPE_CHECKING

import click

from torquebook.cli.command import book_option, open_book
from torquebook.cli.command import command as make
from torquebook.cli.exits import Exit
from torquebook.cli.program import HELPS
from torquebook.errors import Unreadable
from torquebook.findings import Severity
from torquebook.plans.reading import read_line, read_plan
from torquebook.render import judge as render
from torquebook.render import terminal
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from collections.abc import Iterable

    from torquebook.plans.model import Plan
    from torquebook.rules.judge import Verdict

HELP = f"""{HELPS["judge"]}

PLAN is a CSV, XLSX, YAML or JSON file, "-" for standard input, or one line in quotes:
thread, class, how to tighten, and column=value for all else. A plan needs no more than
the column "tighten"; what it does not say is assumed, and the answer says so."""

NEVER = "never"
SUFFIXES = frozenset((".csv", ".tsv", ".tab", ".txt", ".xlsx", ".xlsm", ".yaml", ".yml", ".json"))


@make(
    help=HELP,
    examples=(
        "judge overhaul.csv",
        'judge "M10x1.25 10.9 60 N.m friction=oiled"',
        "judge --fail-on ask --json front.csv rear.xlsx",
    ),
)
@click.argument("plans", nargs=-1, required=True, metavar="PLAN...")
@click.option(
    "--fail-on",
    type=click.Choice([*(severity.word for severity in Severity), NEVER]),
    default=Severity.STOP.word,
    show_default=True,
    help="The least severity that ends in exit code 1.",
)
@book_option
def command(
    plans: tuple[str, ...], fail_on: str, folders: tuple[str, ...], *, as_json: bool, plain: bool
) -> Exit:
    """Parse, judge, render; a plan that cannot be read does not keep the others waiting."""
    gc.enable()
    book = open_book(folders)
    verdicts: list[Verdict] = []
    unreadable = False
    for text in plans:
        try:
            verdicts.append(judge(_plan(text), book))
        except Unreadable as trouble:
            unreadable = True
            terminal.complain(str(trouble), plain=plain)
    if verdicts or (as_json and len(plans) > 1):
        answer = render.Judged(tuple(verdicts), len(plans))
        terminal.answer(answer, render, as_json=as_json, plain=plain)
    for verdict in verdicts if as_json else ():
        for remark in render.remarks(verdict.plan):
            terminal.complain(f"{verdict.plan.name}: {remark}", plain=plain)
    if unreadable:
        return Exit.UNUSABLE
    return Exit.FINDINGS if _fails(verdicts, fail_on) else Exit.CLEAN


def _plan(text: str) -> Plan:
    """Read what an argument stands for: standard input, a file, or one line."""
    if text == "-" or os.path.exists(text):  # noqa: PTH110 - a line may be no path at all
        return read_plan(text)
    one_word = not any(character.isspace() for character in text.strip())
    if PurePath(text).suffix.lower() in SUFFIXES or (one_word and "/" in text):
        return read_plan(text)
    try:
        return read_line(text)
    except Unreadable as trouble:
        if not one_word:
            raise
        right = 'name a file, or put a whole line in quotes: "M10 8.8 44 N.m"'
        raise Unreadable(text, "no such file, and no line of a plan", right) from trouble


def _fails(verdicts: Iterable[Verdict], fail_on: str) -> bool:
    if fail_on == NEVER:
        return False
    least = Severity[fail_on.upper()]
    return any(finding.severity <= least for verdict in verdicts for finding in verdict.findings)
