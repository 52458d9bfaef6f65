"""Orders made, read, measured and checked, against the published ones."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood, TorquebookError
from torquebook.patterns.layout import circle_spots, row_spots
from torquebook.patterns.making import (
    balanced,
    centre_out,
    cross_over,
    interleaved,
    round_the_circle,
)
from torquebook.patterns.measures import MOST_PULL, faults, goes_round, pull
from torquebook.patterns.reading import order_of

PUBLISHED = {len(one.order): one for one in Book.open().patterns()}
#: The sum of unit vectors round the circle; our own arithmetic, by hand: for n positions the
#: longest chord of a run is 1 / sin(π/n) for even n.
ROUND = {4: 1.41, 6: 2.00, 8: 2.61, 10: 3.24, 12: 3.86}
coordinate = st.integers(-500, 500).map(float)


def test_orders_of_4_to_16_are_published() -> None:
    """The book holds the orders that trade pages print, and the two from memory say so."""
    assert sorted(PUBLISHED) == [4, 5, 6, 8, 10, 12, 16]
    memory = [count for count, one in PUBLISHED.items() if one.source.startswith("memory")]
    assert memory == [12, 16]


@pytest.mark.parametrize("count", sorted(PUBLISHED))
def test_published_orders_are_accepted(count: int) -> None:
    """Each reaches every position once, does not go round, and pulls no more than one bolt."""
    order = PUBLISHED[count].order
    assert faults(order, range(1, count + 1)) == ((), (), ())
    assert not goes_round(order)
    assert pull(order) <= MOST_PULL


@pytest.mark.parametrize("count", [4, 6, 8])
def test_the_generator_makes_the_published_orders(count: int) -> None:
    """For 4, 6 and 8 positions the order that is made is the printed one."""
    assert cross_over(count) == PUBLISHED[count].order


@pytest.mark.parametrize(("count", "most"), ROUND.items())
def test_round_the_circle_pulls_to_a_side(count: int, most: float) -> None:
    """One after the other pulls as far as the run's chord is long, and is told as such."""
    order = round_the_circle(count)
    assert pull(order) == pytest.approx(most, abs=0.005)
    assert goes_round(order)
    assert goes_round(order[::-1])


def test_three_positions_have_one_order() -> None:
    """Below four positions nothing goes round; a pass that misses a position is no circle."""
    assert not goes_round((1, 2, 3))
    assert not goes_round((1, 2, 3, 5))


@given(st.integers(3, 64))
def test_even_circles_stay_balanced(count: int) -> None:
    """Every position stands once, and the pull of an even circle is that of one bolt."""
    order = cross_over(count)
    assert sorted(order) == list(range(1, count + 1))
    if count % 2 == 0:
        assert pull(order) <= MOST_PULL


@given(st.lists(st.tuples(coordinate, coordinate), min_size=1, max_size=24, unique=True))
def test_any_layout_is_covered_once(spots: list[tuple[float, float]]) -> None:
    """Both ways over free coordinates reach every position once, whatever they are."""
    for way in (balanced, centre_out):
        assert faults(way(spots), range(1, len(spots) + 1)) == ((), (), ())


@given(st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=24, unique=True))
def test_a_balanced_order_beats_the_worst(spots: list[tuple[float, float]]) -> None:
    """No order pulls further than all bolts of one side; the balanced one pulls less than two.

    By the choice of each step the sum never leaves the circle of the longest arm by more than
    one arm.
    """
    assert pull(balanced(spots), spots) <= 2


def test_rows_are_tightened_from_the_centre() -> None:
    """Two rows of five begin with the middle bolts and end at the corners (common practice)."""
    order = centre_out(row_spots((5, 5), 60, 40))
    assert set(order[:2]) == {3, 8}
    assert set(order[-4:]) == {1, 5, 6, 10}


def test_two_positions_on_one_spot_are_refused() -> None:
    """A layout with a spot twice, or with none, is refused."""
    with pytest.raises(TorquebookError, match="two positions on one spot"):
        balanced([(0, 0), (0, 0)])
    with pytest.raises(TorquebookError, match="no positions"):
        centre_out([])


def test_one_bolt_pulls_nowhere() -> None:
    """A single position lies in its own middle."""
    assert pull((1,), [(7, 7)]) == 0


def test_groups_are_interleaved() -> None:
    """Several groups go turn by turn; the longer one ends alone."""
    assert interleaved([(1, 3, 2), (4, 5)]) == (1, 4, 3, 5, 2)


def test_an_order_is_checked_against_its_positions() -> None:
    """Missed, repeated and unknown positions are told apart."""
    assert faults((1, 3, 3, 7), range(1, 5)) == ((2, 4), (3,), (7,))


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("1-4-2-5-3-6", (1, 4, 2, 5, 3, 6)),
        ("1, 2, 3", (1, 2, 3)),
        ("cross", (1, 4, 2, 5, 3, 6)),
        ("star", (1, 4, 2, 5, 3, 6)),
        ("Round", (1, 2, 3, 4, 5, 6)),
        ("centre-out", (1, 4, 2, 5, 3, 6)),
        ("circle of 6", (1, 4, 2, 5, 3, 6)),
    ],
)
def test_an_order_is_read(text: str, order: tuple[int, ...]) -> None:
    """Numbers, the name of a way and a published name are read; case and hyphens aside."""
    published = {one.name: one.order for one in PUBLISHED.values()}
    assert order_of(text, circle_spots(6), published) == order


@pytest.mark.parametrize(
    ("text", "what"), [("snail", "no order of that name"), ("circle of 8", "8 positions")]
)
def test_an_unknown_order_is_asked_back(text: str, what: str) -> None:
    """What is no order, or one for another number, is asked back with names that fit."""
    published = {one.name: one.order for one in PUBLISHED.values()}
    with pytest.raises(NotUnderstood, match=what) as asked:
        order_of(text, circle_spots(6), published)
    assert "cross" in asked.value.readings
