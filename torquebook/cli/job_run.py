"""``torquebook job run``: step by step through a job, each step kept as it is done."""

from __future__ import annotations

import os
import sys
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from torquebook.cli.command import command as make
from torquebook.cli.job import JOB_HELPS, job_options, opened, records_folder
from torquebook.cli.trouble import INTERRUPTED
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.journal import Journal
from torquebook.jobs.keeping import fingerprint, new_path, start_facts, unfinished
from torquebook.jobs.lock import Lock
from torquebook.jobs.running import answered, state_of
from torquebook.jobs.steps import steps_of
from torquebook.render import screen, terminal
from torquebook.render.cautions import CAUTION

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from torquebook.jobs.model import WorkedJob
    from torquebook.jobs.running import State
    from torquebook.jobs.steps import RunStep

HELP = f"""{JOB_HELPS["run"]}

Enter is done, b back, s REASON leaves a step out, p pauses, ? helps; a reading is typed where one
is due. Every entry is on the disk before the next step shows. The same command goes on where the
job was left."""


@make(
    help=HELP,
    examples=("job run brigade-overhaul", 'job run mine.yaml --new --for "truck 2"'),
)
@click.option("--record", "file", default="", metavar="FILE", help="Keep the record here.")
@click.option("--new", is_flag=True, help="Begin another run, though one is unfinished.")
@click.option("--for", "whom", default="", metavar="TEXT", help="Which vehicle; with a new run.")
@click.option("--plain", "short", is_flag=True, help="No large numbers, no clearing of the screen.")
@job_options
def command(
    job: str,
    wrenches: Sequence[str],
    unit: str,
    folders: Sequence[str],
    file: str,
    whom: str,
    *,
    new: bool,
    short: bool,
    as_json: bool,
    plain: bool,
) -> int:
    """Find the record, hold it, step through."""
    if as_json:
        raise click.UsageError("a run is for a person; for programs there is job record --json")
    worked, _ = opened(job, wrenches, unit, folders)
    path = _record(worked, file, new=new)
    with Lock(path):
        journal = Journal.open(path)
        try:
            return _Run(worked, journal, whom, large=not short, plain=plain).go()
        finally:
            journal.close()


def _record(job: WorkedJob, file: str, *, new: bool) -> Path:
    """Return the file that the run is kept in."""
    if file:
        return Path(file)
    folder = records_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        what = f"cannot be made ({fault.strerror})"
        raise Unreadable(str(folder), what, "name a file with --record") from fault
    found = [] if new else unfinished(folder, job.held.id)
    if len(found) > 1:
        names = " or ".join(f"--record {path}" for path in found)
        raise Unreadable(
            str(folder), "more than one run of this job is unfinished", f"write {names}"
        )
    return found[0] if found else new_path(folder, job.held.id, date.today())  # noqa: DTZ011 - the day in the workshop


class _Run:
    """Shows steps and takes answers until all are done or the person pauses."""

    def __init__(
        self, job: WorkedJob, journal: Journal, whom: str, *, large: bool, plain: bool
    ) -> None:
        self.steps: tuple[RunStep, ...] = steps_of(job)
        self.journal = journal
        self.large = large
        self.plain = plain
        self.clears = large and sys.stdout.isatty() and os.environ.get("TERM") not in {None, "dumb"}
        self.waiting: list[str] = []
        if journal.torn:
            aside = f"{journal.path}.torn"
            self.tell(f"the last line was never finished; it is kept in {aside}")
        if not journal.entries:
            self.keep(start_facts(job, self.steps, whom))
        else:
            self._resume(job)

    def _resume(self, job: WorkedJob) -> None:
        first = self.journal.entries[0].facts
        if first.get("job") != job.held.id:
            what = f"this is the record of {first.get('job')}"
            raise Unreadable(str(self.journal.path), what, "name another file with --record")
        if first.get("records") != fingerprint(job):
            self.tell("the job's records were changed since this run began; look what is new")
        self.keep({"what": "resume"})

    def keep(self, facts: Mapping[str, Any]) -> None:
        """Put an entry on the disk, with the time."""
        now = datetime.now().astimezone().isoformat(timespec="seconds")
        self.journal.append({"at": now, **facts})

    def tell(self, message: str) -> None:
        """Say something beside the steps; where the screen is cleared, below the next one."""
        self.waiting.append(message)
        if not self.clears:
            self._say()

    def _say(self) -> None:
        for message in self.waiting:
            terminal.complain(message, plain=self.plain)
        self.waiting.clear()

    def go(self) -> int:
        """Go through the steps; return the exit code."""
        self.tell(CAUTION)
        try:
            code = self._through()
        except KeyboardInterrupt:
            self._pause()
            code = INTERRUPTED
        self._say()
        return code

    def _through(self) -> int:
        while (state := state_of(self.steps, self.journal.entries)).step is not None:
            sheet = terminal.paper(plain=self.plain)
            screen.show(state, state.step, sheet, large=self.large)
            terminal.show(f"{screen.CLEAR if self.clears else ''}{sheet}")
            self._say()
            if not self._take(state, sys.stdin.readline()):
                return 0
        self.tell(f"all {len(self.steps)} steps are done; sign off: job record {self.journal.path}")
        return 0

    def _take(self, state: State, line: str) -> bool:
        """Take one line that was typed; return whether the run goes on."""
        if not line:
            self._pause()
            return False
        if line.strip() == "?":
            for text in screen.HELP:
                self.tell(text)
            return True
        try:
            outcome = answered(state, line)
        except NotUnderstood as trouble:
            self.tell(str(trouble).removeprefix('"": '))
            return True
        if outcome.facts is not None:
            self.keep(outcome.facts)
        if outcome.said:
            self.tell(outcome.said)
        return not outcome.pauses

    def _pause(self) -> None:
        self.keep({"what": "pause"})
        self.tell("paused; the same command goes on here")
