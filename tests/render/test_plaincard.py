"""Checks of how the facts of a card are written."""

from __future__ import annotations

from typing import Any

import pytest

from torquebook.answers.cards import Looked
from torquebook.catalogue.store.hits import Found
from torquebook.render import plaincard
from torquebook.render.paper import Paper
from torquebook.render.plaincard import facts_of, shown

SOURCE = {"kind": "invented", "title": "t", "provenance": "invented"}


def lines(**facts: Any) -> list[str]:
    """Return the lines of a card with some facts."""
    card = {"id": "a/b", "kind": "x", "name": "n", "also": [], "title": "n", "source": "t"}
    card["facts"] = {**facts, "source": SOURCE}
    paper = Paper()
    plaincard.text(Looked(Found((card,), 1, True, {}), card, None, ()), paper)
    return paper.lines


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (12.5, " mm", "12.5 mm"),
        (True, "", "yes"),
        (False, "", "no"),
        ("as said", " mm", "as said"),
        ([1, 4, 2], "", "1, 4, 2"),
        ({"low": 0.1, "nominal": 0.12, "high": 0.16}, "", "0.1–0.16, nominal 0.12"),
        ({"low": 900.0, "nominal": 900.0, "high": 900.0}, " MPa", "900 MPa"),
        ({"low": 1, "high": 2, "key_mm": 5}, "", "low 1, high 2, key 5 mm"),
        ({"times_d": 1.25, "parts": [{"a": 1}]}, "", "times d 1.25, parts a 1"),
    ],
)
def test_shown(value: Any, unit: str, text: str) -> None:
    """Numbers carry their unit, a band its ends and its middle, facts within facts their keys."""
    assert shown(value, unit) == text


def test_facts() -> None:
    """The unit of a key's ending goes to its number; texts of several words stand one a line."""
    facts = {"key_mm": 5, "mm": 1, "tags": ["a", "b"], "why": ["one thing", "b"], "left": 1}
    assert list(facts_of(facts, frozenset({"left"}))) == [
        ("key", "5 mm"), ("mm", "1"), ("tags", "a, b"), ("why", "one thing"), ("", "b"),
    ]  # fmt: skip


def test_tables() -> None:
    """Entries that fit stand in columns, with a gap where one says nothing; others one a line."""
    assert lines(sizes=[{"size": "M3", "key_mm": 2.5}, {"size": "M4", "note": "x"}])[3:7] == [
        "sizes", "  size  key mm  note", "  M3    2.5", "  M4            x",
    ]  # fmt: skip
    long = "so many words that they do not fit into the line of a table at all"
    for entries in (
        [{"what": long, "why": long}, {"what": "b"}],
        [{"what": "a"}],
        [{"what": ["a", "b"]}, {"what": "c"}],
        [{"what": "a"}, "b"],
    ):
        assert not any(line == "checks" for line in lines(checks=entries))
    assert lines(checks=[{"what": "a"}]) == [
        "n", "  x a/b", "", "  checks  what a", "", "Source: t", "  provenance: invented",
    ]  # fmt: skip


def test_a_card_without_facts() -> None:
    """A record that says nothing but its source has a card all the same."""
    assert lines() == ["n", "  x a/b", "", "Source: t", "  provenance: invented"]
