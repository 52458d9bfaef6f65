"""A record for a reader: its entries in words, what is open, and what it lacks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.answering import signature
from torquebook.jobs.running import trail
from torquebook.jobs.steps import SIGN
from torquebook.numerals import number_text

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from torquebook.jobs.journal import Entry
    from torquebook.jobs.running import State, Trail
    from torquebook.jobs.steps import Recheck


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


def row_of(entry: Entry) -> Row:
    """Return an entry in words."""
    facts = entry.facts
    value = facts.get("value")
    ok = facts.get("ok")
    said = [facts.get(key) for key in ("reason", "name", "who", "for", "read", "result")]
    shown = f"{_number(value)} {facts.get('unit', '')}" if value is not None else ""
    return Row(
        entry.seq,
        _text(facts, "at"),
        _text(facts, "what"),
        _text(facts, "of"),
        _text(facts, "spot"),
        _text(facts, "asks"),
        shown.strip() or _text(facts, "setting"),
        "passed" if ok is True else "out of limits" if ok is False and value is not None
        else "no" if ok is False else "",
        "; ".join(str(one) for one in said if one),
    )  # fmt: skip


def _text(facts: Mapping[str, Any], key: str) -> str:
    return str(facts.get(key, ""))


def _number(value: object) -> str:
    if isinstance(value, float | int) and not isinstance(value, bool):
        return f"{'-' if value < 0 else ''}{number_text(abs(value))}"
    return str(value)


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
        names = ", ".join(step.title for step in state.blocking[:3])
        more = f" and {len(state.blocking) - 3} more" if len(state.blocking) > 3 else ""  # noqa: PLR2004 - as shown
        what = f"{len(state.blocking)} steps are open: {names}{more}"
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
