"""The answer of ``admit``: a line for each finding, then the counts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook.render.found import counts, line, quiet, sound, summary
from torquebook.render.judge import finding_data

if TYPE_CHECKING:
    from torquebook.findings import Finding
    from torquebook.render.paper import Paper
    from torquebook.rules.admission import Admission


def text(answer: Admission, paper: Paper) -> None:
    """Write what a contributor with a red build reads: where, what, what would be right."""
    for finding in answer.findings:
        paper.text(quiet(line(finding, paper.said)), hang=2)
    paper.gap()
    if answer.findings:
        paper.text("What a rule asks, and why: torquebook why RULE")
    paper.text(summary(answer))


def data(answer: Admission) -> dict[str, Any]:
    """Return the files, what was found in them, and the counts."""
    return {
        "files": [sound(name) for name in answer.files],
        "findings": [_finding_data(finding) for finding in answer.findings],
        "summary": {severity.word: count for severity, count in counts(answer).items()},
    }


def _finding_data(finding: Finding) -> dict[str, Any]:
    """Return a finding as ``judge`` does, and its place in parts."""
    place = finding.place
    plain = {
        key: sound(value) if isinstance(value, str) else value
        for key, value in finding_data(finding).items()
    }
    return {"file": sound(place.file), "line": place.line, "column": place.column, **plain}
