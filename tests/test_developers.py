"""The developers' guide shows records that the models take."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

import pytest
from first_faults import read_folder

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.catalogue.reading import vet_text
from torquebook.findings import Severity
from torquebook.records.base import SourceKind
from torquebook.records.job import JobRecord
from torquebook.rules.judge_records import judged

GUIDE = (Path(__file__).parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
RECORDS = re.findall(r"```yaml\n([\s\S]*?)```", GUIDE)


@pytest.mark.parametrize("text", RECORDS)
def test_example_records_are_sound(text: str) -> None:
    """No record in the guide has a fault."""
    record, faults = vet_text(text, "DEVELOPERS.md")
    assert faults == ()
    assert record is not None


def test_the_example_becomes_a_row(tmp_path: Path) -> None:
    """The first record in the guide becomes a row of its shelf."""
    (tmp_path / "mine.yaml").write_text(RECORDS[0], encoding="utf-8")
    assert len(read_folder(tmp_path)["frictions"]) == 1


def test_the_example_of_a_job_is_clean(tmp_path: Path) -> None:
    """The guide's joint and job, each in the file that it names, are judged without a question."""
    for text in RECORDS[1:]:
        (name,) = re.findall(r"# (jo\S*\.yaml)$", text, re.MULTILINE)
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    library = Library([tmp_path])
    job = library.one("jobs", JobRecord, "jobs/example/pump")
    verdict = judged(job, Book.open([tmp_path]), library)
    assert len(verdict.answers) == 1
    assert [(f.rule, f.message) for f in verdict.findings if f.severity != Severity.NOTE] == []


def test_kinds_of_sources_are_all_named() -> None:
    """The guide lists exactly the kinds of sources that a record may have."""
    (listed,) = re.findall(r"`source\.kind` is one of ([^.]*)\.", GUIDE)
    assert set(re.findall(r"`([^`]*)`", listed)) == set(get_args(SourceKind))
