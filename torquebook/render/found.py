"""What every output of ``admit`` says alike: a finding's line, the counts, a file's name."""

from __future__ import annotations

import json
import os.path
from collections import Counter
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

from torquebook.findings import Severity
from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from torquebook.findings import Finding
    from torquebook.rules.admission import Admission

#: The older form of a command to the runner of a workflow, which obeys it wherever it stands in
#: a line of the log; no output holds it.
OLD_COMMAND: Final = "##["


def counts(answer: Admission) -> dict[Severity, int]:
    """Return how many findings there are of each severity, worst first."""
    found = Counter(finding.severity for finding in answer.findings)
    return {severity: found[severity] for severity in Severity}


def counted(found: Mapping[Severity, int], many: int, what: str) -> str:
    """Return counts in words, among so many of what was looked at.

    Examples
    --------
    >>> counted({Severity.STOP: 2, Severity.ASK: 0}, 1, "file")
    '2 stop in 1 file'
    """
    said = ", ".join(f"{count} {severity.word}" for severity, count in found.items() if count)
    return f"{said or 'nothing found'} in {many} {what}{'' if many == 1 else 's'}"


def summary(answer: Admission) -> str:
    """Return what was found among how many files."""
    return counted(counts(answer), len(answer.files), "file")


def sentence(finding: Finding) -> str:
    """Return what is wrong, and what would be right where that is known, on one line."""
    right = f" -> {finding.instead}" if finding.instead else ""
    return inert(f"{finding.message}{right}")


def line(finding: Finding, said: Callable[[str], str] = inert) -> str:
    """Return a finding as one line: where, how serious, what is wrong, what would be right.

    Parameters
    ----------
    finding : Finding
    said : callable
        Makes text safe to show.
    """
    place = finding.place
    return (
        f"{_marked(said(place.file))}:{place.line}:{place.column}: "
        f"{finding.severity.word.upper()} {said(sentence(finding))} [{said(finding.rule)}]"
    )


def _marked(name: str) -> str:
    """Return a name, in quotes where it could be taken for more than a name, or for less."""
    if ":" not in name and '"' not in name and name == name.strip():
        return name
    return '"' + name.replace('"', r"\"") + '"'


def quiet(text: str) -> str:
    r"""Return text of which no line is a command to the runner of a workflow.

    A runner obeys lines that begin with ``::``, and the older form of a command; so neither
    stands in what a contributor wrote.

    Examples
    --------
    >>> print(quiet("::stop-commands::x ##[error]"))
    :\x3astop-commands:\x3ax #\x23[error]
    """
    return text.replace("::", r":\x3a").replace(OLD_COMMAND, r"#\x23[")


def from_root(name: str, root: str) -> str:
    """Return a file's name as seen from a folder; the whole path if it is not below it.

    Examples
    --------
    >>> from_root("./specs/../specs/a.yaml", "")
    'specs/a.yaml'
    >>> from_root("/repo/specs/a.yaml", "/repo")
    'specs/a.yaml'
    >>> from_root("/elsewhere/a.yaml", "/repo")
    '/elsewhere/a.yaml'
    """
    try:
        seen = os.path.relpath(name, root or os.curdir)
    except ValueError:  # no name, or another drive
        seen = name
    if seen == os.pardir or seen.startswith(os.pardir + os.sep):
        seen = os.path.abspath(name)  # noqa: PTH100 - resolves no links
    return seen.replace(os.sep, "/")


def uri(name: str) -> str:
    """Return a path as a URI reference (RFC 3986), each byte that is not plain as ``%XX``.

    Examples
    --------
    >>> uri("specs/a b:c%.yaml")
    'specs/a%20b%3Ac%25.yaml'
    >>> uri("/repo/a.yaml")
    'file:///repo/a.yaml'
    """
    try:
        octets = name.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:  # halves of characters, which some systems let names hold
        octets = name.encode("utf-8", "surrogatepass")
    scheme = "file://" if name.startswith("/") else "file:///" if name[1:3] == ":/" else ""
    return scheme + quote(octets)


def sound(text: str) -> str:
    """Return text that any program can read: stray bytes and halves of characters as escapes."""
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def json_items(values: Iterable[object]) -> Iterator[str]:
    """Yield the items of a JSON array, one a line, so that many take little room."""
    before = ""
    for value in values:
        yield before + json_piece(value)
        before = ",\n"
    if before:
        yield "\n"


def json_piece(value: object) -> str:
    """Return a value as JSON in ASCII, and no line of it as a command to a runner."""
    return json.dumps(value, allow_nan=False).replace(OLD_COMMAND, r"#\u0023[")
