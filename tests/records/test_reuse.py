"""Records of the reuse rulebook."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from torquebook.catalogue.library import Library
from torquebook.records.reuse import DragRow, ReuseRule

RULE = {
    "kind": "reuse rule",
    "title": "an example",
    "name": "an example",
    "features": ["wheel"],
    "verdict": "reuse",
    "strictness": 1,
    "why": "an example",
    "source": {"kind": "invented", "title": "an example", "provenance": "invented"},
}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"verdict": "measure"}, "nothing to measure"),
        ({"features": []}, "it would apply to all"),
        ({"strictness": 10}, "less than or equal to 9"),
        ({"features": ["shiny"]}, "features"),
    ],
)
def test_rule_that_cannot_be(change: dict[str, Any], said: str) -> None:
    """A rule says what it applies to, and what it measures."""
    assert ReuseRule.model_validate(RULE)
    with pytest.raises(ValidationError, match=said):
        ReuseRule.model_validate({**RULE, **change})


def test_row_without_a_least() -> None:
    """A row of a table of drags has a limit that decides."""
    assert DragRow(thread="M10", off_least=1.0)
    with pytest.raises(ValidationError, match="no least torque"):
        DragRow(thread="M10", first_on_most=10.5)


def test_sources_are_honest() -> None:
    """Who says inference in a rule's text says so in its source, and nothing is from memory."""
    rules = Library().all("reuse", ReuseRule)
    for held in rules:
        source = held.record.source
        text = held.text.partition("source:")[2]
        if "inference" in text:
            assert source.kind == "common practice"
            assert "inference" in source.conditions
        if source.kind == "common practice" and "inference" not in source.conditions:
            assert source.title in {
                "no published source found",
                "the maker's own instruction",
                "makers' own limits, as the trade uses them",
            }
        assert source.kind in {"standard", "manual", "handbook", "common practice"}
    assert sum("inference" in held.text for held in rules) == 4
