"""The list of rules."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.render.paper import Paper
    from torquebook.rules.engine import Rule


def text(answer: Sequence[Rule], paper: Paper) -> None:
    """Write a row a rule: its slug, the worst that it says, its question."""
    heads = ("rule", "worst", "asks")
    rows = [(rule.slug, rule.severity.word, rule.question) for rule in answer]
    longest = max(len(rule.slug) for rule in answer)
    paper.grid(rows, heads, (longest, 5, 80 - longest - 5 - 2 * 2), indent=0)
    paper.gap()
    paper.text("A rule's page: torquebook why RULE")


def data(answer: Sequence[Rule]) -> list[dict[str, Any]]:
    """Return the rules for a program."""
    return [
        {"rule": rule.slug, "severity": rule.severity.word, "asks": rule.question}
        for rule in answer
    ]
