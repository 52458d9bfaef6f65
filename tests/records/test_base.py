"""Checks of what all records share."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from torquebook.records import KINDS
from torquebook.records.base import Name, Range, Share, Source


def source(**changes: Any) -> Source:
    """Return a source with some of its keys changed."""
    sound = {"kind": "standard", "title": "ISO 1", "provenance": "one page"}
    return Source.model_validate(sound | changes)


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({}, "ISO 1"),
        ({"edition": "2013", "where": "table 3"}, "ISO 1, 2013, table 3"),
        ({"edition": "not stated", "where": "table 3"}, "ISO 1, table 3"),
        ({"kind": "memory"}, "memory: ISO 1"),
        ({"kind": "invented", "where": "p. 1"}, "invented: ISO 1, p. 1"),
        ({"kind": "common practice"}, "common practice: ISO 1"),
        ({"kind": "manual"}, "ISO 1"),
    ],
)
def test_source_line(changes: dict[str, str], line: str) -> None:
    """A source is one line; what is no published document says so first."""
    assert source(**changes).line == line


@pytest.mark.parametrize(
    "changes",
    [{"edition": 2013}, {"kind": "hearsay"}, {"title": ""}, {"provenance": None}, {"page": "3"}],
)
def test_source_refused(changes: dict[str, Any]) -> None:
    """A source holds text only, a known kind, and nothing unknown."""
    with pytest.raises(ValidationError):
        source(**changes)


def test_nothing_changes_later() -> None:
    """A record cannot be changed once it is read."""
    with pytest.raises(ValidationError, match="frozen"):
        source().title = "other"  # type: ignore[misc]


def test_range() -> None:
    """A range goes from low to high and takes whole numbers and decimals, nothing else."""
    assert Range(low=1, nominal=1.5, high=2).row == [1, 1.5, 2]
    for row in ((2, 1, 3), (1, 3, 2), (-1, 0, 1), ("1", 2, 3), (True, 2, 3), (0, 1, float("inf"))):
        low, nominal, high = row
        with pytest.raises(ValidationError):
            Range.model_validate({"low": low, "nominal": nominal, "high": high})


@pytest.mark.parametrize("name", ["8.8", "SAE 5", "M10x1.25", "3/8-16", "A"])
def test_names(name: str) -> None:
    """Sizes, classes and names in use are names."""
    assert TypeAdapter(Name).validate_python(name) == name


@pytest.mark.parametrize("name", ["", " a", "a ", "a\n", "a\nb", "a\tb", "a|b", "a;b", "x" * 81])
def test_no_names(name: str) -> None:
    """No name is empty, padded, overlong, of two lines, or holds what separates names elsewhere."""
    with pytest.raises(ValidationError):
        TypeAdapter(Name).validate_python(name)


@pytest.mark.parametrize("share", [0, 2.1, -1])
def test_no_shares(share: float) -> None:
    """A share lies above 0 and not above 2: a percentage typed for a share is caught."""
    with pytest.raises(ValidationError):
        TypeAdapter(Share).validate_python(share)


def test_every_kind_is_registered_under_its_own_name() -> None:
    """A record's kind is the name that it is registered under."""
    for kind, model in KINDS.items():
        assert model.model_json_schema()["properties"]["kind"]["const"] == kind
