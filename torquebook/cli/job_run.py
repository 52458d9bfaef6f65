"""``torquebook job run``: a job step by step at the bench, each step in its record at once."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from shlex import join
from typing import TYPE_CHECKING

import click

from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, job_options, opened
from torquebook.cli.trouble import INTERRUPTED
from torquebook.jobs.interrupt import Interrupts
from torquebook.jobs.keeping import kept, made, new_path, records_folder, unfinished
from torquebook.jobs.session import Session, hand_here
from torquebook.render import running as render
from torquebook.render import terminal
from torquebook.render.cautions import CAUTION

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from torquebook.jobs.model import WorkedJob

HELP = f"""{JOB_HELPS["run"]}

One screen a step: which bolt of how many, what to set on which wrench. Enter is done, b back,
s skip (asks why), p pause, ? help; a check that must pass is answered y or n, and a reading is
typed where one is due and judged on the spot.
Every entry is on the disk before the next step shows. The same command goes on where it was
left, or killed; two vehicles have a record each."""


@make(
    help=HELP,
    examples=(
        "job run brigade-overhaul",
        'job run brigade-overhaul --for "tanker 2" --new',
        "job run brigade-overhaul --record overhaul.jsonl --plain",
    ),
    programs=False,
)
@click.option("--for", "vehicle", default="", metavar="TEXT", help="The vehicle, or its plate.")
@click.option("--record", default="", metavar="FILE", help="The record to begin or go on with.")
@click.option("--new", "fresh", is_flag=True, help="Begin another record.")
@click.option("--plain", "short", is_flag=True, help="A short paragraph a step; no clearing.")
@job_options
def command(
    job: str,
    wrenches: Sequence[str],
    unit: str,
    folders: Sequence[str],
    vehicle: str,
    record: str,
    *,
    fresh: bool,
    short: bool,
    as_json: bool,
    plain: bool,
) -> int:
    """Parse, work out, run."""
    if as_json:
        raise click.UsageError("a run is for a person; for programs there is job record --json")
    worked, _ = opened(job, wrenches, unit, folders)
    path = Path(record) if record else _path(worked, vehicle, fresh=fresh)
    screen = render.screen_of(os.environ, plain=short, ascii_only=plain)
    terminal.lenient(sys.stdin)
    with Session(worked, path, hand_here(), vehicle, fresh=fresh) as session:
        options = {
            "--record": [str(path) if record or fresh else ""],
            "--for": [session.vehicle],
            "--book": folders,
            "--wrench": wrenches,
            "--unit": [unit],
        }
        again = _again(job, options, {"--plain": short, "--ascii": plain})
        return _loop(session, screen, again, plain=plain)


def _again(job: str, options: Mapping[str, Sequence[str]], flags: Mapping[str, bool]) -> str:
    """Return the command that goes on with a run: by the options given, but with no new record."""
    words = ["torquebook", "job", "run", job]
    for name, values in options.items():
        words += [word for value in values if value for word in (name, value)]
    return join([*words, *(name for name, given in flags.items() if given)])


def _path(worked: WorkedJob, vehicle: str, *, fresh: bool) -> Path:
    """Return the record to go on with, or the path of a new one."""
    folder = made(records_folder(os.environ))
    job = worked.held.id
    found = None if fresh else unfinished(kept(folder), job, vehicle)
    return found.path if found else new_path(folder, job, hand_here().now()[:10])


def _loop(session: Session, screen: render.Screen, again: str, *, plain: bool) -> int:
    """Show a step, take a line, until the run is left or signed."""
    said = [CAUTION, *session.notes, f"record: {session.path}", "? shows the keys"]
    helps, code = False, 0
    with Interrupts() as keys:
        while session.state.current:
            sheet = terminal.paper(plain=plain)
            render.step_text(session, said, screen, sheet, helps=helps)
            terminal.show(f"{render.CLEAR if screen.large else ''}{sheet}{render.PROMPT}")
            try:
                line = keys.line(sys.stdin)
            except KeyboardInterrupt:
                session.pause()
                code = INTERRUPTED
                break
            if screen.echoes:
                terminal.show(f"{terminal.paper(plain=plain).said(line.rstrip())}\n")
            reply = session.take(line or "p")
            if reply.over:
                break
            said, helps = session.said(reply), reply.help
    sheet = terminal.paper(plain=plain)
    render.left(session, again, sheet)
    terminal.show(f"\n{sheet}")
    return code
