"""Checks of reading records: each fault is one message with its place."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from first_faults import read_record
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from torquebook.catalogue.reading import vet_text
from torquebook.errors import Unreadable
from torquebook.records.classes import StrengthClasses

if TYPE_CHECKING:
    from pathlib import Path


def test_sound_record(classes_text: str) -> None:
    """A sound record has no faults."""
    record, faults = vet_text(classes_text, "x.yaml")
    assert isinstance(record, StrengthClasses)
    assert faults == ()
    assert record.classes[0].name == "8.8"
    assert record.source.line == "invented: test"


@pytest.mark.parametrize(
    ("old", "new", "place", "message"),
    [
        (
            'name: "8.8"',
            "name: 8.8",
            "10:12",
            '8.8 is read as the number 8.8; write "8.8" in quotes',
        ),
        (
            'name: "8.8"',
            "name: 8.80",
            "10:12",
            '8.80 is read as the number 8.8; write "8.80" in quotes',
        ),
        ('"2013"', "2013", "5:10", '2013 is read as the number 2013; write "2013" in quotes'),
        (
            'name: "8.8"',
            "name: true",
            "10:12",
            'true is read as a truth value; write "true" in quotes',
        ),
        ('name: "8.8"', "name: [8]", "10:12", "a list stands where text belongs; write text"),
        ('name: "8.8"', "name: {a: 1}", "10:12", "a mapping stands where text belongs; write text"),
        ('name: "8.8"', 'name: ""', "10:12", "empty text; write text, or take the key out"),
        ('name: "8.8"', "name: ", "10:12", "no value; write one, or take the key out"),
        ("tensile: 800", 'tensile: "800"', "10:28", '"800" is text; write 800 without quotes'),
        ("tensile: 800", "tensile: strong", "10:28", '"strong" stands where a number belongs'),
        ("tensile: 800", "tensile: 800 MPa", "10:28", '"800 MPa" stands where a number belongs'),
        ("tensile: 800", "tensile: true", "10:28", "true stands where a number belongs"),
        ("tensile: 800", "tensile: 0", "10:28", "0 is too small; write more than 0"),
        ("tensile: 800", "tensile: 1e300", "10:28", "1e+300 is too large; write less than 1e+09"),
        ("over: 0", "over: -1", "10:63", "-1 is too small; write 0 or more"),
        ("proof: 580", "prof: 580", "10:45", 'no key of the name "prof"; write proof'),
        ("proof: 580", "proof: 580, qqq: 1", "10:57", 'no key of the name "qqq"; take it out'),
        ("proof: 580, ", "", "10:5", "the key proof is missing; write proof: and a value"),
        ("proof: 580", "proof: 680", "10:52", "not in order; proof is at most yield"),
        ("to: 16", "to: 0.5, over: 1", "", "stands twice"),
        (
            "family: metric",
            "family: metrik",
            "6:9",
            '"metrik" is not possible here; write "metric"',
        ),
        (
            "kind: invented",
            "kind: rumour",
            "13:9",
            '"rumour" is not possible here; write "standard", ',
        ),
        (
            "kind: strength classes",
            "kind: bolts",
            "2:7",
            '"bolts" is no kind of record; write one of: ',
        ),
        ("kind: strength classes", "kind: 8", "2:7", "8 is no kind of record; write one of: "),
        ("kind: strength classes\n", "", "2:1", "the key kind is missing; write one of: "),
        (
            'title: "Bolts"',
            f'title: "{"x" * 501}"',
            "3:8",
            "is too long; write 500 characters or fewer",
        ),
    ],
)
def test_faults(classes_text: str, old: str, new: str, place: str, message: str) -> None:
    """Each fault names its place, what is wrong, and what would be right."""
    text = classes_text.replace(old, new, 1)
    assert text != classes_text
    if not place:
        with pytest.raises(Unreadable, match=message):
            vet_text(text, "x.yaml")
        return
    record, (fault, *others) = vet_text(text, "x.yaml")
    assert record is None
    assert str(fault.place) == f"x.yaml:{place}"
    assert message in fault.message
    assert not others


def test_classes_out_of_shape(classes_text: str) -> None:
    """Lists and mappings in each other's place are told apart."""
    head, _, tail = classes_text.partition("classes:\n")
    source = tail[tail.index("source:") :]
    for body, message in (
        ("classes: []\n", "an empty list; write at least one entry"),
        ("classes: 8\n", "8 stands where a list belongs"),
        ("classes: [8]\n", "8 stands where keys belong; write key: value for name, tensile, yield"),
    ):
        record, faults = vet_text(head + body + source, "x.yaml")
        assert record is None
        assert [message in fault.message for fault in faults] == [True]


@pytest.mark.parametrize("text", ["- 1\n", "12\n", "a\n", "[]\n"])
def test_no_record(text: str) -> None:
    """What is no mapping is no record."""
    record, faults = vet_text(text, "x.yaml")
    assert record is None
    assert ["the key kind is missing" in fault.what for fault in faults] == [True]


def test_all_faults_at_once(classes_text: str, tmp_path: Path) -> None:
    """All faults of a file come in one run, in the order of the file."""
    path = tmp_path / "x.yaml"
    text = classes_text.replace('"8.8"', "8.8").replace('"10.9"', "10.9").replace('"2013"', "2013")
    path.write_text(text, encoding="utf-8")
    record, faults = vet_text(text, str(path))
    assert record is None
    assert [fault.place.line for fault in faults] == [5, 10, 11]
    with pytest.raises(Unreadable, match=r"x\.yaml:5:10: 2013 is read .* \(and 2 more faults\)"):
        read_record(path)


def test_two_faults(classes_text: str, tmp_path: Path) -> None:
    """One fault more is one fault, not "1 faults"."""
    path = tmp_path / "x.yaml"
    text = classes_text.replace('"8.8"', "8.8").replace('"2013"', "2013")
    path.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable, match=r"\(and 1 more fault\)$"):
        read_record(path)


WRENCH = """\
kind: wrench
title: "t"
name: "mine"
low: 20
high: 100
unit: N.m
deviation: 4
drive: "1/2 in"
source: {kind: measured, title: "t", provenance: "t"}
"""


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("4", "4 is too large for a share; write 0.04 for 4 %"),
        ("0.6", "0.6 is too large for a share; write 0.006 for 0.6 %"),
        ("60", "60 is too large; write 0.5 or less"),
        ("0", "0 is too small; write more than 0"),
    ],
)
def test_percentage_for_a_share(typed: str, message: str) -> None:
    """A deviation in per cent is answered with the share that it means."""
    record, (fault,) = vet_text(WRENCH.replace("deviation: 4", f"deviation: {typed}"), "x.yaml")
    assert record is None
    assert fault.message == message


def test_one_fault_alone(classes_text: str, tmp_path: Path) -> None:
    """A single fault is told without a count."""
    path = tmp_path / "x.yaml"
    path.write_text(classes_text.replace('"2013"', "2013"), encoding="utf-8")
    with pytest.raises(Unreadable) as caught:
        read_record(path)
    assert caught.value.right == 'write "2013" in quotes'


WORDS = st.sampled_from(
    ["8.8", '"8.8"', "true", "null", "[]", "{}", "[{}]", "{a: [1]}", "x", "-1", "1e9"]
)


@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_any_change_is_read_or_refused(classes_text: str, data: st.DataObject) -> None:
    """A record with any value changed is read, or refused in our own words."""
    spots = [found.span(1) for found in re.finditer(r": ([^{}\[\],\n]+)", classes_text)]
    start, end = data.draw(st.sampled_from(spots))
    text = classes_text[:start] + data.draw(WORDS) + classes_text[end:]
    record, faults = vet_text(text, "x.yaml")
    assert (record is None) == bool(faults)
    for fault in faults:
        assert "not possible here; see the schema" not in fault.message
        assert not re.search(r"[Ii]nput should|valid|pydantic", fault.message)
