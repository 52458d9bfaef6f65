"""Checks of cutting texts into words and of the questions made of them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.store import layout
from torquebook.catalogue.store.trade import SYNONYMS
from torquebook.catalogue.store.words import (
    groups,
    kind_word,
    may_be_misspelt,
    question,
    singular,
    slips,
    slips_allowed,
    words,
)


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("M10×1.25, 8.8", ["m10x1.25", "8.8"]),
        ("3/8-16 UNC; A2-70.", ["3/8-16", "unc", "a2-70"]),
        ("Power take-off, U-bolts", ["power", "take", "off", "u", "bolts"]),
        ("Zündkerze_links Ø 14", ["zundkerze", "links", "ø", "14"]),
        ('" * - ( ) :', []),
    ],
)
def test_words(text: str, cut: list[str]) -> None:
    """A size, a class and an inch thread are one word each; case and accents do not count."""
    assert words(text) == cut


@pytest.mark.parametrize("group", SYNONYMS, ids=lambda group: group[0])
def test_synonyms_are_written_as_words(group: tuple[str, ...]) -> None:
    """A name of the trade is what cutting leaves of it, and stands in one group only."""
    assert len(group) > 1
    for name in group:
        assert " ".join(words(name)) == name
        assert sum(name in other for other in SYNONYMS) == 1


def test_groups() -> None:
    """The longest name of the trade counts; a plural is tried without its s."""
    assert groups(["prop", "shaft", "bolts", "m10"]) == [
        ("prop shaft", "propeller shaft", "propshaft", "cardan shaft", "tail shaft"),
        ("bolts", "bolt"),
        ("m10",),
    ]
    assert groups(["spanners"]) == [("spanners", "spanner", "wrench")]
    assert [singular(word) for word in ("boss", "gas", "studs", "m10s")] == [
        "boss", "gas", "stud", "m10s",
    ]  # fmt: skip


def test_question() -> None:
    """Words go on in the record unless whole ones are asked for; a number only as a size does."""
    asked = question([("hub",), ("m10",), ("6",)], "name", "", whole=False)
    assert asked == ('{name} : (("hub" OR "hub" *) AND ("m10" OR "m10x" * OR "m10-" *) AND ("6"))')
    assert question([("hub", "nave")], "", "reuse rule", whole=True) == (
        '(("hub" OR "nave")) AND "kind-reuserule"'
    )


@given(st.text(max_size=60))
def test_any_text_makes_a_question(text: str) -> None:
    """Whatever is typed, no operator comes of it: SQLite takes the question."""
    every = groups(words(text))
    if not every:
        return
    connection = layout.new(":memory:")
    for whole in (True, False):
        asked = question(every, "name", "joint", whole=whole)
        sql = "SELECT rowid FROM named WHERE named MATCH ?"
        assert connection.execute(sql, (asked,)).fetchall() == []
    connection.close()


@given(st.text(alphabet="abcdeø", min_size=1, max_size=8), st.text(alphabet="abcdeø", max_size=8))
def test_slips_are_a_distance(first: str, second: str) -> None:
    """No slips between equal words only, as many one way as the other, never above the most."""
    count = slips(first, second, 3)
    assert (count == 0) == (first == second)
    assert count == slips(second, first, 3) <= 4
    assert count >= min(4, abs(len(first) - len(second)))


def test_slips() -> None:
    """Left out, added, wrong and swapped letters count one each."""
    pairs = [("flyweel", "flywheel"), ("hubb", "hub"), ("nub", "hub"), ("ubh", "uhb")]
    assert [slips(*pair, 2) for pair in pairs] == [1, 1, 1, 1]
    assert slips("clutch", "sprocket", 2) == 3
    assert [slips_allowed(word) for word in ("gears", "gasket")] == [1, 2]
    assert not any(map(may_be_misspelt, ("m10x1.25", "8.8", "hub", "3/8-16")))
    assert kind_word("joint") not in words("kind-joint kind joint")
