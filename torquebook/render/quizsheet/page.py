"""The papers of a quiz as HTML files: no script, nothing fetched, printed or shown alike."""

from __future__ import annotations

import os.path
import re
from html import escape
from typing import TYPE_CHECKING, Final

from torquebook.render.document import css_text, document
from torquebook.render.sheet.words import marks

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.render.papersizes import Paper
    from torquebook.render.quizsheet.model import (
        Asked,
        AskedSheet,
        Keyed,
        KeyPaper,
        QuestionPaper,
        SolutionPaper,
        Table,
        Worked,
    )

_ORDER: Final = re.compile(r"\d+(?:-\d+){2,}")  # stays on one line
_STYLE: Final = os.path.join(os.path.dirname(__file__), "quiz.css")  # noqa: PTH118, PTH120 - pathlib costs the start


def questions_page(quiz: QuestionPaper, paper: Paper = "A4") -> str:
    """Return the sheets as one HTML document, each from a new page on.

    Parameters
    ----------
    quiz : QuestionPaper
    paper : str
        ``A4`` or ``Letter``.
    """
    # Each sheet is a page of its own name, so that its foot can say which sheet it belongs to.
    feet = "".join(
        f'@page s{at}{{@bottom-left{{content:"{css_text(sheet.name)}";white-space:nowrap}}}}'
        for at, sheet in enumerate(quiz.sheets, 1)
    )
    style = f'{feet}@page{{size:{paper};@bottom-right{{content:"{css_text(quiz.foot)}"}}}}'
    body = [piece for at, sheet in enumerate(quiz.sheets, 1) for piece in _sheet(at, sheet, quiz)]
    return document(quiz.title, _style(style), body)


def _style(own: str) -> str:
    with open(_STYLE, encoding="utf-8") as file:  # noqa: PTH123 - as above
        return file.read() + own


def _sheet(at: int, sheet: AskedSheet, quiz: QuestionPaper) -> Iterator[str]:
    count = len(sheet.questions)
    yield f'<article class="sheet" style="page:s{at}"><header>'
    yield f'<div class="top"><h1>{escape(quiz.title)}</h1><b>{escape(sheet.name)}</b></div>'
    yield f"<p>{escape(quiz.facts)}</p>"
    yield f'<div class="who"><span>Name <i></i></span><span>right <i></i> of {count}</span></div>'
    yield f'<p class="small">{escape(quiz.reading)} <b>{escape(quiz.caution)}</b></p></header>'
    yield '<div class="columns">'
    *others, last = sheet.questions
    yield from map(_asked, others)
    # In the last question, so that no page is begun for it.
    yield _asked(last, f'<p class="end">End of {escape(_lowered(sheet.name))}.</p>')
    yield "</div></article>"


def _lowered(name: str) -> str:
    return name[:1].lower() + name[1:]


def _asked(asked: Asked, end: str = "") -> str:
    wide = ' class="wide"' if asked.wide else ""
    figure = f"<figure{wide}>{asked.drawing}</figure>" if asked.drawing else ""
    said = _ORDER.sub(r"<span>\g<0></span>", escape(asked.text))
    text = f'<p class="text"><b class="n">{asked.number}</b>{said}</p>'
    parts = [
        *((text, figure) if asked.wide else (figure, text)),
        f'<p class="given">{escape(" ".join(asked.given))}</p>',
        _table(asked.table) if asked.table else "",
        _options(asked),
        _number(asked) if asked.unit else "",
        f'<p class="places">{_BOX * asked.places}</p>' if asked.places else "",
        end,
    ]
    return f'<section class="q">{"".join(parts)}</section>'


_BOX: Final = '<span class="box"></span>'


def _table(table: Table) -> str:
    heads = "".join(f"<th>{escape(column)}</th>" for column in table.columns)
    rows = "".join(
        f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in table.rows
    )
    caption = f"<caption>{escape(table.title)}</caption>"
    return f"<table>{caption}<tr>{heads}</tr>{rows}</table>"


def _options(asked: Asked) -> str:
    items = "".join(
        f'<li><span class="box">{letter}</span><span>{escape(text)}</span></li>'
        for letter, text in asked.options
    )
    return f'<ul class="options in{asked.across}">{items}</ul>' if items else ""


def _number(asked: Asked) -> str:
    return (
        f'<p class="number"><i></i><span>{escape(asked.unit)}</span>'
        f"<span>{escape(asked.margin)}</span></p>"
    )


def keys_page(quiz: KeyPaper, paper: Paper = "A4") -> str:
    """Return the keys as an HTML document of their own.

    Parameters
    ----------
    quiz : KeyPaper
    paper : str
        ``A4`` or ``Letter``.
    """
    body = [
        *_head(quiz.title, quiz.facts, quiz.caution),
        '<main class="keys"><div class="columns">',
        *(_section(sheet.name, map(_keyed, sheet.keys)) for sheet in quiz.sheets),
        *(
            _section(f"List {letter}: as right as one another", [f"<p>{escape(orders)}</p>"])
            for letter, orders in quiz.orders
        ),
        "</div></main>",
    ]
    return document(quiz.title, _style(_foot(quiz.title, paper)), body)


def _head(title: str, facts: str, caution: str) -> Iterator[str]:
    yield f"<header><h1>{escape(title)}</h1><p>{escape(facts)}</p>"
    yield f'<p class="small">{escape(caution)}</p></header>'


def _foot(title: str, paper: Paper) -> str:
    return (
        f'@page{{size:{paper};@bottom-left{{content:"{css_text(title)}"}}'
        '@bottom-right{content:"page " counter(page) " of " counter(pages)}}'
    )


def _section(name: str, rows: Iterable[str]) -> str:
    return f"<section><h2>{escape(name)}</h2>{''.join(rows)}</section>"


def _keyed(key: Keyed) -> str:
    wrong = "; ".join(f"<b>{escape(what)}</b> {escape(why)}" for what, why in key.wrong)
    return (
        f"<p><b>{key.number}</b><span><strong>{escape(key.key)}</strong>"
        f"{f' wrong: {wrong}' if wrong else ''}</span></p>"
    )


def solutions_page(quiz: SolutionPaper, paper: Paper = "A4") -> str:
    """Return the ways to the keys as an HTML document of their own.

    Parameters
    ----------
    quiz : SolutionPaper
    paper : str
        ``A4`` or ``Letter``.
    """
    sources = "".join(f"<li>{escape(source)}</li>" for source in quiz.sources)
    body = [
        *_head(quiz.title, quiz.facts, quiz.caution),
        '<main class="ways"><div class="columns">',
        *(_section(sheet.name, map(_worked, sheet.questions)) for sheet in quiz.sheets),
        f"<section><h2>Sources</h2><ol>{sources}</ol></section>",
        "</div></main>",
    ]
    return document(quiz.title, _style(_foot(quiz.title, paper)), body)


def _worked(one: Worked) -> str:
    steps = "<br>".join(map(escape, one.steps))
    return (
        f"<p><b>{one.number}</b><span><strong>{escape(one.key)}</strong> {escape(one.aim)}<br>"
        f"{steps}<sup>{marks(one.notes)}</sup></span></p>"
    )
