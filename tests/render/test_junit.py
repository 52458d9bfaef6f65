"""JUnit XML against a published schema, and read by a library."""

from __future__ import annotations

from pathlib import Path

import pytest
import xmlschema
from admissions import admissions, made
from hypothesis import given
from junitparser import Failure, JUnitXml, TestSuite

from torquebook.findings import Severity
from torquebook.render.found import line
from torquebook.render.junit import pieces
from torquebook.render.plain import inert
from torquebook.rules.admission import Admission

# The Jenkins xUnit plugin's schema of JUnit reports; see data/README.md.
SCHEMA = xmlschema.XMLSchema10(Path(__file__).parent / "data/junit-10.xsd")


def suite(answer: Admission) -> TestSuite:
    document = "".join(pieces(answer))
    assert "##[" not in document
    assert not any(text.lstrip().startswith("::") for text in document.split("\n"))
    SCHEMA.validate(document)
    (read,) = JUnitXml.fromstring(document.encode())
    assert isinstance(read, TestSuite)
    return read


def test_the_schema_can_fail() -> None:
    """The schema refuses a suite without its counts."""
    with pytest.raises(xmlschema.XMLSchemaValidationError):
        SCHEMA.validate('<testsuite name="a"/>')


@given(admissions())
def test_any_admission_is_valid_and_reads_back(answer: Admission) -> None:
    """A case a file, with every finding in it; stops and asks fail, notes do not."""
    read = suite(answer)
    cases = list(read)
    assert [case.name for case in cases] == [inert(name) for name in answer.files]
    failing = 0
    for name, case in zip(answer.files, cases, strict=True):
        own = [finding for finding in answer.findings if finding.place.file == name]
        failed = [line(f) for f in own if f.severity is not Severity.NOTE]
        noted = [line(f) for f in own if f.severity is Severity.NOTE]
        assert [failure.text for failure in case.result] == (["\n".join(failed)] if failed else [])
        assert (case.system_out or "") == "\n".join(noted)
        failing += bool(failed)
    assert (read.tests, read.failures, read.errors, read.skipped) == (len(cases), failing, 0, 0)


def test_worst_finding_names_the_failure() -> None:
    """Type and message are those of the worst, the text has all in their order."""
    ask = made("a.yaml", 2, message="doubtful", severity=Severity.ASK)
    stop = made("a.yaml", 9, message="bad", instead="good")
    (case,) = suite(Admission(("a.yaml",), (ask, stop)))
    (failure,) = case.result
    assert isinstance(failure, Failure)
    assert (failure.type, failure.message) == ("stop", "a.yaml:9:1: STOP bad -> good [nut-weaker]")
    assert failure.text == f"{line(ask)}\n{line(stop)}"


def test_clean_files_pass_and_none_is_lost() -> None:
    """A clean file is a case without a result; one that nobody named is a case, too."""
    read = suite(Admission(("b.yaml", "a.yaml", "b.yaml"), (made("c.yaml"),)))
    assert [(case.name, case.is_passed) for case in read] == [
        ("b.yaml", True), ("a.yaml", True), ("c.yaml", False),
    ]  # fmt: skip
