"""The record of a job as one page of HTML that holds no script and asks for nothing."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Final

from torquebook.render.cautions import CAUTION
from torquebook.render.plain import inert
from torquebook.render.record import COLUMNS, for_reading, sections, summary, title

if TYPE_CHECKING:
    from torquebook.jobs.report import Report

_HEADS: Final = ("no", "at", "what", "of", "which", "asked for", "value", "verdict", "said")
_STYLE: Final = """\
:root { color-scheme: light dark; }
body { font: 1rem/1.4 system-ui, sans-serif; margin: 2rem auto; max-width: 75rem; padding: 0 1rem; }
table { border-collapse: collapse; width: 100%; }
th, td { border-bottom: 1px solid #8886; padding: .2rem .5rem; text-align: left;
  vertical-align: top; }
td:first-child { text-align: right; }
@media print { body { margin: 0; max-width: none; font-size: 9pt; } thead { display:
  table-header-group; } tr { break-inside: avoid; } }
"""
_POLICY: Final = "default-src 'none'; style-src 'unsafe-inline'"


def page(answer: Report) -> str:
    """Return the record as a page."""
    head = _said(title(answer))
    parts = [f"<h1>{head}</h1>", _list(summary(answer))]
    parts += [f"<h2>{_said(name)}</h2>\n{_list(lines)}" for name, lines in sections(answer)]
    rows = [
        "<tr>" + "".join(f"<td>{_said(str(getattr(row, name)))}</td>" for name in COLUMNS) + "</tr>"
        for row in map(for_reading, answer.rows)
    ]
    heads = "".join(f'<th scope="col">{name}</th>' for name in _HEADS)
    parts.append("<h2>Entries</h2>")
    parts.append(f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>")
    body = "\n".join([*parts, *rows, "</tbody>\n</table>", f"<p>{_said(CAUTION)}</p>"])
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{head}</title>\n<style>\n{_STYLE}</style>\n</head>\n<body>\n{body}\n"
        "</body>\n</html>\n"
    )


def _list(lines: list[str]) -> str:
    return "<ul>\n" + "\n".join(f"<li>{_said(line)}</li>" for line in lines) + "\n</ul>"


def _said(text: str) -> str:
    return escape(inert(text))
