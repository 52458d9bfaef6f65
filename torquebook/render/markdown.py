"""Findings as a summary in Markdown, for a pull request or the page of a run."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.render.found import summary
from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Finding
    from torquebook.rules.admission import Admission

#: Characters of one summary: a comment takes 65,536 (common practice), the page of a step
#: 1 MiB (GitHub Docs, "Workflow commands for GitHub Actions", "Step isolation and limits").
ROOM: Final = 60_000
_HEADS: Final = ("", "where", "what is wrong", "what would be right", "rule")
# A host looks for names, issues and addresses in the text that is shown, so that to write a
# character in another way does not help; a comment in the midst does.
_APART: Final = "<!-- -->"
_ACTING: Final = str.maketrans(
    {mark: f"&#{ord(mark)};" for mark in r"\`*_[]<>&|~$!"}
    | {mark: f"{mark}{_APART}" for mark in "@#"}
)


def pieces(answer: Admission) -> Iterator[str]:
    """Yield the counts, then a table of the findings, worst first, as many as there is room for."""
    yield f"### torquebook admit: {summary(answer)}\n"
    if not answer.findings:
        return
    yield f"\n{_row(_HEADS)}{_row(['---'] * len(_HEADS))}"
    room = ROOM
    findings = sorted(answer.findings, key=lambda finding: finding.order)
    for index, finding in enumerate(findings):
        row = _row(_cells(finding))
        room -= len(row)
        if room < 0:
            left = len(findings) - index
            yield f"\n{left} more {'is' if left == 1 else 'are'} not shown: no room here.\n"
            break
        yield row
    yield "\nWhat a rule asks, and why: `torquebook why RULE`\n"


def _row(cells: tuple[str, ...] | list[str]) -> str:
    return f"| {' | '.join(cells)} |\n"


def _cells(finding: Finding) -> list[str]:
    place = finding.place
    return [
        finding.severity.word.upper(),
        f"<code>{literal(place.file)}</code>:{place.line}:{place.column}",
        literal(finding.message),
        literal(finding.instead or ""),
        f"<code>{literal(finding.rule)}</code>",
    ]


def literal(text: str) -> str:
    """Return one line of Markdown that shows a text as it is, in a cell of a table.

    Examples
    --------
    >>> literal("a|b <i> @you")
    'a&#124;b &#60;i&#62; @<!-- -->you'
    """
    text = inert(text).translate(_ACTING)
    return text.replace("://", f":{_APART}//").replace("www.", f"www{_APART}.")
