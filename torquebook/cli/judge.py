"""``torquebook judge``: the validator."""

from __future__ import annotations

import os.path
from collections import Counter
from itertools import islice
from pathlib import PurePath
from typing import TYPE_CHECKING

import click

from torquebook.cli.command import book_option, open_book
from torquebook.cli.command import command as make
from torquebook.cli.exits import Exit
from torquebook.cli.failing import collect_garbage, fail_on_option, reaches
from torquebook.cli.program import HELPS
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.findings import Severity
from torquebook.plans.reading import read_line, read_plan
from torquebook.plans.stream import stream_plan
from torquebook.render import judge as render
from torquebook.render import terminal
from torquebook.render.data import json_line
from torquebook.rules.judge import judge, judge_stream

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.plans.model import Plan
    from torquebook.plans.stream import PlanStream
    from torquebook.rules.judge import Verdict

HELP = f"""{HELPS["judge"]}

PLAN is a CSV, XLSX, YAML or JSON file, "-" for standard input, or one line in quotes:
thread, class, how to tighten, and column=value for all else. A plan needs no more than
the column "tighten"; what it does not say is assumed, and the answer says so. PLAN may
also be the record of a joint or a job, by its file or its id."""

RECORDS = ("joints/", "jobs/")  # what the id of a record begins with
BLOCK = 100  # lines that are written at once
SUFFIXES = frozenset((".csv", ".tsv", ".tab", ".txt", ".xlsx", ".xlsm", ".yaml", ".yml", ".json"))


@make(
    help=HELP,
    examples=(
        "judge overhaul.csv",
        'judge "M10x1.25 10.9 60 N.m friction=oiled"',
        "judge jobs/brigade-overhaul",
        "judge --fail-on ask --json front.csv rear.xlsx",
    ),
)
@click.argument("plans", nargs=-1, required=True, metavar="PLAN...")
@fail_on_option(Severity.STOP)
@click.option(
    "--json-lines",
    "by_line",
    is_flag=True,
    help="Answer a CSV of any length line by line, one JSON object each, the counts last.",
)
@book_option
def command(
    plans: tuple[str, ...],
    fail_on: str,
    folders: tuple[str, ...],
    *,
    by_line: bool,
    as_json: bool,
    plain: bool,
) -> Exit:
    """Parse, judge, render; a plan that cannot be read does not keep the others waiting."""
    collect_garbage()
    book = open_book(folders)
    if by_line:
        return max(_by_line(text, fail_on, book, plain=plain) for text in plans)
    verdicts: list[Verdict] = []
    unreadable = False
    for text in plans:
        try:
            verdicts.append(_record(text, book) or judge(_plan(text), book))
        except (Unreadable, NotUnderstood) as trouble:
            unreadable = True
            terminal.complain(str(trouble), plain=plain)
    if verdicts or (as_json and len(plans) > 1):
        answer = render.Judged(tuple(verdicts), len(plans))
        terminal.answer(answer, render, as_json=as_json, plain=plain)
    for verdict in verdicts if as_json else ():
        for remark in render.remarks(verdict.plan):
            terminal.complain(f"{verdict.plan.name}: {remark}", plain=plain)
    for verdict in verdicts:
        for problem in (p for line in verdict.plan for p in line.problems if p.is_no_value):
            unreadable = True
            terminal.complain(f"{problem.place}: {problem.message}", plain=plain)
    if unreadable:
        return Exit.UNUSABLE
    found = Counter(finding.severity for verdict in verdicts for finding in verdict.findings)
    return Exit.FINDINGS if reaches(found, fail_on) else Exit.CLEAN


def _by_line(text: str, fail_on: str, book: Book, *, plain: bool) -> Exit:
    """Judge a CSV as it is read, and write each line's answer at once."""
    counts = Counter[Severity]()
    invented: dict[str, None] = {}
    try:
        plan = _csv(text)
        answers = judge_stream(plan.lines, book)
        while block := tuple(islice(answers, BLOCK)):
            counts.update(finding.severity for answer in block for finding in answer.findings)
            invented |= dict.fromkeys(render.invented_wrenches(block))
            lines = ({"plan": plan.name, **render.line_data(answer)} for answer in block)
            terminal.show("".join(map(json_line, lines)))
    except Unreadable as trouble:
        terminal.complain(str(trouble), plain=plain)
        return Exit.UNUSABLE
    summary = {severity.word: counts[severity] for severity in Severity}
    last = {"plan": plan.name, "invented_wrenches": list(invented), "summary": summary}
    terminal.show(json_line(last))
    return Exit.FINDINGS if reaches(counts, fail_on) else Exit.CLEAN


def _record(text: str, book: Book) -> Verdict | None:
    """Judge the record that an argument stands for; None if it may be none."""
    if not text.lower().endswith((".yaml", ".yml")) and not text.startswith(RECORDS):
        return None
    from torquebook.catalogue.library import Library  # noqa: PLC0415 - brings the models
    from torquebook.rules.judge_records import judged, record_of  # noqa: PLC0415 - as above

    library = Library(book.folders)
    held = record_of(text, library)
    return judged(held, book, library) if held else None


def _csv(text: str) -> PlanStream:
    """Open the CSV that an argument stands for."""
    if _names_a_file(text) or _is_one_word(text):
        return stream_plan(text)
    right = "name a CSV file, or write --json in place of --json-lines"
    raise Unreadable(text, "this is one line, and --json-lines reads CSV only", right)


def _plan(text: str) -> Plan:
    """Read what an argument stands for: standard input, a file, or one line."""
    if _names_a_file(text):
        return read_plan(text)
    try:
        return read_line(text)
    except Unreadable as trouble:
        if not _is_one_word(text):
            raise
        right = 'name a file, or put a whole line in quotes: "M10 8.8 44 N.m"'
        raise Unreadable(text, "no such file, and no line of a plan", right) from trouble


def _names_a_file(text: str) -> bool:
    """Return whether an argument is a file or looks like the name of one, or is ``-``."""
    if text == "-" or os.path.exists(text):  # noqa: PTH110 - a line may be no path at all
        return True
    return PurePath(text).suffix.lower() in SUFFIXES or (_is_one_word(text) and "/" in text)


def _is_one_word(text: str) -> bool:
    return len(text.split()) <= 1
