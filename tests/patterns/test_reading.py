"""Orders read."""

from __future__ import annotations

import pytest

from torquebook.errors import NotUnderstood
from torquebook.patterns.layout import circle_spots, row_spots
from torquebook.patterns.making import balanced, centre_out
from torquebook.patterns.reading import order_of, passes_of, positions_named

Published = dict[str, tuple[int, ...]]


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("1-4-2-5-3-6", (1, 4, 2, 5, 3, 6)),
        (" 1, 2, 3 ", (1, 2, 3)),
        ("cross", (1, 4, 2, 5, 3, 6)),
        ("star", (1, 4, 2, 5, 3, 6)),
        ("Round", (1, 2, 3, 4, 5, 6)),
        ("circle of 6", (1, 4, 2, 5, 3, 6)),
        ("Circle-of-6", (1, 4, 2, 5, 3, 6)),
    ],
)
def test_an_order_is_read(text: str, order: tuple[int, ...], published: Published) -> None:
    """Numbers, the name of a way and a published name are read; case and hyphens aside."""
    assert order_of(text, circle_spots(6), published) == order
    assert order_of(text, 6, published) == order


def test_ways_over_a_layout_go_by_where_it_lies(published: Published) -> None:
    """From the centre and balanced go by the positions' places."""
    rows = row_spots((3, 2), 60, 50)
    assert order_of("centre-out", rows, published) == centre_out(rows)
    assert order_of("from the centre", rows, published) == centre_out(rows)
    assert order_of("Balanced", rows, published) == balanced(rows)


@pytest.mark.parametrize(
    ("text", "what", "right"),
    [
        ("snail", "no order of that name", ("cross", "round", "centre out", "balanced")),
        ("crisscros", "no order of that name", ("cross",)),
        ("circle of 7", "no order of that name", ("circle of 6",)),
        ("circle of 8", "8 positions, and the joint has 6", ("cross",)),
    ],
)
def test_an_unknown_order_is_asked_back(
    text: str, what: str, right: tuple[str, ...], published: Published
) -> None:
    """What is no order, or one for another number, is asked back with names that fit."""
    with pytest.raises(NotUnderstood, match=what) as asked:
        order_of(text, circle_spots(6), published)
    assert asked.value.readings[: len(right)] == right


@pytest.mark.parametrize(
    ("text", "count"),
    [("1-4-2-5-3-6", 6), ("circle of 10", 10), ("cross", None), ("snail", None)],
)
def test_an_order_may_say_its_number(text: str, count: int | None, published: Published) -> None:
    """Positions and published orders speak of a number; a way goes over any."""
    assert positions_named(text, published) == count


@pytest.mark.parametrize(
    "text", ["cross / round", "cross/round", "cross; round", "cross\nround", "cross then round"]
)
def test_passes_follow_each_other(text: str) -> None:
    """Slash, semicolon, line end and "then" part passes."""
    assert passes_of(text) == ["cross", "round"]


def test_groups_are_interleaved_by_name(published: Published) -> None:
    """A bolt of each group in turn, each group balanced by itself; without groups asked back."""
    spots = row_spots((3, 3), 60, 50)
    groups = [(1, 2, 3), (4, 5, 6)]
    assert order_of("interleaved", spots, published, groups) == (2, 5, 1, 4, 3, 6)
    with pytest.raises(NotUnderstood, match="from group to group, and there are none"):
        order_of("Interleaved", spots, published)
    with pytest.raises(NotUnderstood, match="no order of that name") as asked:
        order_of("interleave", spots, published, groups)
    assert asked.value.readings == ("interleaved",)


def test_groups_with_faults_are_interleaved_as_far_as_they_go(published: Published) -> None:
    """A position twice in a group comes once, one that there is not never."""
    groups = [(1, 3, 3), (2, 9), (7,)]
    assert order_of("interleaved", 4, published, groups) == (1, 2, 3)
