"""``torquebook job sheet``: the sheet that goes to the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, job_options, opened
from torquebook.jobs.keeping import SUFFIX, slug
from torquebook.jobs.session import start_facts
from torquebook.jobs.steps import steps_of
from torquebook.render import terminal
from torquebook.render.papersizes import PAPERS
from torquebook.render.phone.page import page as phone_page
from torquebook.render.sheet.content import sheet_of
from torquebook.render.sheet.page import page
from torquebook.render.sheet.pdf import EXTRA, pdf

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.render.papersizes import Paper

HELP = f"""{JOB_HELPS["sheet"]}

One file of HTML that any browser shows and prints, or a PDF where FILE ends in .pdf (that
needs: {EXTRA})."""


@make(
    help=HELP,
    examples=(
        "job sheet brigade-overhaul --out sheet.html",
        "job sheet mine.yaml --out sheet.pdf --paper Letter --unit lbf.ft",
    ),
)
@click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
@click.option(
    "--paper",
    type=click.Choice(PAPERS),
    default=PAPERS[0],
    show_default=True,
    help="Its size.",
)
@click.option("--phone", is_flag=True, help="A page for the phone: steps, readings, export.")
@job_options
def command(
    job: str,
    wrenches: Sequence[str],
    unit: str,
    folders: Sequence[str],
    out: str,
    paper: Paper,
    *,
    phone: bool,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, work out, render."""
    if out and not out.lower().endswith((".html", ".htm", ".pdf", ".json")):
        raise click.UsageError(f'"{out}" is no page; write FILE.html or FILE.pdf')
    worked, _ = opened(job, wrenches, unit, folders)
    if phone:
        steps = steps_of(worked)
        file = f"{slug(worked.held.id)}-phone{SUFFIX}"
        made = phone_page(steps, start_facts(worked, "", "phone"), file)
        terminal.deliver(made, out, plain=plain)
        return
    if as_json:
        from dataclasses import asdict  # noqa: PLC0415 - only for programs

        from torquebook.render.data import json_text  # noqa: PLC0415 - as above

        terminal.deliver(json_text(asdict(sheet_of(worked))), out, plain=plain)
        return
    sheet = sheet_of(worked, plain=plain)
    if out.lower().endswith(".pdf"):
        terminal.save(out, pdf(sheet, paper), plain=plain)
    else:
        terminal.deliver(page(sheet, paper), out, plain=plain)
