"""SARIF against the schema of OASIS, and read back."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote_to_bytes

import pytest
from admissions import MIXED, admissions, made, octets
from hypothesis import given
from jsonschema import Draft4Validator

from torquebook import __version__
from torquebook.findings import Severity
from torquebook.render.found import from_root, sentence
from torquebook.render.sarif import pieces
from torquebook.rules.admission import Admission
from torquebook.rules.registry import RULES

# OASIS, SARIF Version 2.1.0, JSON schema, revision rtm.5; see data/README.md.
SCHEMA = json.loads((Path(__file__).parent / "data/sarif-2.1.0-rtm.5.json").read_text("utf-8"))
CHECK = Draft4Validator(SCHEMA)


def log(answer: Admission) -> dict[str, Any]:
    document = "".join(pieces(answer))
    assert document.isascii()
    assert "##[" not in document
    read = json.loads(document)
    assert isinstance(read, dict)
    return read


def plain(message: dict[str, str]) -> str:
    """Return a message as a viewer shows it (SARIF 2.1.0, 3.11.5)."""
    return message["text"].replace("{{", "{").replace("}}", "}")


def test_the_schema_can_fail() -> None:
    """The schema is sound, and refuses a word of our own."""
    Draft4Validator.check_schema(SCHEMA)
    faulty = log(MIXED)
    faulty["runs"][0]["results"][0]["level"] = "stop"
    assert not CHECK.is_valid(faulty)


@given(admissions())
def test_any_admission_is_valid_and_reads_back(answer: Admission) -> None:
    """The schema takes it, and each finding is found again at its place."""
    read = log(answer)
    CHECK.validate(read)
    (run,) = read["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert len(run["results"]) == len(answer.findings)
    for result, finding in zip(run["results"], answer.findings, strict=True):
        assert result["ruleId"] == rules[result["ruleIndex"]]["id"] == finding.rule
        assert plain(result["message"]) == " ".join(sentence(finding).split()).replace("](", "] (")
        (where,) = result["locations"]
        physical = where["physicalLocation"]
        assert physical["region"] == {
            "startLine": finding.place.line,
            "startColumn": finding.place.column,
        }
        uri = physical["artifactLocation"]["uri"].removeprefix("file://")
        assert unquote_to_bytes(uri) == octets(from_root(finding.place.file, ""))
        assert physical["artifactLocation"] in [file["location"] for file in run["artifacts"]]


def test_levels_and_tool() -> None:
    """Severities are the standard's levels (3.27.10), and columns count characters (3.14.17)."""
    findings = tuple(made("a.yaml", severity=severity) for severity in Severity)
    (run,) = log(Admission(("a.yaml", "b.yaml"), findings))["runs"]
    assert [result["level"] for result in run["results"]] == ["error", "warning", "note"]
    assert run["columnKind"] == "unicodeCodePoints"
    driver = run["tool"]["driver"]
    assert (driver["name"], driver["version"]) == ("torquebook", __version__)
    assert [file["location"]["uri"] for file in run["artifacts"]] == ["a.yaml", "b.yaml"]


@pytest.mark.parametrize("slug", RULES)
def test_every_rule_has_its_page(slug: str) -> None:
    """The question, the reason and the mend are those of the rule's page."""
    read = log(Admission(("a.yaml",), (made("a.yaml", rule=slug),)))
    CHECK.validate(read)
    (rule,) = read["runs"][0]["tool"]["driver"]["rules"]
    assert rule["id"] == slug
    assert plain(rule["shortDescription"]) == RULES[slug].question
    for key, heading in (("fullDescription", "Why"), ("help", "Mend")):
        assert plain(rule[key]).split() == RULES[slug].section(heading).split() != []


def test_unknown_rule_still_has_texts() -> None:
    """A slug without a page is its own description."""
    (run,) = log(Admission((), (made("a.yaml", rule="no-such-rule"),)))["runs"]
    (rule,) = run["tool"]["driver"]["rules"]
    assert rule["id"] == rule["shortDescription"]["text"] == "no-such-rule"


def test_files_outside_the_root_are_whole_uris() -> None:
    """A path below the root is relative to it, any other one has no base (3.4.4)."""
    names = ("/repo/specs/a b.yaml", "/other/c.yaml")
    answer = Admission(names, tuple(map(made, names)), root="/repo")
    (run,) = log(answer)["runs"]
    assert [file["location"] for file in run["artifacts"]] == [
        {"uri": "specs/a%20b.yaml", "uriBaseId": "SRCROOT"},
        {"uri": "file:///other/c.yaml"},
    ]
    assert set(run["originalUriBaseIds"]) == {"SRCROOT"}


def test_messages_hold_no_link_and_no_placeholder() -> None:
    """What looks like either is shown as it is (3.11.5, 3.11.6)."""
    found = made("a.yaml", message="see [here](http://example.invalid/) {0}")
    (run,) = log(Admission((), (found,)))["runs"]
    text = run["results"][0]["message"]["text"]
    assert text == "see [here] (http://example.invalid/) {{0}}"
