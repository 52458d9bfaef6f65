"""The answer of ``convert``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook import units
from torquebook.render.figures import on_the_point

if TYPE_CHECKING:
    from torquebook.answers.conversions import Conversion
    from torquebook.render.paper import Paper


def text(answer: Conversion, paper: Paper) -> None:
    """Write one line, or a column of units."""
    if len(answer.results) == 1:
        paper.text(f"{units.write(answer.given)} = {units.write(answer.results[0])}")
        return
    written = [units.write(quantity).replace("°", " °") for quantity in answer.results]
    cells = [line.partition(" ") for line in written]
    numbers = on_the_point([number for number, _, _ in cells])
    paper.text(f"{units.write(answer.given)} =")
    paper.columns([(n, unit) for n, (_, _, unit) in zip(numbers, cells, strict=True)], right={0})


def data(answer: Conversion) -> dict[str, Any]:
    """Return the answer for a program, unrounded."""
    return {
        "given": answer.given._asdict(),
        "results": [quantity._asdict() for quantity in answer.results],
    }
