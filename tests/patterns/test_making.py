"""Orders made, against the published ones."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.book import Book
from torquebook.errors import TorquebookError
from torquebook.patterns.layout import row_spots
from torquebook.patterns.making import (
    balanced,
    centre_out,
    cross_over,
    interleaved,
    round_the_circle,
)
from torquebook.patterns.measures import MOST_PULL, faults, pull

#: By number of positions, counted clockwise. 4, 6, 8 and 10: ASME PCC-1, appendix F, star
#: pattern, as described by flange-trade pages. 5: common practice, star over five wheel bolts.
#: 12 and 16: from memory of the same appendix.
PUBLISHED = {
    4: (1, 3, 2, 4),
    5: (1, 3, 5, 2, 4),
    6: (1, 4, 2, 5, 3, 6),
    8: (1, 5, 3, 7, 2, 6, 4, 8),
    10: (1, 6, 3, 8, 5, 10, 2, 7, 4, 9),
    12: (1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12),
    16: (1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16),
}
coordinate = st.integers(-500, 500).map(float)
layouts = st.lists(st.tuples(coordinate, coordinate), min_size=1, max_size=24, unique=True)


@pytest.mark.parametrize(("count", "order"), PUBLISHED.items())
def test_the_generator_makes_the_published_orders(count: int, order: tuple[int, ...]) -> None:
    """Every order that is printed for 4 to 16 positions is the one that is made."""
    assert cross_over(count) == order


def test_the_book_holds_the_published_orders() -> None:
    """The records are these orders, and the two from memory say so."""
    held = Book.open().patterns()
    assert {len(one.order): one.order for one in held} == PUBLISHED
    assert [len(one.order) for one in held if one.source.startswith("memory")] == [12, 16]
    assert {one.shape for one in held} == {"circle"}
    assert {one.name for one in held} == {f"circle of {count}" for count in PUBLISHED}


@given(st.integers(3, 64))
def test_circles_stay_balanced(count: int) -> None:
    """Every position stands once; the pull of a circle, even or odd, is about one bolt's."""
    order = cross_over(count)
    assert faults(order, range(1, count + 1)) == ((), (), ())
    assert pull(order) <= MOST_PULL
    if count % 2 == 0:
        assert pull(order) == pytest.approx(1)
        assert all(b - a == count // 2 for a, b in zip(order[::2], order[1::2], strict=True))


def test_few_positions_have_an_order_too() -> None:
    """One, two and three positions; none is refused."""
    assert [cross_over(count) for count in (1, 2, 3)] == [(1,), (1, 2), (1, 2, 3)]
    for count in (0, -2):
        with pytest.raises(TorquebookError, match="no positions"):
            cross_over(count)


@given(layouts)
def test_any_layout_is_covered_once(spots: list[tuple[float, float]]) -> None:
    """Every way over free coordinates reaches every position once, whatever they are."""
    for way in (balanced, centre_out):
        assert faults(way(spots), range(1, len(spots) + 1)) == ((), (), ())


@given(layouts)
def test_a_balanced_order_pulls_little(spots: list[tuple[float, float]]) -> None:
    """Over free coordinates the balanced order never pulls as far as two bolts at the rim."""
    assert pull(balanced(spots), spots) < 2


@pytest.mark.parametrize("slope", [0.0, 1.0, -2.5])
def test_a_row_is_tightened_from_its_middle(slope: float) -> None:
    """Seven positions on a line, level or not: the middle one first, then from side to side."""
    spots = [(x, slope * x) for x in range(7)]
    for way in (balanced, centre_out):
        order = way(spots)
        assert order == (4, 3, 5, 2, 6, 1, 7)
        assert pull(order, spots) == pytest.approx(1)


def test_rows_are_tightened_from_the_centre() -> None:
    """Two rows of five begin with the middle bolts, end at the corners, and change sides.

    Trade rule: rows from the centre outward (common practice).
    """
    spots = row_spots((5, 5), 60, 40)
    order = centre_out(spots)
    assert set(order[:2]) == {3, 8}
    assert set(order[2:6]) == {2, 4, 7, 9}
    assert set(order[6:]) == {1, 5, 6, 10}
    assert pull(order, spots) <= MOST_PULL


def test_a_lopsided_set_begins_where_it_balances() -> None:
    """Five bolts close together and one far away: the far one comes when it is outweighed."""
    spots = [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0), (0.5, 0.5), (10.0, 0.0)]
    order = balanced(spots)
    assert 3 <= order.index(6) <= 4
    assert pull(order, spots) < pull(centre_out(spots), spots)


def test_positions_without_a_place_are_refused() -> None:
    """A layout with two positions on one spot, or with none, is refused."""
    with pytest.raises(TorquebookError, match="two positions on one spot"):
        balanced([(0, 0), (0, 0)])
    with pytest.raises(TorquebookError, match="no positions"):
        centre_out([])


def test_round_is_one_after_the_other() -> None:
    """A last pass goes round as the positions are counted."""
    assert round_the_circle(5) == (1, 2, 3, 4, 5)


def test_groups_are_interleaved() -> None:
    """Several groups go turn by turn; the longest one ends alone."""
    assert interleaved([(1, 3, 2), (4, 5), (6,)]) == (1, 4, 6, 3, 5, 2)
    assert interleaved([]) == ()


@given(st.lists(st.integers(1, 9), min_size=1, max_size=5))
def test_interleaving_keeps_each_groups_order(sizes: list[int]) -> None:
    """Every position of every group comes once, in the order of its group."""
    ends = [sum(sizes[: at + 1]) for at in range(len(sizes))]
    groups = [
        [position + end - size for position in cross_over(size)]
        for size, end in zip(sizes, ends, strict=True)
    ]
    order = interleaved(groups)
    assert faults(order, range(1, ends[-1] + 1)) == ((), (), ())
    for group in groups:
        assert [position for position in order if position in group] == group
