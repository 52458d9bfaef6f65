"""``torquebook quiz mark``: a class's answers held against the key of their sheets."""

from __future__ import annotations

import os
import stat

import click

from torquebook.cli.command import command as make
from torquebook.cli.exits import Exit
from torquebook.cli.quiz import QUIZ_HELPS, check_out
from torquebook.errors import Unreadable
from torquebook.plans.intake import STDIN_NAME
from torquebook.quiz.answerlist import read_answers
from torquebook.quiz.keyfile import read_key
from torquebook.quiz.marking import mark
from torquebook.quiz.standing import refuse_held
from torquebook.render import terminal
from torquebook.render.cells import csv_text
from torquebook.render.quizdata import marks as render
from torquebook.render.quizdata.marksheet import marks_markdown

HELP = f"""{QUIZ_HELPS["mark"]}

ANSWERS is the mark list, filled in: a CSV or a workbook with a row for each apprentice and a
column for each question, as it was written with the sheets. Copy what stands on the sheet: "b",
"47.2", "47,2 Nm", "1-3-2-4"; leave out what was left out, and write "x" for what is wrong
whatever it says. What cannot be read is listed, never counted as wrong, and ends in exit code 1."""


@make(
    help=HELP,
    examples=(
        "quiz mark answers.csv --key key.json",
        "quiz mark answers.csv --key key.json --format csv --out marks.csv",
    ),
)
@click.argument("answers")
@click.option(
    "--key", required=True, metavar="FILE", help="The key written with the sheets (JSON)."
)
@click.option(
    "--format",
    "form",
    type=click.Choice(("text", "markdown", "csv", "json")),
    default="text",
    help="Of the answer.",
)
@click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
def command(answers: str, key: str, form: str, out: str, *, as_json: bool, plain: bool) -> Exit:
    """Read both, mark, render."""
    if answers == key == "-":
        raise click.UsageError("standard input is either the answers or the key")
    check_out(out)
    for source in (answers, key) if out else ():
        if _is_same(source, out):
            name = STDIN_NAME if source == "-" else source
            what = f"the marks would be written over {name}"
            raise Unreadable(out, what, "name another --out")
    refuse_held(out)
    found = mark(read_key(key), read_answers(answers))
    as_json = as_json or form == "json"
    if as_json or form == "text":
        terminal.answer(found, render, as_json=as_json, plain=plain, out=out)
    elif form == "markdown":
        terminal.deliver(marks_markdown(found), out, plain=plain)
    else:
        terminal.deliver(csv_text(render.rows(found)), out, plain=plain)
        for said in (*render.messages(found.problems), *render.shown(found.notes)):
            terminal.complain(said, plain=plain)
    return Exit.FINDINGS if found.problems else Exit.CLEAN


def _is_same(source: str, out: str) -> bool:
    """Return whether a source, or the file behind standard input, is what would be written."""
    try:
        held = os.fstat(0) if source == "-" else os.stat(source)  # noqa: PTH116 - as it was named
        return stat.S_ISREG(held.st_mode) and os.path.samestat(held, os.stat(out))  # noqa: PTH116 - a path is text here
    except (OSError, ValueError):  # one of them is no file
        return False
