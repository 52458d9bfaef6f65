"""The record of a job: as text, as a page, as rows, and for a program."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Any, Final

from torquebook.render.cautions import CAUTION
from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.jobs.journal import Entry
    from torquebook.jobs.record import Record
    from torquebook.render.paper import Paper

_HEADS: Final = ("at", "what", "step", "value", "why")
_WIDTHS: Final = (16, 8, 24, 12, 12)
_POLICY: Final = "default-src 'none'; style-src 'unsafe-inline'"
_STYLE: Final = (
    "body{font:11pt sans-serif;margin:12mm;color:#000;background:#fff}"
    "table{border-collapse:collapse}td,th{border:.3mm solid #000;padding:.5mm 1.5mm;"
    "text-align:left;vertical-align:top}"
)


def text(answer: Record, paper: Paper) -> None:
    """Write what is open, then every entry."""
    start = answer.start
    paper.heading(f"{start.get('title', 'no job')}")
    if start.get("for"):
        paper.text(f"for {start['for']}", 2, 4)
    paper.text(f"{len(answer.entries)} entries, each one as it was written (verified)", 2, 4)
    for head, lines in _open(answer):
        paper.heading(head)
        for line in lines:
            paper.text(line, 2, 4)
    paper.heading("What was done")
    paper.grid([_cells(entry, short=True) for entry in answer.entries], _HEADS, _WIDTHS)
    paper.gap()
    paper.text(CAUTION)


def _open(answer: Record) -> Iterator[tuple[str, list[str]]]:
    """Yield what a reader has to know first, under its heads."""
    if answer.failed:
        yield "Out of limits", list(answer.failed)
    if answer.open_steps:
        yield "Not done yet", [", ".join(answer.open_steps)]
    if answer.skipped:
        yield "Left out", [f"{title}: {why}" for title, why in answer.skipped]
    if answer.due:
        yield "Look again", [f"{one.name}, after {one.after}" for one in answer.due]
    done = [f"{one.name}: {one.done}" for one in answer.rechecks if one.done]
    if done:
        yield "Looked at again", done
    yield "Signed off", [answer.signed or "by nobody yet"]


def _cells(entry: Entry, *, short: bool = False) -> tuple[str, str, str, str, str]:
    facts = entry.facts
    at = str(facts.get("at", ""))
    value = facts.get("value", "")
    shown = f"{value:g} {facts.get('unit', '')}".strip() if isinstance(value, float) else str(value)
    step = str(facts.get("title") or facts.get("name") or facts.get("by") or "")
    detail = str(facts.get("step", "")).partition("/")[2]
    where = f"{step}, {detail}" if detail and detail not in {"gate", "before"} else step
    why = str(facts.get("why") or facts.get("said") or "")
    return (at[:16] if short else at), str(facts.get("what", "")), where, shown, why


def rows(answer: Record) -> Iterator[tuple[str | float | None, ...]]:
    """Yield every entry as a row."""
    yield ("seq", *_HEADS, "hash")
    for entry in answer.entries:
        yield (entry.seq, *_cells(entry), entry.hash)


def page(answer: Record) -> str:
    """Return the record as one page of HTML, for a file on the vehicle."""
    start = answer.start
    title = escape(inert(str(start.get("title", ""))))
    parts = [
        "<!DOCTYPE html>",
        '<html lang="en"><head><meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
        f"<title>{title}</title><style>{_STYLE}</style></head><body>",
        f"<h1>{title}</h1>",
    ]
    if start.get("for"):
        parts.append(f"<p>for {escape(inert(str(start['for'])))}</p>")
    for head, lines in _open(answer):
        items = "".join(f"<li>{escape(inert(line))}</li>" for line in lines)
        parts.append(f"<h2>{head}</h2><ul>{items}</ul>")
    heads = "".join(f"<th>{head}</th>" for head in _HEADS)
    parts.append(f"<h2>What was done</h2><table><tr>{heads}</tr>")
    for entry in answer.entries:
        cells = "".join(f"<td>{escape(inert(cell))}</td>" for cell in _cells(entry))
        parts.append(f"<tr>{cells}</tr>")
    parts.append(f"</table><p>{escape(CAUTION)}</p></body></html>")
    return "\n".join(parts) + "\n"


def data(answer: Record) -> dict[str, Any]:
    """Return the record for a program."""
    return {
        "record": answer.name,
        "job": answer.start.get("job"),
        "for": answer.start.get("for"),
        "verified": True,
        "open_steps": list(answer.open_steps),
        "failed": list(answer.failed),
        "skipped": [list(one) for one in answer.skipped],
        "rechecks_due": [one.name for one in answer.due],
        "signed": answer.signed,
        "entries": [{"seq": one.seq, **one.facts, "hash": one.hash} for one in answer.entries],
        "caution": CAUTION,
    }
