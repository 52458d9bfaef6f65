"""A record for a reader: its entries in words, what is open, and what it lacks."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING, Any

from torquebook.errors import NotUnderstood, TorquebookError, Unreadable
from torquebook.jobs.answering import signature
from torquebook.jobs.journal import Journal, read_journal
from torquebook.jobs.lock import Lock
from torquebook.jobs.readings import shown
from torquebook.jobs.running import State, trail
from torquebook.jobs.steps import SIGN, fingerprint, steps_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from pathlib import Path

    from torquebook.jobs.journal import Entry
    from torquebook.jobs.model import WorkedJob
    from torquebook.jobs.running import Trail
    from torquebook.jobs.session import Hand
    from torquebook.jobs.steps import Recheck

    Worker = Callable[[str], WorkedJob]


@dataclass(frozen=True)
class Row:
    """One entry in words.

    Parameters
    ----------
    seq : int
    at : str
    what : str
    of, spot : str
        The joint or gate, and which bolt of it.
    asks : str
        What the record asked for.
    value : str
        The reading with its unit, or what the wrench was set to.
    verdict : str
        ``passed``, ``out of limits``; empty where nothing was judged.
    reason : str
        Why it was skipped or gone on with; a name, a vehicle, who worked.
    """

    seq: int
    at: str
    what: str
    of: str
    spot: str
    asks: str
    value: str
    verdict: str
    reason: str


@dataclass(frozen=True)
class Report:
    """A record for a reader.

    Parameters
    ----------
    path : Path
    entries : tuple of Entry
        Verified.
    torn : str
        A last line that was never finished.
    state : State or None
        Where the run is; None where its job is not at hand.
    missing : str
        Why the job is not at hand; empty if it is.
    edited : bool
        Whether the job's records are others than when the record was last written to.
    """

    path: Path
    entries: tuple[Entry, ...]
    torn: str = ""
    state: State | None = None
    missing: str = ""
    edited: bool = False

    @property
    def first(self) -> Mapping[str, Any]:
        """The facts that the record begins with."""
        return self.entries[0].facts

    @property
    def trail(self) -> Trail:
        """What the journal says by itself."""
        return trail(self.entries)

    @property
    def rows(self) -> tuple[Row, ...]:
        """The entries in words."""
        return tuple(map(row_of, self.entries))

    @property
    def who(self) -> tuple[str, ...]:
        """Everybody who worked on it."""
        every = (str(e.facts["who"]) for e in self.entries if e.facts.get("who"))
        return tuple(dict.fromkeys(every))

    @property
    def skipped(self) -> tuple[Row, ...]:
        """What was passed over, each with its reason."""
        closed = self.trail.closed.values()
        return tuple(row_of(entry) for entry in closed if entry.facts.get("what") == "skip")

    @property
    def signed(self) -> Entry | None:
        """The signature, where it still holds."""
        if self.state is not None:
            return self.state.closed.get(SIGN)
        return self.trail.signed

    @property
    def due(self) -> tuple[Recheck, ...]:
        """What is to be looked at again."""
        return self.trail.due


def report_of(path: Path, worked: Worker) -> Report:
    """Return a record, verified; nothing is changed.

    Parameters
    ----------
    path : Path
    worked : callable
        Works a job out by its id or file.

    Raises
    ------
    Unreadable
        If the file cannot be read, holds no record, or its chain is broken.
    """
    entries, torn = read_journal(path)
    if not entries:
        raise Unreadable(str(path), "holds no entry", "name the file of a record")
    return _with_job(path, entries, torn, worked)


def _with_job(path: Path, entries: Sequence[Entry], torn: str, worked: Worker) -> Report:
    """Return a report with the steps of its job, where that is at hand."""
    first = entries[0].facts
    job, file = str(first.get("job", "")), str(first.get("file", ""))
    try:
        found = worked(job if "/" in job or not file else file)
    except TorquebookError as trouble:
        return Report(path, tuple(entries), torn, missing=str(trouble))
    prints = [entry.facts["records"] for entry in entries if "records" in entry.facts]
    edited = bool(prints) and prints[-1] != fingerprint(found)
    return Report(path, tuple(entries), torn, State(steps_of(found), entries), edited=edited)


def write_to(
    path: Path, hand: Hand, make: Callable[[Report], dict[str, Any]], worked: Worker
) -> Report:
    """Append an entry to a record that no run is writing, and return the record with it.

    Parameters
    ----------
    path : Path
    hand : Hand
    make : callable
        Returns the facts of the entry, or refuses.
    worked : callable
        Works a job out by its id or file.
    """
    with Lock(path, hand.holder()):
        report_of(path, worked)  # no journal is begun by mistake
        journal = Journal.open(path)
        try:
            before = _with_job(path, journal.entries, "", worked)
            facts = make(before)
            stamp = {"what": facts["what"], "at": hand.now(), "job": before.first.get("job", "")}
            journal.append({**stamp, **facts, "who": hand.who})
            return _with_job(path, journal.entries, "", worked)
        finally:
            journal.close()


def row_of(entry: Entry) -> Row:
    """Return an entry in words."""
    facts = entry.facts
    value = facts.get("value")
    ok = facts.get("ok")
    said = [facts.get(key) for key in ("reason", "name", "who", "for", "read")]
    return Row(
        entry.seq,
        _text(facts, "at"),
        _text(facts, "what"),
        _text(facts, "of"),
        _text(facts, "spot"),
        _text(facts, "asks"),
        _value(facts),
        "passed" if ok is True else "out of limits" if ok is False and value is not None
        else "no" if ok is False else "",
        "; ".join(str(one) for one in said if one),
    )  # fmt: skip


def _text(facts: Mapping[str, Any], key: str) -> str:
    return str(facts.get(key, ""))


def _value(facts: Mapping[str, Any]) -> str:
    """Return a reading with its unit, and as it was typed; or what the wrench was set to."""
    value, unit, typed = facts.get("value"), _text(facts, "unit"), _text(facts, "typed")
    if isinstance(value, float | int) and isfinite(value):
        written = shown(value, unit, plain=True)
        return f"{written} ({typed})" if typed.lstrip("+-−– ")[-1:].isalpha() else written
    setting, wrench = _text(facts, "setting"), _text(facts, "wrench")
    return f"{setting} on {wrench}" if setting else ""


def signing(report: Report, name: str) -> dict[str, Any]:
    """Return the facts that sign a record off.

    Raises
    ------
    Unreadable
        If a step is still open, it is signed already, or its job is not at hand.
    """
    where = str(report.path)
    state = report.state
    if state is None:
        raise Unreadable(where, report.missing, "name the folder of its records with --book")
    if report.signed:
        held = report.signed.facts.get("name", "")
        raise Unreadable(where, f"is signed by {held} already", "begin another record")
    if state.blocking:
        names = " / ".join(step.title for step in state.blocking[:3])
        more = f" and {len(state.blocking) - 3} more" if len(state.blocking) > 3 else ""  # noqa: PLR2004 - as shown
        count = "1 step is" if len(state.blocking) == 1 else f"{len(state.blocking)} steps are"
        what = f"{count} open: {names}{more}"
        raise Unreadable(where, what, "go on with torquebook job run")
    if not name.strip():
        raise NotUnderstood(name, "no name")
    return signature(state.steps[-1], name.strip())


def ticking(report: Report, words: str) -> dict[str, Any]:
    """Return the facts that tick a recheck, by words of its joint and of what is due.

    Raises
    ------
    NotUnderstood
        If no open recheck has all these words, or more than one has.
    """
    wanted, due = words.casefold().split(), report.due
    found = [one for one in due if wanted and all(word in _said(one) for word in wanted)]
    if len(found) != 1:
        offered = tuple(f'"{one.name} {one.what} {one.after}"' for one in found or due)
        what = "more than one recheck has these words" if found else "no open recheck has it"
        raise NotUnderstood(words, what, offered)
    one = found[0]
    asks = f"{one.what} after {one.after}"
    return {"what": "recheck", "step": one.id, "of": one.name, "asks": asks}


def _said(one: Recheck) -> str:
    return f"{one.name} {one.what} after {one.after}".casefold()


def listed(rechecks: Sequence[Recheck]) -> list[str]:
    """Return rechecks in words, one each."""
    return [f"{one.name}: {one.what} after {one.after}" for one in rechecks]
