"""Orders measured and checked."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.patterns.layout import circle_spots, row_spots
from torquebook.patterns.making import balanced, centre_out, cross_over, round_the_circle
from torquebook.patterns.measures import MOST_PULL, check, faults, goes_round, pull

#: The largest sum of unit vectors of a pass round the circle, by hand: a run over half of n
#: positions, 1 / sin(π/n) for even n.
ROUND = {4: 1.41, 5: 1.62, 6: 2.00, 8: 2.61, 10: 3.24, 12: 3.86}
SOUND = ((), (), ())


@pytest.mark.parametrize(("count", "most"), ROUND.items())
def test_round_the_circle_pulls_to_a_side(count: int, most: float) -> None:
    """One after the other pulls as far as the run's chord is long, and is told as such."""
    order = round_the_circle(count)
    assert pull(order) == pytest.approx(most, abs=0.005)
    assert goes_round(order)
    assert goes_round(order[::-1])


def test_the_published_orders_are_even(published: dict[str, tuple[int, ...]]) -> None:
    """Each is accepted as a first pass: every position once, and one bolt's pull at most."""
    assert len(published) == 7
    for order in published.values():
        [found] = check([order], circle_spots(len(order)))
        assert found.complete
        assert found.even
        assert not found.round
        assert found.pull == pytest.approx(1)


@given(st.integers(4, 64), st.integers(0, 63), st.booleans())
def test_a_first_pass_round_the_circle_is_not_accepted(
    count: int, start: int, backwards: bool
) -> None:
    """Wherever it begins, either way; as a later pass it is right."""
    order = [(start + place) % count + 1 for place in range(count)]
    order = order[::-1] if backwards else order
    first, last = check([order, order], circle_spots(count, 90, 15))
    assert (first.round, first.even, last.round, last.even) == (True, False, True, True)
    assert first.complete
    assert last.complete


def test_every_second_bolt_is_uneven_too() -> None:
    """A pass that pulls to one side need not go round: 1-3-5-7 first, √2 by hand."""
    [found] = check([(1, 3, 5, 7, 2, 4, 6, 8)], circle_spots(8))
    assert found.pull == pytest.approx(2**0.5)
    assert (found.round, found.even) == (False, False)


def test_pull_on_rows_weighs_by_the_distance_from_the_middle() -> None:
    """By hand for a row of three: ends count 1 and the middle one 0; from an end it is 1."""
    row = row_spots((3,), 60, 60)
    assert pull((2,), row) == 0
    assert pull((1, 2, 3), row) == pytest.approx(1)
    five = row_spots((5,), 60, 60)
    assert pull((1, 2, 3, 4, 5), five) == pytest.approx(1.5)
    assert pull((3, 2, 4, 1, 5), five) == pytest.approx(1)


def test_pull_hangs_on_neither_unit_nor_turn() -> None:
    """The same circle turned, larger and elsewhere pulls the same."""
    order = (1, 2, 4, 3, 5, 6)
    moved = tuple((x + 300, y - 70) for x, y in circle_spots(6, 240, 17))
    assert pull(order, moved) == pytest.approx(pull(order))


def test_one_bolt_pulls_nowhere() -> None:
    """A single position lies in its own middle."""
    assert pull((1,), [(7, 7)]) == 0


def test_three_positions_have_one_order() -> None:
    """Below four positions nothing goes round; a pass that misses a position is no circle."""
    assert not goes_round((1, 2, 3))
    assert not goes_round((1, 2, 3, 5))


def test_an_order_is_checked_against_its_positions() -> None:
    """Missed, repeated and unknown positions are told apart."""
    assert faults((1, 3, 3, 7), range(1, 5)) == ((2, 4), (3,), (7,))


@pytest.mark.parametrize(
    ("order", "wrong"),
    [
        ((1, 3, 2), ((4,), (), ())),
        ((1, 3, 2, 4, 1), ((), (1,), ())),
        ((1, 3, 2, 5), ((4,), (), (5,))),
        ((0, 1, 2, 3, 4), ((), (), (0,))),
        ((), ((1, 2, 3, 4), (), ())),
    ],
)
def test_a_pass_with_faults_is_not_measured(order: tuple[int, ...], wrong: object) -> None:
    """Where positions are missing, repeated or unknown there is no pull to tell, and no praise."""
    [found] = check([order], circle_spots(4))
    assert found.faults == wrong
    assert found.pull is None
    assert (found.complete, found.even, found.round) == (False, False, False)


def test_a_group_is_checked_by_itself() -> None:
    """Its positions are those that count, and its own middle."""
    spots = row_spots((4, 4), 60, 50)
    upper, lower = (1, 2, 3, 4), (5, 6, 7, 8)
    [found] = check([(2, 3, 1, 4)], spots, upper)
    assert found.complete
    assert found.even
    [found] = check([(2, 3, 1, 4)], spots, lower)
    assert found.faults == (lower, (), upper)
    [found] = check([(5, 6, 7, 8)], spots, lower)
    assert found.pull == pytest.approx(4 / 3)
    assert not found.even


@given(st.integers(2, 12))
def test_made_orders_pass_the_check(count: int) -> None:
    """What is made for circles and rows is complete and even."""
    rows = row_spots((count, count), 60, 40)
    for order, spots in (
        (cross_over(count), circle_spots(count)),
        (centre_out(rows), rows),
        (balanced(rows), rows),
    ):
        [found] = check([order], spots)
        assert found.faults == SOUND
        assert found.pull is not None
        assert found.pull <= MOST_PULL
        assert found.even
