"""Where positions lie."""

from __future__ import annotations

import pytest

from torquebook.errors import OutOfRange
from torquebook.patterns.layout import circle_spots, row_spots


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
