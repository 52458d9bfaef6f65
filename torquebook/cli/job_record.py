"""``torquebook job record``: a record shown, verified, exported, ticked and signed."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from torquebook.cli.command import book_option
from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, opened
from torquebook.jobs.keeping import chosen, kept, records_folder, take_in
from torquebook.jobs.report import report_of, signing, ticking, write_to
from torquebook.jobs.session import hand_here
from torquebook.render import kept as listing
from torquebook.render import record as render
from torquebook.render import terminal
from torquebook.render.cells import csv_text
from torquebook.render.recordpage import page

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.jobs.model import WorkedJob

HELP = f"""{JOB_HELPS["record"]}

RECORD is its file, or a job that has one record only, or one for the vehicle that --for names;
without it the records are listed. Every
line is held against the one before: one that was edited by itself, taken out between others or
put in is named, and ends in exit code 2. Lines cut off the end are not noticed: the
record then stands as it was before them, as a rule open and unsigned."""


@make(
    help=HELP,
    examples=(
        "job record",
        "job record brigade-overhaul --format html --out record.html",
        'job record brigade-overhaul --done "front wheels retorque"',
        'job record brigade-overhaul --for "tanker 2" --sign "A. Miller"',
    ),
)
@click.argument("record", default="")
@click.option("--for", "vehicle", default="", metavar="TEXT", help="Which vehicle's record.")
@click.option(
    "--format",
    "form",
    type=click.Choice(("text", "html", "csv", "json")),
    default="text",
    help="Of the answer.",
)
@click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
@click.option("--done", default="", metavar="WORDS", help="Tick what was due to be looked at.")
@click.option("--sign", default="", metavar="NAME", help="Sign it off, if no step is open.")
@click.option("--import", "take", is_flag=True, help="Take in RECORD, as a phone exported it.")
@book_option
def command(
    record: str,
    vehicle: str,
    form: str,
    out: str,
    done: str,
    sign: str,
    folders: Sequence[str],
    *,
    take: bool,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, look up, write, render."""
    folder, hand = records_folder(os.environ), hand_here()
    as_json = as_json or form == "json"
    if not record:
        if vehicle or done or sign or take or form not in {"text", "json"}:
            raise click.UsageError("name a record")
        terminal.answer(kept(folder), listing, as_json=as_json, plain=plain, out=out)
        return
    if take and vehicle:
        raise click.UsageError("--import takes a file, which says itself what it is --for")
    if take:
        path = take_in(Path(record), folder, hand.holder())
    else:
        path = chosen(kept(folder), record, vehicle)

    def worked(job: str) -> WorkedJob:
        return opened(job, (), "", folders)[0]

    if done:
        write_to(path, hand, lambda report: ticking(report, done), worked)
    if sign:
        write_to(path, hand, lambda report: signing(report, sign), worked)
    report = report_of(path, worked)
    if form == "html":
        terminal.deliver(page(report), out, plain=plain)
    elif form == "csv":
        terminal.deliver(csv_text(render.rows(report)), out, plain=plain)
    else:
        terminal.answer(report, render, as_json=as_json, plain=plain, out=out)
