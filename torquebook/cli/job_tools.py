"""``torquebook job tools``."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, job_options, opened
from torquebook.jobs.tools import tools
from torquebook.render import terminal
from torquebook.render import tools as render
from torquebook.render.cells import csv_text

if TYPE_CHECKING:
    from collections.abc import Sequence


@make(
    help=JOB_HELPS["tools"],
    examples=("job tools brigade-overhaul", "job tools mine.yaml --csv --out tools.csv"),
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
    worked, book = opened(job, wrenches, unit, folders)
    answer = tools(worked, book)
    if as_csv:
        terminal.deliver(csv_text(render.rows(answer)), out)
    else:
        terminal.answer(answer, render, as_json=as_json, plain=plain, out=out)
