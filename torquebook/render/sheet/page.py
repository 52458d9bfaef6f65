"""A sheet as one HTML file: no script, nothing fetched, printed or shown alike."""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Final

from torquebook.render.document import css_text, document
from torquebook.render.sheet.words import marks

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.render.papersizes import Paper
    from torquebook.render.sheet.model import (
        Alert,
        Blank,
        GateCard,
        JointCard,
        OrderRow,
        ReuseBox,
        Sheet,
        StageRow,
    )

_STYLE: Final = Path(__file__).with_name("sheet.css")
_LINES: Final = ("Date", "Name", "Vehicle")


def page(sheet: Sheet, paper: Paper = "A4") -> str:
    """Return the HTML document.

    Parameters
    ----------
    sheet : Sheet
    paper : str
        ``A4`` or ``Letter``.
    """
    style = _STYLE.read_text(encoding="utf-8")
    body = [
        *_header(sheet),
        "<main>",
        *_loosening(sheet),
        *_reading(sheet),
        *(_gate(card) if card.is_gate else _joint(card) for card in sheet.cards),
        *_later(sheet),
        *_list("Assumed, where a record does not say", sheet.assumed),
        *_list("Cautions", sheet.cautions),
        *_list("Sources", sheet.sources, "ol"),
        "</main>",
    ]
    return document(sheet.title, style + _foot(sheet, paper), body)


def _foot(sheet: Sheet, paper: Paper) -> str:
    """Return the style of the paper, its foot with the job's name and the page's number."""
    name = css_text(sheet.name)
    return (
        f'@page{{size:{paper};@bottom-left{{content:"{name}"}}'
        '@bottom-right{content:"page " counter(page) " of " counter(pages)}}'
    )


def _header(sheet: Sheet) -> Iterator[str]:
    lines = "".join(f"<p>{name} <i></i></p>" for name in _LINES)
    yield f"<header><h1>{escape(sheet.title)}{_notes((sheet.note,))}</h1>"
    yield f'<div class="who">{lines}</div>'
    if sheet.invented:
        yield f'<p class="invented">{escape(sheet.invented)}</p>'
    if sheet.alerts:
        yield '<section class="alerts"><h2>Settle first</h2>'
        yield from (_alert(one, named=True) for one in sheet.alerts)
        yield "</section>"
    yield "</header>"


def _alert(alert: Alert, *, named: bool) -> str:
    where = ""
    if named and (alert.step or alert.joint):
        step = f"step {alert.step} " if alert.step else ""
        where = f" {escape(step + alert.joint)}:"
    instead = f" Instead: {escape(alert.instead)}." if alert.instead else ""
    return (
        f'<p class="alert"><b>{alert.word}</b>{where} {escape(alert.text)}.{instead}'
        f"{_notes((alert.note,))}</p>"
    )


def _loosening(sheet: Sheet) -> Iterator[str]:
    if not sheet.loosening:
        return
    rows = [
        f"<li><span class=box></span> <b>{escape(one.joint)}</b>"
        + (f", loosen {escape(one.order)}" if one.order else "")
        + (f": {escape(one.note)}" if one.note else "")
        + "</li>"
        for one in sheet.loosening
    ]
    yield f'<section class="card"><h2>Taking apart</h2><ol>{"".join(rows)}</ol></section>'


def _reading(sheet: Sheet) -> Iterator[str]:
    rows = [f"<p><b>{escape(title)}</b>: {escape(text)}</p>" for title, text in sheet.reading]
    yield f'<section class="card"><h2>How to read this</h2>{"".join(rows)}</section>'


def _gate(card: GateCard) -> str:
    answer = f"{_box('yes')} {_box('no')}"
    asked = f"<b>{escape(card.question)}</b>"
    if card.reading:
        answer = f"<i></i> {escape(card.reading.unit)}"
        asked = f"{escape(card.reading.what)}: <strong>{escape(card.reading.limits)}</strong>."
    small = [f"With: {escape(card.tool)}."] if card.tool else []
    small.append(escape(card.why))
    small += [] if card.blocks else ["The work may go on before it holds."]
    kind = "Gate" if card.blocks else "Check"
    return (
        f'<article class="card gate"><p class="answer">{answer}</p>'
        f"{_title(card.number, f'{kind}: {card.name}')}<p>{asked} {' '.join(small)}</p></article>"
    )


def _joint(card: JointCard) -> str:
    before = [f"Before: {escape('; '.join(card.before))}."] if card.before else []
    before += [f"Snug: {escape(card.snug)}."] if card.snug else []
    before += [f"Have ready: {escape(', '.join(card.have))}."] if card.have else []
    return "\n".join(
        [
            '<article class="card joint">',
            f"<figure>{card.drawing}</figure>" if card.drawing else "",
            _title(card.number, card.name, card.note),
            f"<p>{escape(card.fastener)}</p>",
            *(_alert(alert, named=False) for alert in card.alerts),
            *(_stage(stage) for stage in card.stages),
            *(_order(one) for one in card.orders),
            f"<p>{' '.join(before)}</p>" if before else "",
            _reuse(card.reuse),
            _value(card),
            "</article>",
        ]
    )


def _value(card: JointCard) -> str:
    ticks = "".join(_box(str(number)) for number in range(1, card.count + 1))
    value = f"{escape(card.value.what)} <i></i> {escape(card.value.unit)}"
    return f'<p class="value"><span>{value}</span><span class="ticks">{ticks}</span></p>'


def _stage(stage: StageRow) -> str:
    said = [f"{stage.number}) <strong>{escape(stage.shown)}</strong>"]
    if stage.setting:
        wrench = f"<span>{escape(stage.wrench)}</span>"
        said.append(f"set <strong>{escape(stage.setting)}</strong> {wrench}")
    elif stage.wrench and not stage.window:
        said.append(f"with {escape(stage.wrench)}")
    if stage.window:
        said.append(f"then shows <strong>{escape(stage.window)}</strong>")
    if stage.missing:
        said.append(escape(stage.missing))
    return f'<p class="stage">{" ".join(said)}</p>'


def _order(row: OrderRow) -> str:
    what = f" {escape(row.what)}" if row.what else ""
    return f"<p>Order{what}: <b>{escape(row.order)}</b></p>"


def _reuse(reuse: ReuseBox) -> str:
    said = [f"<b>{escape(reuse.verdict)}</b>{_notes(reuse.notes)}"]
    if reuse.looks:
        looks = f"<b>{reuse.letter}</b>" if reuse.letter else escape("; ".join(reuse.looks))
        said.append(f"look: {looks}")
    said += [escape(text) for text in (*reuse.otherwise, *reuse.doubts)]
    said += [f"other sources: {escape(reuse.others)}"] if reuse.others else []
    blanks = "".join(_measured(blank) for blank in reuse.blanks)
    return f"<p>Reuse? {'. '.join(said)}.</p>{blanks}"


def _measured(blank: Blank) -> str:
    return (
        f'<p class="read">{escape(blank.what)}: <strong>{escape(blank.limits)}</strong> '
        f"<span><i></i> {escape(blank.unit)}</span></p>"
    )


def _later(sheet: Sheet) -> Iterator[str]:
    if not sheet.later:
        return
    rows = [
        f"<li><span class=box></span> <b>{escape(one.after)}</b>: step {one.step} "
        f"{escape(one.joint)}, {escape(one.what)} <i></i></li>"
        for one in sheet.later
    ]
    yield f'<section class="card"><h2>Look again after</h2><ul>{"".join(rows)}</ul></section>'


def _list(title: str, texts: Iterable[str], tag: str = "ul") -> Iterator[str]:
    items = "".join(f"<li>{escape(text)}</li>" for text in texts)
    if items:
        yield f'<section class="end"><h2>{title}</h2><{tag}>{items}</{tag}></section>'


def _title(number: int, name: str, note: int = 0) -> str:
    return f"<h2><b>{number}</b> {escape(name)}{_notes((note,))}</h2>"


def _box(label: str) -> str:
    return f'<span class="tick">{escape(label)}</span>'


def _notes(numbers: Iterable[int]) -> str:
    named = marks(numbers)
    return f"<sup>{named}</sup>" if named else ""
