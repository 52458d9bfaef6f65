"""``torquebook job record``: what was done, verified, exported, ticked and signed off."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, records_folder
from torquebook.errors import Unreadable
from torquebook.jobs.journal import Journal
from torquebook.jobs.keeping import SUFFIX, entries_of, slug, take_in
from torquebook.jobs.lock import Lock
from torquebook.jobs.record import recheck_facts, record_of, sign_facts
from torquebook.render import record as render
from torquebook.render import terminal
from torquebook.render.cells import csv_text

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

HELP = f"""{JOB_HELPS["record"]}

FILE is a record, or a job's name for its newest one. Every line is verified: what was edited is
named, and nothing else is shown."""
FORMATS: Final = ("text", "html", "csv")


@make(
    help=HELP,
    examples=(
        "job record brigade-overhaul",
        "job record brigade-overhaul --sign 'A. Miller'",
        'job record brigade-overhaul --done "front wheels"',
        "job record brigade-overhaul --format html --out truck-2.html",
    ),
)
@click.argument("file")
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True)
@click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
@click.option("--sign", default="", metavar="NAME", help="Sign it off.")
@click.option("--import", "take", is_flag=True, help="Take in FILE, as a phone exported it.")
@click.option("--done", default="", metavar="JOINT", help="Tick what was looked at again.")
def command(
    file: str,
    form: str,
    out: str,
    sign: str,
    done: str,
    *,
    take: bool,
    as_json: bool,
    plain: bool,
) -> None:
    """Read, verify, add, show."""
    path = take_in(Path(file), records_folder()) if take else _path(file)
    record = record_of(str(path), entries_of(path))
    for facts in (done and recheck_facts(record, done), sign and sign_facts(record, sign)):
        if facts:
            _add(path, facts)
            record = record_of(str(path), entries_of(path))
    if form == "html":
        terminal.deliver(render.page(record), out)
    elif form == "csv":
        terminal.deliver(csv_text(render.rows(record)), out)
    else:
        terminal.answer(record, render, as_json=as_json, plain=plain, out=out)


def _path(file: str) -> Path:
    """Return the record that an argument names: a file, or a job's newest one."""
    path = Path(file)
    if path.suffix == SUFFIX or path.exists():
        return path
    folder = records_folder()
    found = sorted(folder.glob(f"{slug(file)}-*{SUFFIX}"), key=lambda one: one.stat().st_mtime)
    if not found:
        names = sorted({one.name for one in folder.glob(f"*{SUFFIX}")})
        right = f"write {' or '.join(names[:5])}" if names else "begin one: torquebook job run"
        raise Unreadable(str(folder), f"no record of {file}", right)
    return found[-1]


def _add(path: Path, facts: Mapping[str, Any]) -> None:
    """Put one more entry into a record."""
    now = datetime.now().astimezone().isoformat(timespec="seconds")
    with Lock(path):
        journal = Journal.open(path)
        try:
            journal.append({"at": now, **facts})
        finally:
            journal.close()
