"""The card of a job: what comes off first, and its steps in working order."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook.numerals import limits_text
from torquebook.render.plaincard import source, title
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from torquebook.answers.cards import Looked
    from torquebook.render.paper import Paper


def text(answer: Looked, paper: Paper) -> None:
    """Write the card of a job."""
    card = answer.card or {}
    facts = card["facts"]
    title(card, paper)
    if "removal" in facts:
        paper.heading("Taking apart")
        for one in facts["removal"]:
            paper.text(": ".join(filter(None, (one["joint"], _removal(one)))), 2, 4)
    paper.heading("Steps")
    paper.columns(list(_steps(facts)), right={0})
    source(card, paper)


def _removal(one: Mapping[str, Any]) -> str:
    order = f"order {one['order']}" if "order" in one else ""
    return ", ".join(filter(None, (order, one.get("note"))))


def _steps(facts: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    """Yield number, kind and what is done for each step."""
    for number, step in enumerate(facts["steps"], 1):
        if "joint" in step:
            yield f"{number}", "joint", step["joint"]
        else:
            yield f"{number}", "gate", f"{step['gate']['name']}: {_asked(step['gate'])}"


def _asked(gate: Mapping[str, Any]) -> str:
    """Return what a gate asks, or measures and its limits."""
    if "question" in gate:
        return f"{gate['question']}"
    measure = gate["measure"]
    ends = limits_text(measure.get("low"), measure.get("high"))
    return f"{measure['what']}, {with_unit(ends, measure['unit'])}"
