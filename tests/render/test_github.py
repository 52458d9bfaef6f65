"""Workflow commands, read back by what is published of them.

GitHub Docs, "Workflow commands for GitHub Actions": ``::name key=value,key=value::message``. What
is taken back: https://github.com/actions/runner, src/Runner.Common/ActionCommand.cs, TryParseV2:
``%0D %0A %25`` in messages, ``%3A %2C`` in properties too, ``%25`` last.
"""

from __future__ import annotations

import pytest
from admissions import admissions, made
from hypothesis import given
from hypothesis import strategies as st

from torquebook.findings import Severity
from torquebook.render.found import from_root, line
from torquebook.render.github import pieces
from torquebook.render.plain import inert
from torquebook.rules.admission import Admission

TAKEN_BACK = (("%0D", "\r"), ("%0A", "\n"), ("%3A", ":"), ("%2C", ","), ("%25", "%"))


def command(text: str) -> tuple[str, dict[str, str], str] | None:
    """Return a line of a log as a runner takes it, None if it is no command."""
    text = text.lstrip()
    if not text.startswith("::") or "::" not in text[2:]:
        return None
    head, message = text[2:].split("::", 1)
    name, _, said = head.partition(" ")
    properties = dict(pair.split("=", 1) for pair in said.strip().split(",") if pair)
    for written, mark in TAKEN_BACK:
        properties = {key: value.replace(written, mark) for key, value in properties.items()}
        if mark not in ":,":
            message = message.replace(written, mark)
    return name, properties, message


def lines(answer: Admission) -> list[str]:
    document = "".join(pieces(answer))
    document.encode()
    *found, end = document.split("\n")
    assert end == ""
    assert len(found) == len(document.splitlines())
    return found


@given(admissions())
def test_each_finding_is_one_command(answer: Admission) -> None:
    """No name and no message ends a command, adds a property or begins another command."""
    *commands, last = lines(answer)
    assert command(last) is None
    assert len(commands) == len(answer.findings)
    for text, finding in zip(commands, answer.findings, strict=True):
        read = command(text)
        assert read is not None
        name, properties, message = read
        assert name == {"stop": "error", "ask": "warning", "note": "notice"}[finding.severity.word]
        assert list(properties) == ["file", "line", "col", "title"]
        assert properties["line"] == str(finding.place.line)
        assert properties["col"] == str(finding.place.column)
        assert properties["title"] == f"{finding.severity.word.upper()} {finding.rule}"
        assert inert(properties["file"]) == inert(from_root(finding.place.file, ""))
        assert message == line(finding)


@given(st.text("ab/.%,:=\r\n0AD253C öß|<>\"'", min_size=1))
def test_names_come_back_exactly(name: str) -> None:
    """A name of characters that show, or end a line, is the file's own."""
    read = command(lines(Admission((name,), (made(f"d/{name}"),)))[0])
    assert read is not None
    assert read[1]["file"] == from_root(f"d/{name}", "")


@pytest.mark.parametrize(
    ("name", "written"),
    [("a,b:c%.yaml", "file=a%2Cb%3Ac%25.yaml,"), ("a\r\nb.yaml", "file=a%0D%0Ab.yaml,")],
)
def test_escapes(name: str, written: str) -> None:
    """The five characters stand as documented."""
    assert written in lines(Admission((), (made(name),)))[0]


def test_whole_command() -> None:
    """A finding in full, with the counts behind it."""
    found = made("/repo/a.yaml", 3, 9, "100 %", severity=Severity.ASK)
    text, last = lines(Admission(("/repo/a.yaml",), (found,), root="/repo"))
    properties, message = text.split("::")[1:]
    assert properties == "warning file=a.yaml,line=3,col=9,title=ASK nut-weaker"
    assert message == "/repo/a.yaml:3:9: ASK 100 %25 [nut-weaker]"
    assert last == "1 ask in 1 file"
