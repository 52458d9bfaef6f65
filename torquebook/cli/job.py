"""``torquebook job``: the lists and the sheet of a piece of work."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import click

from torquebook.catalogue.library import Library
from torquebook.cli.command import book_option, every_folder, my_bench, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS, Group
from torquebook.jobs.working import work_out
from torquebook.render import terminal
from torquebook.render.cells import csv_text

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from types import ModuleType

    from torquebook.catalogue.book import Book
    from torquebook.jobs.model import WorkedJob

JOB_HELPS: Final = {
    "parts": "What to order, what to have ready, what to measure first.",
    "tools": "Wrenches with their settings, sockets and keys, gauges.",
    "order": "An order of tightening: make one, check yours, draw it.",
    "run": "Step by step through the work, each step kept as it is done.",
    "record": "What was done: shown, verified, exported, signed off.",
    "sheet": "The sheet for the bench: gates, stages, orders, room for readings.",
}

command: Final = Group(
    "job",
    helps=JOB_HELPS,
    modules="torquebook.cli.job_",
    examples=("job parts brigade-overhaul", "job tools mine.yaml --unit lbf.ft"),
    help=f"{HELPS['job']}\n\nJOB is a job's name or id, or a file of your own.",
)


def job_options(function: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command what every command of a job takes."""
    for option in (
        book_option,
        click.option("--unit", default="", metavar="UNIT", help="For torques; the job's own."),
        click.option(
            "--wrench", "wrenches", multiple=True, metavar="NAME", help="Work with it; repeatable."
        ),
        click.argument("job"),
    ):
        function = option(function)
    return function


def opened(
    job: str, wrenches: Sequence[str], unit: str, folders: Sequence[str]
) -> tuple[WorkedJob, Book]:
    """Return a job worked out, and the book that it was worked out with."""
    book = open_book(folders)
    library = Library([Path(folder) for folder in every_folder(folders)])
    bench = my_bench()
    wanted = unit or (bench.unit if bench else "")
    return work_out(library, book, job, wrenches, wanted), book


def list_command(
    name: str, work: Callable[[WorkedJob, Book], Any], render: ModuleType
) -> click.Command:
    """Return a command that lists something of a job, as text, JSON or CSV.

    Parameters
    ----------
    name : str
        Of ``JOB_HELPS``.
    work : callable
        Takes the job and the book, and returns the list.
    render : module
        Of ``torquebook.render``, with ``text``, ``data`` and ``rows``.
    """

    @make(
        help=JOB_HELPS[name],
        examples=(f"job {name} brigade-overhaul", f"job {name} mine.yaml --csv --out {name}.csv"),
    )
    @click.option("--csv", "as_csv", is_flag=True, help="Rows for a spreadsheet.")
    @click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
    @job_options
    def listed(
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
        """Work out, render."""
        answer = work(*opened(job, wrenches, unit, folders))
        if as_csv:
            terminal.deliver(csv_text(render.rows(answer)), out, plain=plain)
        else:
            terminal.answer(answer, render, as_json=as_json, plain=plain, out=out)

    return listed
