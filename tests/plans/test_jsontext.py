"""Strict JSON with places."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.strict import KEY
from torquebook.errors import Unreadable
from torquebook.plans.jsontext import load

if TYPE_CHECKING:
    from typing import Any


def test_values_and_places() -> None:
    """Every value and every key has its line and column."""
    data, places = load('{"a": [1,\n  2.5e1],\n\t"b": {"c": null}}\n', "plan.json")
    assert data == {"a": [1, 25.0], "b": {"c": None}}
    assert places == {
        (): (1, 1),
        ("a", KEY): (1, 2),
        ("a",): (1, 7),
        ("a", 0): (1, 8),
        ("a", 1): (2, 3),
        ("b", KEY): (3, 2),
        ("b",): (3, 7),
        ("b", "c", KEY): (3, 8),
        ("b", "c"): (3, 13),
    }


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('{"a": 1, "a": 2}', '1:10: the key "a" stands twice (first in line 1); keep one of them'),
        ("[NaN]", "1:2: NaN is no finite number; leave the value out"),
        ("[-Infinity]", "1:2: this is no number of JSON; write it as 60 or 0.5, or in quotes"),
        ("[Infinity]", "1:2: Infinity is no finite number; leave the value out"),
        ("[1e400]", "1:2: this is no finite number; write a plain number"),
        ("[01]", "1:2: this is no number of JSON; write it as 60 or 0.5, or in quotes"),
        ("[60N]", "1:2: this is no number of JSON; write it as 60 or 0.5, or in quotes"),
        ("[M10]", "1:2: M10 is no JSON; put text in double quotes"),
        ("['M10']", "1:2: ' is no JSON; put text in double quotes"),
        ("[1 2]", "1:4: a comma or ] is missing here; write it"),
        ("[1,]", "1:4: a comma stands before ]; take the comma out"),
        ("[1", "1:3: a comma or ] is missing here; write it"),
        ("[", "1:2: the file ends inside a list or mapping; close it"),
        ("[] x", "1:4: something stands behind the end; take it out"),
        ("{a: 1}", '1:2: a key is text in double quotes; write "key": value'),
        ('{"a" 1}', '1:6: a key without a colon; write "key": value'),
        ('{"a": 1,}', "1:9: a comma stands before }; take the comma out"),
        (r'["\u0000"]', "1:2: this text holds the character U+0000; take it out"),
        (r'["\ud800"]', "1:2: this text holds the character U+D800; take it out"),
    ],
)
def test_what_is_refused(text: str, message: str) -> None:
    """What is no JSON, or doubtful, is refused at its place."""
    with pytest.raises(Unreadable) as refused:
        load(text, "plan.json")
    assert str(refused.value) == f"plan.json:{message}"


@pytest.mark.parametrize("text", ['["a', '["\\q"]', '["a\nb"]'])
def test_text_that_is_not_closed(text: str) -> None:
    """Text that is not closed, or holds a bare line end or an unknown escape, is refused."""
    with pytest.raises(Unreadable, match="this text is not closed"):
        load(text, "plan.json")


def test_depth_is_bounded() -> None:
    """A hundred thousand brackets are refused, not followed."""
    with pytest.raises(Unreadable, match="nested more than 100 deep"):
        load("[" * 100_000, "plan.json")


PLAIN = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=5)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**9), 10**9) | st.floats(-1e9, 1e9) | PLAIN,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(PLAIN, inner, max_size=3),
    max_leaves=8,
)


@given(VALUES, st.sampled_from([None, 1, "\t"]))
def test_agrees_with_the_standard_library(value: Any, indent: Any) -> None:
    """What the standard library writes is read as the same value."""
    data, places = load(json.dumps(value, indent=indent), "plan.json")
    assert data == value
    assert () in places


@given(st.text(st.sampled_from('{}[]",:\\un0123e+-.truefalsn \n'), max_size=30))
def test_refuses_what_the_standard_library_refuses(text: str) -> None:
    """Nothing is taken for JSON that is none, and nothing but a refusal escapes."""
    try:
        data, _ = load(text, "plan.json")
    except Unreadable:
        return
    assert json.loads(text) == data
