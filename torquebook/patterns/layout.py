"""Where the positions of a joint lie: on a circle, in rows."""

from __future__ import annotations

from math import cos, radians, sin
from typing import TYPE_CHECKING

from torquebook.errors import NotUnderstood, OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.records.joint import Layout

Spot = tuple[float, float]
_LAYOUT = "a joint's layout"


def circle_spots(
    count: int, diameter_mm: float = 2.0, start_deg: float = 0.0, *, clockwise: bool = True
) -> tuple[Spot, ...]:
    """Return the positions on a bolt circle.

    Parameters
    ----------
    count : int
        From 1 up.
    diameter_mm : float
        Of the circle through the bolts; above 0 [mm].
    start_deg : float
        Where position 1 lies: 0 is on top, 90 on the right [°].
    clockwise : bool
        Which way the positions are counted.

    Returns
    -------
    tuple of (float, float)
        x to the right and y up from the centre, position 1 first [mm].

    Raises
    ------
    OutOfRange
        If there is no position, or the circle has no size.
    """
    if count < 1:
        raise OutOfRange("count", count, 1, float("inf"), _LAYOUT)
    if not diameter_mm > 0:
        raise OutOfRange("diameter_mm", diameter_mm, 0, float("inf"), _LAYOUT)
    way = 1 if clockwise else -1
    turned = (radians(start_deg + way * 360 * index / count) for index in range(count))
    return tuple((diameter_mm / 2 * sin(turn), diameter_mm / 2 * cos(turn)) for turn in turned)


def row_spots(lengths: Sequence[int], along_mm: float, between_mm: float) -> tuple[Spot, ...]:
    """Return the positions of rows, each row middled, the first one on top.

    Parameters
    ----------
    lengths : sequence of int
        How many positions each row has.
    along_mm, between_mm : float
        From one position to the next in a row, and from row to row; above 0 [mm].

    Returns
    -------
    tuple of (float, float)
        As :func:`circle_spots`; counted along the first row from the left, then the second.

    Raises
    ------
    OutOfRange
        If a row is empty, there is none, or a distance is not above 0.
    """
    if not lengths or min(lengths) < 1:
        raise OutOfRange("lengths", min(lengths, default=0), 1, float("inf"), _LAYOUT)
    for name, distance in (("along_mm", along_mm), ("between_mm", between_mm)):
        if not distance > 0:
            raise OutOfRange(name, distance, 0, float("inf"), _LAYOUT)
    top = (len(lengths) - 1) / 2
    return tuple(
        ((place - (length - 1) / 2) * along_mm, (top - row) * between_mm)
        for row, length in enumerate(lengths)
        for place in range(length)
    )


def spots_of(layout: Layout, count: int) -> tuple[Spot, ...]:
    """Return the positions of a joint's layout.

    Parameters
    ----------
    layout : Layout
        As the joint's record has it.
    count : int
        How many bolts the joint has.

    Raises
    ------
    NotUnderstood
        If rows or points have another number of positions, or two points are one.
    """
    if layout.circle is not None:
        circle = layout.circle
        clockwise = circle.counted == "clockwise"
        return circle_spots(count, circle.diameter_mm, circle.start_deg, clockwise=clockwise)
    if layout.rows is not None:
        rows = layout.rows
        spots = row_spots(rows.lengths, rows.along_mm, rows.between_mm)
    else:
        spots = tuple((x, y) for x, y in layout.points or ())
    if len(spots) != count:
        what = f"a layout of {len(spots)} positions, and the joint has {count} bolts"
        raise NotUnderstood("layout", what)
    first: dict[Spot, int] = {}
    for at, spot in enumerate(spots, 1):
        if first.setdefault(spot, at) != at:
            raise NotUnderstood("layout", f"positions {first[spot]} and {at} lie on one spot")
    return spots
