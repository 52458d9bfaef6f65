"""Findings as the workflow commands that annotate lines of a pull request."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.findings import Severity
from torquebook.render.found import from_root, line, summary
from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Finding
    from torquebook.rules.admission import Admission

COMMANDS: Final = {Severity.STOP: "error", Severity.ASK: "warning", Severity.NOTE: "notice"}
# What a runner takes back: of a message the first three, of a property all five.
_DATA: Final = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A"})
_PROPERTY: Final = _DATA | str.maketrans({":": "%3A", ",": "%2C"})


def pieces(answer: Admission) -> Iterator[str]:
    """Yield a command for each finding, then the counts for whoever reads the log.

    The log shows messages without their properties, so a message says where, too.
    """
    for finding in answer.findings:
        yield _command(finding, answer.root)
    yield f"{summary(answer)}\n"


def _command(finding: Finding, root: str) -> str:
    place = finding.place
    properties = {
        "file": from_root(place.file, root),
        "line": str(place.line),
        "col": str(place.column),
        "title": f"{finding.severity.word.upper()} {finding.rule}",
    }
    said = ",".join(f"{key}={_escaped(text, _PROPERTY)}" for key, text in properties.items())
    return f"::{COMMANDS[finding.severity]} {said}::{_escaped(line(finding), _DATA)}\n"


def _escaped(text: str, table: dict[int, str]) -> str:
    """Return text in which nothing ends the command, and nothing acts on a terminal."""
    return inert(text.translate(table))
