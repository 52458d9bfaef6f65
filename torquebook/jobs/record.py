"""The record of a job: what was done, what is still open, and whether it may be signed off."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from torquebook.errors import NotUnderstood
from torquebook.jobs.running import BACK, DONE

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from torquebook.jobs.journal import Entry


@dataclass(frozen=True)
class Recheck:
    """What is looked at again after the work; ``done`` says when it was."""

    joint: str
    what: str
    after: str
    done: str = ""

    @property
    def name(self) -> str:
        """The recheck as it is named to tick it."""
        return f"{self.joint}: {self.what}"


@dataclass(frozen=True)
class Record:
    """A record, read whole.

    Parameters
    ----------
    name : str
        The file's name as given.
    entries : tuple of Entry
    open_steps : tuple of str
        Titles of steps that are not done, each once.
    failed : tuple of str
        What was found out of its limits and not put right.
    skipped : tuple of tuple of str
        Title and reason of each step that was left out.
    rechecks : tuple of Recheck
    signed : str
        By whom and when; empty where nobody has.
    """

    name: str
    entries: tuple[Entry, ...]
    open_steps: tuple[str, ...]
    failed: tuple[str, ...]
    skipped: tuple[tuple[str, str], ...]
    rechecks: tuple[Recheck, ...]
    signed: str

    @property
    def start(self) -> Mapping[str, Any]:
        """What the first entry says: the job, its title, the vehicle."""
        return self.entries[0].facts if self.entries else {}

    @property
    def due(self) -> tuple[Recheck, ...]:
        """The rechecks that nobody has ticked."""
        return tuple(one for one in self.rechecks if not one.done)


def record_of(name: str, entries: Sequence[Entry]) -> Record:
    """Return a record from its verified entries."""
    first: Mapping[str, Any] = entries[0].facts if entries else {}
    titles = {str(step): str(title) for step, title in first.get("steps", ())}
    done: set[str] = set()
    failed: dict[str, str] = {}
    skipped: dict[str, tuple[str, str]] = {}
    ticked: dict[str, str] = {}
    signed = ""
    for entry in entries:
        facts = entry.facts
        what, step, at = facts.get("what"), str(facts.get("step", "")), str(facts.get("at", ""))
        if what in DONE:
            done.add(step)
            failed.pop(step, None)
            skipped.pop(step, None)
            if what == "skip":
                skipped[step] = (str(facts.get("title", "")), str(facts.get("why", "")))
        elif what == BACK:
            done.discard(step)
        elif what == "failed":
            failed[step] = f"{facts.get('title', '')}: {facts.get('said', '')}"
        elif what == "recheck":
            ticked[str(facts.get("name", ""))] = at or "done"
        elif what == "sign":
            signed = f"{facts.get('by', '')}, {at}"
    rechecks = [Recheck(*(str(part) for part in one)) for one in first.get("rechecks", ())]
    return Record(
        name,
        tuple(entries),
        tuple(dict.fromkeys(title for step, title in titles.items() if step not in done)),
        tuple(failed.values()),
        tuple(skipped.values()),
        tuple(replace(one, done=ticked.get(one.name, "")) for one in rechecks),
        signed,
    )


def sign_facts(record: Record, by: str) -> dict[str, Any]:
    """Return the entry that signs a record off.

    Raises
    ------
    NotUnderstood
        If steps are open, something is out of its limits, or it is signed already.
    """
    if record.signed:
        raise NotUnderstood(by, f"it was signed off by {record.signed}")
    if record.failed:
        raise NotUnderstood(by, f"out of its limits: {'; '.join(record.failed)}")
    if record.open_steps:
        shown = ", ".join(record.open_steps[:5])
        right = "go on with job run, or leave them out there with a reason"
        raise NotUnderstood(by, f"steps are open: {shown}; {right}")
    return {"what": "sign", "by": by}


def recheck_facts(record: Record, text: str) -> dict[str, Any]:
    """Return the entry that ticks a recheck, named by its joint or as the record lists it.

    Raises
    ------
    NotUnderstood
        If none is due under that name, or more than one.
    """
    wanted = " ".join(text.casefold().split())
    due = record.due
    found = [one for one in due if wanted in {one.name.casefold(), one.joint.casefold()}]
    if len(found) != 1:
        names = tuple(one.name for one in found or due)
        raise NotUnderstood(text, "no one recheck of that name is due", names)
    return {"what": "recheck", "name": found[0].name}
