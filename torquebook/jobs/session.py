"""A run of a job: its steps, its journal, and one line after another."""

from __future__ import annotations

import os
from datetime import datetime
from getpass import getuser
from platform import node
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import torquebook
from torquebook.errors import Unreadable
from torquebook.jobs.answering import Asking, passing, respond
from torquebook.jobs.journal import Journal
from torquebook.jobs.lock import Lock
from torquebook.jobs.running import State
from torquebook.jobs.steps import fingerprint, steps_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path
    from typing import Self

    from torquebook.jobs.answering import Reply
    from torquebook.jobs.model import WorkedJob

FORMAT: Final = 1
"""Of the entries' facts; a later program that writes them otherwise counts up."""


class Hand(NamedTuple):
    """Who works, and the clock on the wall.

    Parameters
    ----------
    user, host : str
    pid : int
    now : callable
        Returns the time with its zone, as ISO 8601 has it.
    """

    user: str
    host: str
    pid: int
    now: Callable[[], str]

    @property
    def who(self) -> str:
        """Name and machine."""
        return f"{self.user} on {self.host}"

    def holder(self) -> dict[str, Any]:
        """Return what a lock says of who holds it."""
        return {"user": self.user, "host": self.host, "pid": self.pid, "since": self.now()}


def hand_here() -> Hand:
    """Return who works at this machine, and its clock."""
    try:
        user = getuser()
    except (OSError, KeyError, ImportError):
        user = "unknown"  # a user without a name
    return Hand(user, node() or "unknown", os.getpid(), _now)


def _now() -> str:
    return datetime.now().astimezone().isoformat(timespec="seconds")


def start_facts(job: WorkedJob, vehicle: str, who: str) -> dict[str, Any]:
    """Return what the first entry of a record says, but for the time.

    Parameters
    ----------
    job : WorkedJob
    vehicle : str
        Which one the work is done on; empty if nothing was said.
    who : str
    """
    return {
        "what": "start",
        "job": job.held.id,
        "title": job.held.record.title,
        "file": str(job.held.path),
        "for": vehicle,
        "who": who,
        "program": torquebook.__version__,
        "format": FORMAT,
        "records": fingerprint(job),
        "steps": len(steps_of(job)),
    }


class Session:
    """A run that is under way; use it with ``with``, which holds its lock.

    Parameters
    ----------
    job : WorkedJob
    path : Path
        Of the journal, which is begun if it is not there.
    hand : Hand
    vehicle : str
        Which one the work is done on; empty if nothing was said.
    fresh : bool
        Whether the record must be a new one.
    """

    def __init__(
        self, job: WorkedJob, path: Path, hand: Hand, vehicle: str = "", *, fresh: bool = False
    ) -> None:
        self.job = job
        self.path = path
        self.steps = steps_of(job)
        self.asking = Asking()
        self.notes: list[str] = []
        self._hand = hand
        self._vehicle = vehicle
        self._fresh = fresh
        self._lock = Lock(path, hand.holder())
        self._journal: Journal | None = None

    def __enter__(self) -> Self:
        """Take the lock, open the journal, and begin or go on.

        Raises
        ------
        Unreadable
            If another run holds it, it is of another job or vehicle, or signed; or its chain
            is broken.
        """
        self._lock.take()
        try:
            self._journal = Journal.open(self.path)
            self._begin(self._journal)
        except BaseException:
            self.__exit__()
            raise
        return self

    def __exit__(self, *_: object) -> None:
        """Close the journal and let go of the lock."""
        if self._journal:
            self._journal.close()
        self._lock.free()

    @property
    def journal(self) -> Journal:
        """The open journal."""
        if self._journal is None:
            raise LookupError("the run is not open")
        return self._journal

    @property
    def state(self) -> State:
        """Where the run is."""
        return State(self.steps, self.journal.entries)

    @property
    def vehicle(self) -> str:
        """Which one the work is done on, as the first entry says."""
        return str(self.journal.entries[0].facts.get("for", ""))

    def take(self, line: str) -> Reply:
        """Do what a line says; once this returns it is on the disk.

        Raises
        ------
        Unreadable
            If the journal cannot be written; nothing is lost, and the line did nothing.
        """
        reply = respond(self.state, line, self.asking)
        if reply.facts is not None:
            self.append(reply.facts)
        self.asking = reply.asking
        return reply

    def said(self, reply: Reply) -> list[str]:
        """Return what to tell after a line: what is now in the journal, and what it came to."""
        if reply.facts is None:
            return [reply.says] if reply.says else []
        seq, name = len(self.journal.entries), _title(reply.facts)
        if reply.facts["what"] == "back":
            return [f"{seq} recorded: {reply.says}"]
        return [f"{seq} recorded: {name}" + (f"; {reply.says}" if reply.says else "")]

    def pause(self) -> None:
        """Note that the run is left here."""
        step = self.state.current
        if step:
            self.append(passing(step, "pause"))

    def append(self, facts: Mapping[str, Any]) -> None:
        """Put facts in the journal, with the time and the job."""
        what = facts["what"]
        rest = {key: value for key, value in facts.items() if key not in {"what", "at", "job"}}
        stamp = {"what": what, "at": self._hand.now(), "job": self.job.held.id}
        self.journal.append({**stamp, **rest})

    def _begin(self, journal: Journal) -> None:
        """Write the entry that a run begins with, and note what was found."""
        if journal.torn:
            self.notes.append(
                f"a last line that was never finished was put into {self.path}.torn; "
                "what it was about is asked again"
            )
        entries = journal.entries
        if not entries:
            self.append(start_facts(self.job, self._vehicle, self._hand.who))
            return
        first = entries[0].facts
        self._refuse_other(first)
        if self.state.trail.signed and not self.state.open:
            raise Unreadable(str(self.path), "is signed off", "begin another with --new")
        before = [e.facts["records"] for e in entries if "records" in e.facts]
        now = {**start_facts(self.job, self._vehicle, self._hand.who), "what": "resume"}
        if before and before[-1] != now["records"]:
            self.notes.append("the job's records were edited since this record was written to")
        unfit = self.state.unfit
        self.append(now)
        names = ", ".join(dict.fromkeys(_title(entry.facts) for entry in unfit))
        if unfit:
            self.notes.append(f"no longer as it was done, so looked at again: {names}")

    def _refuse_other(self, first: Mapping[str, Any]) -> None:
        """Refuse a record that is of another job or vehicle, or that should have been new."""
        other, vehicle = str(first.get("job", "")), str(first.get("for", ""))
        right = "name another file with --record"
        if self._fresh:
            raise Unreadable(str(self.path), "is a record already", right)
        if other != self.job.held.id:
            raise Unreadable(str(self.path), f"is a record of {other or 'no job'}", right)
        if self._vehicle not in {"", vehicle}:
            what = f"is a record for {vehicle or 'a vehicle that was not named'}"
            raise Unreadable(str(self.path), what, right)
        self._vehicle = vehicle


def _title(facts: Mapping[str, Any]) -> str:
    return ", ".join(str(facts[key]) for key in ("of", "spot") if facts.get(key))
