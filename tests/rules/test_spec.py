"""A line against the spec that it names: where the record is looked for, and when."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.findings import Severity
from torquebook.plans.reading import read_line, read_plan
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.findings import Finding

STARTER = """\
kind: joint
title: "Starter"
name: "starter motor"
fastener: {thread: "M10", strength_class: "8.8"}
count: 2
tighten: "40 N.m"
source: {kind: maker, title: "a maker's sheet", provenance: "read"}
"""


def said(line: str, book: Book) -> list[Finding]:
    findings = judge(read_line(line), book).findings
    return [finding for finding in findings if finding.rule.startswith("spec-")]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a user's folder with a starter of his own."""
    file = tmp_path / "joints" / "brigade" / "starter.yaml"
    file.parent.mkdir(parents=True)
    file.write_text(STARTER, encoding="utf-8")
    return tmp_path


def test_the_users_records_count(folder: Path, book: Book) -> None:
    """A record in a folder of the user's is held against the line, and its source is named."""
    line = "M10 8.8 45 N.m spec=joints/brigade/starter"
    assert said(line, book) == []
    (found,) = said(line, Book.open([folder]))
    assert (found.rule, found.instead, found.severity) == ("spec-differs", "40 N.m", Severity.STOP)
    assert found.source == "maker: a maker's sheet"
    assert found.numbers == {"torque_nm": 45.0, "spec_nm": 40.0}


def test_a_spec_is_named_by_its_file_too(folder: Path, book: Book) -> None:
    """The path of a file is a spec's name; one that is not there is asked about."""
    file = folder / "joints" / "brigade" / "starter.yaml"
    (found,) = said(f"M10 8.8 45 N.m spec={file}", book)
    assert found.rule == "spec-differs"
    (found,) = said(f"M10 8.8 45 N.m spec={folder}/none.yaml", book)
    assert (found.rule, found.severity) == ("spec-unknown", Severity.ASK)


def test_a_spec_with_a_fault_is_asked_about(folder: Path, book: Book) -> None:
    """A record that cannot be read is no fault of the plan's other lines."""
    file = folder / "joints" / "brigade" / "starter.yaml"
    file.write_text(STARTER.replace("count: 2", "count: two"), encoding="utf-8")
    (found,) = said(f"M10 8.8 45 N.m spec={file}", book)
    assert found.rule == "spec-unknown"
    assert "starter.yaml:5:8" in found.message


@pytest.mark.parametrize(
    ("torque", "severity"),
    [
        ("45 N.m", None),
        ("45.2 N.m", None),
        ("33.2 lbf.ft", None),
        ("45.3 N.m", Severity.ASK),
        ("48 N.m", Severity.ASK),
        ("50 N.m", Severity.STOP),
        ("40 N.m", Severity.STOP),
        ("45 lbf.ft", Severity.STOP),
        ("43-46 N.m", Severity.ASK),
        ("45 N.m + 30 deg", Severity.ASK),
        ("30 deg", Severity.ASK),
    ],
)
def test_how_serious_another_torque_is(torque: str, severity: Severity | None, book: Book) -> None:
    """Rounding passes; a stop needs both wrenches at their ends not to meet (4 % each)."""
    found = said(f"M10 8.8 {torque} spec=joints/brigade/starter", book)
    assert [one.severity for one in found] == ([] if severity is None else [severity])


def test_no_record_is_read_for_a_plan_that_names_no_spec(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The library is opened with the first spec, and once for all of them."""
    opened = []

    def opening(self: Library, folders: object = ()) -> None:
        opened.append(folders)
        first(self)

    first = Library.__init__
    monkeypatch.setattr(Library, "__init__", opening)
    judge(read_line("M10 8.8 45 N.m"), book)
    assert opened == []
    rows = "".join(f"M10,45 N.m,joints/brigade/{name}\n" for name in ("starter", "flywheel"))
    judge(read_plan("-", stdin=io.BytesIO(f"thread,tighten,spec\n{rows}".encode())), book)
    assert len(opened) == 1
