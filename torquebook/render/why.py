"""The answer of ``why``: a rule's page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from torquebook.findings import Finding
    from torquebook.render.paper import Paper
    from torquebook.rules.engine import Rule


class Page(NamedTuple):
    """A rule, and what it says of its own example."""

    rule: Rule
    said: tuple[Finding, ...]


def text(answer: Page, paper: Paper) -> None:
    """Write the rule's page, with its example as it is judged now."""
    rule = answer.rule
    paper.heading(f"{rule.slug}, at worst: {rule.severity.word}")
    _section("Asks", rule.question, paper)
    _section("Why", rule.section("Why"), paper)
    _example("Fires", rule.fires, paper)
    for finding in answer.said:
        instead = f"; instead: {finding.instead}" if finding.instead else ""
        paper.text(f"{finding.severity.word.upper()}  {finding.message}{instead}", 4, 6)
    if not answer.said:
        paper.text("nothing, by this book", 4)
    _example("Passes", rule.passes, paper)
    _section("Mend", rule.section("Mend"), paper)
    if rule.needs:
        _section("Needs", ", ".join(rule.needs), paper)
    _section("Known gaps", rule.section("Known gaps"), paper)
    _section("Source", rule.source, paper)


def _section(heading: str, body: str, paper: Paper) -> None:
    if body:
        paper.heading(heading)
        for paragraph in body.split("\n\n"):
            paper.text(" ".join(paragraph.split()), 2)


def _example(heading: str, plan: str, paper: Paper) -> None:
    paper.heading(heading)
    for line in plan.strip().splitlines():
        paper.text(line, 2, 4)


def data(answer: Page) -> dict[str, Any]:
    """Return the page for a program."""
    rule = answer.rule
    return {
        "rule": rule.slug,
        "severity": rule.severity.word,
        "asks": rule.question,
        "why": rule.section("Why"),
        "fires": rule.fires,
        "says": [
            {
                "severity": finding.severity.word,
                "message": finding.message,
                "instead": finding.instead,
            }
            for finding in answer.said
        ],
        "passes": rule.passes,
        "mend": rule.section("Mend"),
        "needs": list(rule.needs),
        "known_gaps": rule.section("Known gaps"),
        "source": rule.source,
    }
