"""Where a run is: the entries of its journal, held against the steps of its job."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.jobs.steps import SIGN, Recheck

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from torquebook.jobs.journal import Entry
    from torquebook.jobs.steps import RunStep

CLOSING: Final = frozenset(("bolt", "done", "skip", "sign"))
"""What an entry is that closes its step, whatever else it says."""
_JUDGED: Final = frozenset(("gate", "reading"))


def closes(facts: Mapping[str, Any]) -> bool:
    """Return whether an entry closes its step.

    A check or a reading does where it passed, or where a reason is given to go on.
    """
    what = facts.get("what")
    return what in CLOSING or (
        what in _JUDGED and (facts.get("ok") is True or bool(facts.get("reason")))
    )


class Trail(NamedTuple):
    """What a journal says by itself, without its job.

    Parameters
    ----------
    closed : dict of str to Entry
        The steps that are closed, by their ids, in the order in which they were.
    failed : dict of str to Entry
        The last reading out of its limits, or answer of no, of each step that it left open.
    ticked : dict of str to Entry
        The rechecks that were done, by their ids.
    """

    closed: dict[str, Entry]
    failed: dict[str, Entry]
    ticked: dict[str, Entry]

    @property
    def signed(self) -> Entry | None:
        """The signature that holds; None without one."""
        return self.closed.get(SIGN)

    @property
    def due(self) -> tuple[Recheck, ...]:
        """What is still to be looked at again."""
        opened = [one for entry in self.closed.values() for one in entry.facts.get("opens") or ()]
        every = [
            Recheck(*(str(one.get(key, "")) for key in Recheck._fields))
            for one in opened
            if isinstance(one, dict)
        ]
        return tuple(one for one in every if one.id not in self.ticked)


def trail(entries: Iterable[Entry]) -> Trail:
    """Return what a journal's entries come to; a later entry counts before an earlier one."""
    found = Trail({}, {}, {})
    for entry in entries:
        step = str(entry.facts.get("step", ""))
        what = entry.facts.get("what")
        if what == "back":
            _take_back(found, step)
        elif what == "recheck":
            found.ticked[step] = entry
        elif closes(entry.facts):
            found.closed.pop(step, None)
            found.closed[step] = entry
            found.failed.pop(step, None)
        elif what in _JUDGED:
            found.failed[step] = entry
            found.closed.pop(SIGN, None)
    return found


def _take_back(found: Trail, step: str) -> None:
    """Open a step again; a signature does not outlive what it was put under."""
    before = found.closed.pop(step, None)
    found.failed.pop(step, None)
    found.closed.pop(SIGN, None)
    for one in (before.facts.get("opens") or ()) if before else ():
        if isinstance(one, dict):
            found.ticked.pop(str(one.get("id", "")), None)


class State:
    """Where a run is.

    Parameters
    ----------
    steps : sequence of RunStep
    entries : sequence of Entry
    """

    def __init__(self, steps: Sequence[RunStep], entries: Sequence[Entry]) -> None:
        self.steps = tuple(steps)
        self.entries = tuple(entries)
        self._asks = {step.id: step.asks for step in steps}

    @cached_property
    def trail(self) -> Trail:
        """What the journal says by itself."""
        return trail(self.entries)

    @cached_property
    def closed(self) -> dict[str, Entry]:
        """The closed steps that the job still has, as it has them."""
        return {step: entry for step, entry in self.trail.closed.items() if self._fits(entry)}

    @property
    def unfit(self) -> tuple[Entry, ...]:
        """Entries of steps that the job no longer has, or that now ask for something else."""
        return tuple(entry for entry in self.trail.closed.values() if not self._fits(entry))

    def _fits(self, entry: Entry) -> bool:
        step, asked = str(entry.facts.get("step", "")), entry.facts.get("asks")
        return self._asks.get(step) == asked if step != SIGN else self._all_fit

    @cached_property
    def _all_fit(self) -> bool:
        """Whether every step but the signature is closed as the job has it."""
        return all(
            step.id in self.trail.closed and self._fits(self.trail.closed[step.id])
            for step in self.steps
            if step.id != SIGN
        )

    @cached_property
    def open(self) -> tuple[RunStep, ...]:
        """The steps that are not closed, in working order."""
        return tuple(step for step in self.steps if step.id not in self.closed)

    @property
    def current(self) -> RunStep | None:
        """The step that comes next; None if all are closed."""
        return self.open[0] if self.open else None

    @property
    def before(self) -> RunStep | None:
        """The step that ``back`` opens again: the last closed one before the current one."""
        current = self.current
        at = self.steps.index(current) if current else len(self.steps)
        return self.steps[at - 1] if at else None

    @property
    def failed(self) -> Entry | None:
        """The reading that keeps the current step open; None if there is none."""
        current = self.current
        return self.trail.failed.get(current.id) if current else None

    @property
    def blocking(self) -> tuple[RunStep, ...]:
        """What stands in the way of a signature: every step that is still open."""
        return tuple(step for step in self.open if step.id != SIGN)

    @property
    def skipped(self) -> tuple[Entry, ...]:
        """The steps that were passed over, each with its reason."""
        return tuple(entry for entry in self.closed.values() if entry.facts["what"] == "skip")

    def read_at_bolts(self, finish: RunStep) -> tuple[Entry, ...]:
        """Return the readings taken at the bolts of a joint whose finishing torque is due.

        Empty unless every bolt of its last angle has one.
        """
        at = self.steps.index(finish)
        bolts = []
        for step in reversed(self.steps[:at]):
            if step.kind != "bolt" or step.limits is None or step.name != finish.name:
                break
            bolts.append(self.closed.get(step.id))
        read = [entry for entry in bolts if entry and "value" in entry.facts]
        return tuple(reversed(read)) if len(read) == len(bolts) else ()
