"""The summary in Markdown, read back by a library."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING

from admissions import admissions, made
from hypothesis import given
from markdown_it import MarkdownIt

from torquebook.findings import Finding, Severity
from torquebook.render.markdown import ROOM, pieces
from torquebook.render.plain import inert
from torquebook.rules.admission import Admission

if TYPE_CHECKING:
    from markdown_it.token import Token

# CommonMark, and of GitHub Flavored Markdown (0.29) the tables and struck-out text.
READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
PLAIN = {"text", "html_inline"}
OWN = {"<code>", "</code>", "<!-- -->"}


def read(document: str) -> tuple[list[Token], list[list[str]]]:
    """Return a document's blocks, and the cells of its table as they are shown."""
    tokens = READER.parse(document)
    rows: list[list[str]] = []
    for before, token in pairwise(tokens):
        if before.type == "tr_open":
            rows.append([])
        if before.type == "td_open":
            rows[-1].append(shown(token))
    return tokens, rows[1:]


def shown(cell: Token) -> str:
    """Return what a cell shows; nothing in it acts but our own marks."""
    parts = cell.children or []
    assert {part.type for part in parts} <= PLAIN
    assert {part.content for part in parts if part.type == "html_inline"} <= OWN
    return "".join(part.content for part in parts if part.type == "text")


def expected(finding: Finding) -> list[str]:
    place = finding.place
    return [
        finding.severity.word.upper(),
        f"{inert(place.file)}:{place.line}:{place.column}".strip(),
        inert(finding.message).strip(),
        inert(finding.instead or "").strip(),
        finding.rule,
    ]


@given(admissions())
def test_table_reads_back(answer: Admission) -> None:
    """Each finding is a row of five cells that show what they are to show, worst first."""
    document = "".join(pieces(answer))
    tokens, rows = read(document)
    findings = sorted(answer.findings, key=lambda finding: finding.order)
    assert [[cell.strip() for cell in row] for row in rows] == list(map(expected, findings))
    blocks = [token.type for token in tokens if token.level == 0 and token.nesting >= 0]
    one = ["heading_open", "inline", "table_open", "paragraph_open", "inline"]
    assert [b for b in blocks if b != "inline"] == [
        b for b in (one if findings else one[:1]) if b != "inline"
    ]
    assert "##[" not in document
    assert not any(text.lstrip().startswith("::") for text in document.split("\n"))


@given(admissions())
def test_nobody_is_called_and_nothing_is_linked(answer: Admission) -> None:
    """No name, issue or address is whole in the text that a host looks through."""
    document = "".join(pieces(answer))
    assert not re.search(r"[@#]\w|://|www\.", document.replace("&#", ""))
    assert not re.search(r"[@](?!<!-- -->)", document)


def test_heading_has_the_counts() -> None:
    """What was found in how many files comes first; a clean answer is no more than that."""
    assert "".join(pieces(Admission(("a", "b"), ()))) == (
        "### torquebook admit: nothing found in 2 files\n"
    )
    found = (made("a", severity=Severity.NOTE), made("a"))
    assert "".join(pieces(Admission(("a",), found))).startswith(
        "### torquebook admit: 1 stop, 1 note in 1 file\n"
    )


def test_what_has_no_room_is_counted() -> None:
    """A summary fits, the worst are in it, and what is left out is said."""
    many = 3_000
    notes = [made(f"{n}.yaml", severity=Severity.NOTE) for n in range(many)]
    answer = Admission((), (*notes, made("worst.yaml")))
    document = "".join(pieces(answer))
    assert len(document) < ROOM + 500 < 65_536
    _, rows = read(document)
    assert rows[0][1] == "worst.yaml:1:1"
    (left,) = re.findall(r"^(\d+) more are not shown", document, re.MULTILINE)
    assert len(rows) + int(left) == many + 1
