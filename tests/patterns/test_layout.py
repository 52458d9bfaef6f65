"""Where positions lie."""

from __future__ import annotations

import pytest

from torquebook.errors import NotUnderstood, OutOfRange
from torquebook.patterns.layout import circle_spots, row_spots, spots_of
from torquebook.records.joint import Layout


def test_a_circle_is_counted_from_the_top_clockwise() -> None:
    """Position 1 lies on top, position 2 of four on the right; the other way, on the left."""
    top, right, *_ = circle_spots(4, 100)
    assert top == pytest.approx((0, 50))
    assert right == pytest.approx((50, 0))
    assert circle_spots(4, 100, clockwise=False)[1] == pytest.approx((-50, 0))


def test_a_circle_can_begin_elsewhere() -> None:
    """The start angle turns position 1 clockwise from the top."""
    assert circle_spots(6, 2, 90)[0] == pytest.approx((1, 0))


def test_rows_are_middled() -> None:
    """A shorter row stands in the middle below the longer one; positions run on."""
    spots = row_spots((3, 2), 60, 40)
    assert spots == ((-60, 20), (0, 20), (60, 20), (-30, -20), (30, -20))


@pytest.mark.parametrize(
    ("make", "name"),
    [
        (lambda: circle_spots(0), "count"),
        (lambda: circle_spots(4, 0), "diameter_mm"),
        (lambda: row_spots((), 1, 1), "lengths"),
        (lambda: row_spots((2, 0), 1, 1), "lengths"),
        (lambda: row_spots((2,), 0, 1), "along_mm"),
        (lambda: row_spots((2,), 1, float("nan")), "between_mm"),
    ],
)
def test_no_layout_is_refused(make: object, name: str) -> None:
    """What gives no positions is refused by the argument's name."""
    with pytest.raises(OutOfRange) as refused:
        make()  # type: ignore[operator]
    assert refused.value.name == name


@pytest.mark.parametrize(
    ("written", "first"),
    [
        ({"circle": {"diameter_mm": 80, "counted": "anticlockwise"}}, (0, 40)),
        ({"rows": {"lengths": [2, 2], "along_mm": 60, "between_mm": 40}}, (-30, 20)),
        ({"points": [[5.0, 6.0], [7.0, 8.0], [9.0, 1.0], [0.0, 0.0]]}, (5, 6)),
    ],
)
def test_a_records_layout_gives_its_positions(written: object, first: tuple[int, int]) -> None:
    """Circle, rows and points of a record lie where it says."""
    spots = spots_of(Layout.model_validate(written), 4)
    assert len(spots) == 4
    assert spots[0] == pytest.approx(first)


def test_rows_of_another_count_are_refused() -> None:
    """Rows with more positions than the joint has bolts are asked back."""
    rows = {"rows": {"lengths": [3, 2], "along_mm": 60, "between_mm": 40}}
    with pytest.raises(NotUnderstood, match="5 positions, and the joint has 4"):
        spots_of(Layout.model_validate(rows), 4)


def test_two_points_on_one_spot_are_refused() -> None:
    """The two positions are named."""
    points = {"points": [[0.0, 0.0], [4.0, 0.0], [0.0, 0.0]]}
    with pytest.raises(NotUnderstood, match="positions 1 and 3 lie on one spot"):
        spots_of(Layout.model_validate(points), 3)
