"""The card of a job: what comes off first, and its steps in working order."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.render.plaincard import shown, source, title

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from torquebook.answers.cards import Looked
    from torquebook.render.paper import Paper

_ENDS: Final = (("low", "at least"), ("high", "at most"))


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
    ends = [f"{word} {shown(measure[key])}" for key, word in _ENDS if key in measure]
    return f"{measure['what']}, {', '.join(ends)} {measure['unit'].replace('.', '·')}"
