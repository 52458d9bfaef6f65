"""The answer of ``admit``: a line for each finding, then the counts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.render.found import (
    counts,
    json_items,
    json_piece,
    line,
    quiet,
    sound,
    summary,
)
from torquebook.render.judge import finding_data

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Finding
    from torquebook.render.paper import Paper
    from torquebook.rules.admission import Admission


GREEN: Final = (
    "What is clean is well formed and plausible. Whether it is what its source prints is for "
    "whoever reviews it."
)


def text(answer: Admission, paper: Paper) -> Iterator[str]:
    """Yield what a contributor with a red build reads: where, what, what would be right."""
    for finding in answer.findings:
        paper.text(quiet(line(finding, paper.said)), hang=2)
        yield paper.torn_off()
    if answer.findings:
        yield "\n"
        paper.text("What a rule asks, and why: torquebook why RULE")
    paper.text(summary(answer))
    paper.text(GREEN)
    yield paper.torn_off()


def json(answer: Admission) -> Iterator[str]:
    """Yield the files, what was found in them, and the counts, as a JSON object."""
    yield '{\n"files": [\n'
    yield from json_items(sound(name) for name in answer.files)
    yield '],\n"findings": [\n'
    yield from json_items(map(_finding_data, answer.findings))
    found = {severity.word: count for severity, count in counts(answer).items()}
    yield f'],\n"summary": {json_piece(found)}\n}}\n'


def _finding_data(finding: Finding) -> dict[str, Any]:
    """Return a finding as ``judge`` does, and its place in parts."""
    place = finding.place
    plain = {
        key: sound(value) if isinstance(value, str) else value
        for key, value in finding_data(finding).items()
    }
    return {"file": sound(place.file), "line": place.line, "column": place.column, **plain}
