"""The record of a job: as text, as JSON, and as a table for a spreadsheet."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from torquebook.jobs.report import listed, row_of
from torquebook.render.cautions import CAUTION
from torquebook.units import FACTORS, with_unit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.jobs.report import Report, Row
    from torquebook.render.paper import Paper

COLUMNS: Final = ("seq", "at", "what", "of", "spot", "asks", "value", "verdict", "reason")
_FIRST: Final = 5
_UNITS: Final = "|".join(map(re.escape, sorted(FACTORS, key=len, reverse=True)))
_UNIT: Final = re.compile(rf"(?<=\d) (?:{_UNITS})(?!\w)")


def text(answer: Report, paper: Paper) -> None:
    """Write the record: whose it is, what is open, what was skipped, every entry."""
    paper.heading(title(answer))
    for line in summary(answer):
        paper.text(line, 2, 4)
    for heading, lines in sections(answer):
        paper.heading(heading)
        for line in lines:
            paper.text(line, 2, 4)
    paper.heading("Entries")
    for row in map(for_reading, answer.rows):
        paper.text(f"{row.seq}  {entry_line(row)}", 2, 6)
    paper.gap()
    paper.text(CAUTION)


def title(answer: Report) -> str:
    """Return the job's title, and the vehicle."""
    vehicle = answer.first.get("for")
    name = str(answer.first.get("title") or answer.first.get("job", "a job"))
    return f"{name}, for {vehicle}" if vehicle else name


def summary(answer: Report) -> list[str]:
    """Return what a reader wants to know first, a line each."""
    lines = [f"record: {answer.path}", f"job: {answer.first.get('job', '')}"]
    lines.append(f"begun: {answer.first.get('at', '')}")
    lines.append(f"by: {', '.join(answer.who)}")
    lines.append(f"verified: {len(answer.entries)} entries, each fits the one before")
    if answer.signed:
        facts = answer.signed.facts
        lines.append(f"signed: {facts.get('name', '')}, {facts.get('at', '')}")
    else:
        lines.append("signed: no")
    if answer.torn:
        lines.append("its last line is not finished; the next run puts it aside")
    if answer.edited:
        lines.append("the job's records were edited since")
    if answer.missing:
        lines.append(f"open steps are not known: {answer.missing}")
    return lines


def sections(answer: Report) -> list[tuple[str, list[str]]]:
    """Return what is open, headed; only what there is."""
    state = answer.state
    found: list[tuple[str, list[str]]] = []
    if state is not None:
        opened = [step.title for step in state.blocking]
        more = [f"and {len(opened) - _FIRST} more"] if len(opened) > _FIRST else []
        found.append(("Steps still open", opened[:_FIRST] + more))
        unfit = [_where(row_of(entry)) for entry in state.unfit]
        found.append(("No longer as it was done", unfit))
    found.append(("To be looked at again", listed(answer.due)))
    skipped = [f"{_where(row)}: {row.reason}" for row in answer.skipped]
    found.append(("Skipped", skipped))
    out = [
        f"{_where(row)}: {row.value or 'no'}" + (f" ({row.reason})" if row.reason else "")
        for row in map(for_reading, answer.rows)
        if row.verdict in {"out of limits", "no"}
    ]
    found.append(("Did not pass when it was looked at", out))
    return [(heading, lines) for heading, lines in found if lines]


def _where(row: Row) -> str:
    return ", ".join(part for part in (row.of, row.spot) if part)


def for_reading(row: Row) -> Row:
    """Return an entry with its units as a person reads them: a journal keeps them in ASCII."""
    asks, value = (
        _UNIT.sub(lambda found: with_unit("", found[0].strip()), text)
        for text in (row.asks, row.value)
    )
    return replace(row, asks=asks, value=value)


def entry_line(row: Row) -> str:
    """Return an entry in one line."""
    parts = (_where(row), row.asks, row.value, row.verdict, row.reason)
    return f"{row.at}  {row.what}: " + "; ".join(part for part in parts if part)


def data(answer: Report) -> dict[str, Any]:
    """Return the record for a program."""
    state = answer.state
    return {
        "record": str(answer.path),
        "job": answer.first.get("job"),
        "title": answer.first.get("title"),
        "for": answer.first.get("for"),
        "verified": True,
        "torn": answer.torn or None,
        "edited": answer.edited,
        "signed": dict(answer.signed.facts) if answer.signed else None,
        "open_steps": None if state is None else [step.id for step in state.blocking],
        "unfit": None if state is None else [entry.facts.get("step") for entry in state.unfit],
        "due": [one._asdict() for one in answer.due],
        "entries": [
            {"seq": e.seq, **e.facts, "prev": e.prev, "hash": e.hash} for e in answer.entries
        ],
        "caution": CAUTION,
    }


def rows(answer: Report) -> Iterator[tuple[str | float | None, ...]]:
    """Yield every entry as a row, their heads first."""
    yield COLUMNS
    for row in answer.rows:
        yield tuple(getattr(row, column) for column in COLUMNS)
