"""The formats of ``admit``, by the names that ``--format`` takes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from torquebook.render import admit, github, junit, markdown, sarif
from torquebook.render.paper import Paper
from torquebook.rules.admission import Admission

Format = Callable[[Admission, Paper], Iterator[str]]


#: Each yields its document in pieces; only ``text`` has to do with the paper.
FORMATS: Final[dict[str, Format]] = {
    "text": admit.text,
    "json": lambda answer, _: admit.json(answer),
    "sarif": lambda answer, _: sarif.pieces(answer),
    "junit": lambda answer, _: junit.pieces(answer),
    "github": lambda answer, _: github.pieces(answer),
    "markdown": lambda answer, _: markdown.pieces(answer),
}
