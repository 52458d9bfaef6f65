"""The formats of ``admit``, by the names that ``--format`` takes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from typing import Final

from torquebook.render import admit
from torquebook.render.paper import Paper
from torquebook.rules.admission import Admission

Format = Callable[[Admission, Paper], Iterator[str]]


def _of(module: str) -> Format:
    """Return the format of a module of its own, which is loaded when the format is asked for."""

    def pieces(answer: Admission, _: Paper) -> Iterator[str]:
        found: Iterator[str] = import_module(f"torquebook.render.{module}").pieces(answer)
        return found

    return pieces


#: Each yields its document in pieces; only ``text`` has to do with the paper.
FORMATS: Final[dict[str, Format]] = {
    "text": admit.text,
    "json": lambda answer, _: admit.json(answer),
    "sarif": _of("sarif"),
    "junit": _of("junit"),
    "github": _of("github"),
    "markdown": _of("markdown"),
}
