"""``torquebook job record``: a record shown, verified, exported, ticked and signed."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from torquebook.catalogue.library import Library
from torquebook.cli.command import Command, book_option, every_folder, open_book
from torquebook.cli.job import SUBCOMMANDS
from torquebook.jobs.keeping import chosen, kept, records_folder
from torquebook.jobs.report import report_of, signing, ticking, write_to
from torquebook.jobs.session import hand_here
from torquebook.jobs.working import work_out
from torquebook.render import kept as listing
from torquebook.render import record as render
from torquebook.render import terminal
from torquebook.render.data import json_text
from torquebook.render.paper import Paper
from torquebook.render.recordpage import page

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.jobs.model import WorkedJob
    from torquebook.jobs.report import Report

HELP = f"""{SUBCOMMANDS["record"]}

RECORD is its file, or a job that has one record only; without it the records are listed. Every
line is held against the one before: one that was edited, taken out or put in is named, and ends
in exit code 2."""


@click.command(
    "record",
    cls=Command,
    help=HELP,
    examples=(
        "job record",
        "job record brigade-overhaul --format html --out record.html",
        'job record brigade-overhaul --done "front wheels retorque"',
        'job record brigade-overhaul --sign "A. Miller"',
    ),
)
@click.argument("record", default="")
@click.option(
    "--format", "form", type=click.Choice(("text", "html", "csv", "json")), default="text",
    help="Of the answer.",
)  # fmt: skip
@click.option("--out", default="", metavar="FILE", help="Where to write it.")
@click.option("--done", default="", metavar="WORDS", help="Tick what was due to be looked at.")
@click.option("--sign", default="", metavar="NAME", help="Sign it off, if no step is open.")
@book_option
@click.option("--json", "as_json", is_flag=True, help="As --format json.")
@click.option("--ascii", "plain", is_flag=True, help="Plain ASCII: N.m, +/-, deg.")
def command(
    record: str,
    form: str,
    out: str,
    done: str,
    sign: str,
    folders: tuple[str, ...],
    *,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, look up, write, render."""
    every = kept(records_folder(os.environ))
    if not record:
        if done or sign or out:
            raise click.UsageError("name a record")
        terminal.answer(every, listing, as_json=as_json or form == "json", plain=plain)
        return
    path = chosen(every, record)
    worked = _worker(folders)
    if done:
        write_to(path, hand_here(), lambda report: ticking(report, done), worked)
    if sign:
        write_to(path, hand_here(), lambda report: signing(report, sign), worked)
    _show(report_of(path, worked), "json" if as_json else form, out, plain=plain)


def _worker(folders: tuple[str, ...]) -> Callable[[str], WorkedJob]:
    """Return what works a job out by its id or file."""
    library = Library([Path(folder) for folder in every_folder(folders)])
    book = open_book(folders)
    return lambda text: work_out(library, book, text)


def _show(report: Report, form: str, out: str, *, plain: bool) -> None:
    """Write a record in its form, to standard output or to a file."""
    if form == "html":
        written = page(report)
    elif form == "csv":
        written = render.table(report)
    elif form == "json":
        written = json_text(render.data(report))
    else:
        sheet = terminal.paper(plain=plain) if not out else Paper(plain=plain)
        render.text(report, sheet)
        written = str(sheet)
    if not out:
        terminal.show(written)
        return
    terminal.save(out, written)
    terminal.show(f"{terminal.paper(plain=plain).said(out)} is written\n")
