"""``torquebook job parts``."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, job_options, opened
from torquebook.jobs.parts import parts
from torquebook.render import parts as render
from torquebook.render import terminal
from torquebook.render.cells import csv_text

if TYPE_CHECKING:
    from collections.abc import Sequence


@make(
    help=JOB_HELPS["parts"],
    examples=("job parts brigade-overhaul", "job parts mine.yaml --csv --out parts.csv"),
)
@click.option("--csv", "as_csv", is_flag=True, help="Rows for a spreadsheet.")
@click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
@job_options
def command(
    job: str,
    wrenches: Sequence[str],
    unit: str,
    folders: Sequence[str],
    out: str,
    *,
    as_csv: bool,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, work out, render."""
    worked, _ = opened(job, wrenches, unit, folders)
    answer = parts(worked)
    if as_csv:
        terminal.deliver(csv_text(render.rows(answer)), out)
    else:
        terminal.answer(answer, render, as_json=as_json, plain=plain, out=out)
