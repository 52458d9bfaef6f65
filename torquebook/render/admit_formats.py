"""The formats of ``admit``, by the names that ``--format`` takes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from torquebook.render import admit, github, junit, markdown, sarif
from torquebook.render.data import json_text
from torquebook.render.found import OLD_COMMAND
from torquebook.render.paper import Paper
from torquebook.rules.admission import Admission

Format = Callable[[Admission, Paper], Iterator[str]]


def _text(answer: Admission, paper: Paper) -> Iterator[str]:
    admit.text(answer, paper)
    yield str(paper)


def _json(answer: Admission, _: Paper) -> Iterator[str]:
    yield json_text(admit.data(answer)).replace(OLD_COMMAND, r"#\u0023[")


#: Each yields its document in pieces; only ``text`` has to do with the paper.
FORMATS: Final[dict[str, Format]] = {
    "text": _text,
    "json": _json,
    "sarif": lambda answer, _: sarif.pieces(answer),
    "junit": lambda answer, _: junit.pieces(answer),
    "github": lambda answer, _: github.pieces(answer),
    "markdown": lambda answer, _: markdown.pieces(answer),
}
