"""Findings as JUnit XML: a file is a test case, and what stops it is its failure."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from torquebook.findings import Severity
from torquebook.render.found import OLD_COMMAND, line
from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Finding
    from torquebook.rules.admission import Admission


def pieces(answer: Admission) -> Iterator[str]:
    """Yield the suite case by case, in the order of the files.

    A file that nobody named, but that something was found in, is a case too.
    """
    found: dict[str, list[Finding]] = {name: [] for name in answer.files}
    for finding in answer.findings:
        found.setdefault(finding.place.file, []).append(finding)
    failures = sum(any(map(_fails, findings)) for findings in found.values())
    yield '<?xml version="1.0" encoding="UTF-8"?>\n'
    yield f'<testsuite name="torquebook admit" tests="{len(found)}" failures="{failures}"'
    yield ' errors="0" skipped="0">\n'
    for name, findings in found.items():
        text = ET.tostring(_case(name, findings), encoding="unicode")
        yield text.replace(OLD_COMMAND, "#&#35;[") + "\n"
    yield "</testsuite>\n"


def _fails(finding: Finding) -> bool:
    return finding.severity is not Severity.NOTE


def _case(name: str, findings: list[Finding]) -> ET.Element:
    """Return one file's case; inert text holds no character that XML 1.0 (2.2) forbids."""
    case = ET.Element("testcase", classname="torquebook.admit", name=inert(name))
    failed = sorted(filter(_fails, findings), key=lambda finding: finding.severity)
    if failed:
        worst = failed[0]
        failure = ET.SubElement(case, "failure", type=worst.severity.word, message=line(worst))
        failure.text = "\n".join(line(finding) for finding in findings if _fails(finding))
    if notes := [line(finding) for finding in findings if not _fails(finding)]:
        ET.SubElement(case, "system-out").text = "\n".join(notes)
    return case
