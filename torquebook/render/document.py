"""An HTML document that stands by itself: no script, nothing fetched."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable

_POLICY: Final = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"


def document(title: str, style: str, body: Iterable[str]) -> str:
    """Return a document that asks nobody for anything, from its style and what it shows."""
    rows = [
        "<!DOCTYPE html>",
        '<html lang="en">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{escape(title)}</title>",
        f"<style>{style}</style>",
        "</head>",
        "<body>",
        *body,
        "</body>",
        "</html>",
    ]
    return "\n".join(rows) + "\n"


def css_text(text: str) -> str:
    """Return text as it stands in a string of CSS: all but plain letters as escapes."""
    return "".join(
        # The space ends the escape, and is no part of the text.
        one if one.isascii() and (one.isalnum() or one == " ") else f"\\{ord(one):x} "
        for one in text
    )
