"""The drawing of an order."""

from __future__ import annotations

from math import hypot
from xml.etree import ElementTree as ET

import pytest

from torquebook.patterns.layout import circle_spots, row_spots
from torquebook.patterns.making import centre_out, cross_over
from torquebook.render.pattern import drawing

SVG = "{http://www.w3.org/2000/svg}"


def turns_drawn(text: str, spots: tuple[tuple[float, float], ...]) -> tuple[int, ...]:
    """Return the positions by the numbers that stand in the drawn bolts."""
    root = ET.fromstring(text)  # noqa: S314 - our own drawing
    width, height = (float(root.get("viewBox", "").split()[side]) for side in (2, 3))
    xs, ys = zip(*spots, strict=True)
    left, top = min(xs), max(ys)
    scale = (width - 7.6) / ((max(xs) - left) or 1)
    assert height == pytest.approx((top - min(ys)) * scale + 7.6, abs=0.11)
    places = [((x - left) * scale + 3.8, (top - y) * scale + 3.8) for x, y in spots]

    def position(label: ET.Element) -> int:
        x, y = float(label.get("x", "")), float(label.get("y", ""))
        away = [hypot(x - a, y - b) for a, b in places]
        return away.index(min(away)) + 1

    labels = sorted(root.iter(f"{SVG}text"), key=lambda label: int(label.text or ""))
    assert [label.text for label in labels] == [str(turn) for turn in range(1, len(labels) + 1)]
    return tuple(map(position, labels))


@pytest.mark.parametrize("count", [4, 5, 6, 8, 12, 16])
def test_the_numbers_stand_where_the_order_goes(count: int) -> None:
    """The turn of each bolt stands in its place, and an arrow leads from each to the next."""
    spots, order = circle_spots(count, 80), cross_over(count)
    text = drawing(spots, order)
    assert turns_drawn(text, spots) == order
    assert text.count("<path") == 2 * (count - 1)


def test_rows_are_drawn_as_they_lie() -> None:
    """Two rows of five are wider than high, and numbered from the middle."""
    spots = row_spots((5, 5), 60, 60)
    order = centre_out(spots)
    assert turns_drawn(drawing(spots, order), spots) == order


def test_bolts_never_touch() -> None:
    """A drawing of many positions grows until two bolts stand apart."""
    root = ET.fromstring(drawing(circle_spots(40), cross_over(40)))  # noqa: S314 - our own
    bolts = [one for one in root.iter(f"{SVG}circle") if one.get("r") == "2.7"]
    places = [(float(one.get("cx", "")), float(one.get("cy", ""))) for one in bolts]
    assert len(places) == 40
    near = min(hypot(a[0] - b[0], a[1] - b[1]) for a in places for b in places if a is not b)
    assert near > 2 * 2.7


def test_what_an_order_leaves_out_is_drawn_empty() -> None:
    """A pass over one group shows all bolts, the others without a number, or as squares."""
    text = drawing(circle_spots(6), (1, 4), second=(2, 3))
    root = ET.fromstring(text)  # noqa: S314 - our own
    assert len(list(root.iter(f"{SVG}text"))) == 2
    assert len(list(root.iter(f"{SVG}rect"))) == 2


def test_a_single_bolt_is_drawn() -> None:
    """One position needs no size, and no arrow."""
    text = drawing(((0.0, 0.0),), (1,))
    assert "<path" not in text
    ET.fromstring(text)  # noqa: S314 - our own


def test_a_hostile_title_is_inert() -> None:
    """A title is text: no element, no control character."""
    text = drawing(circle_spots(4), (1, 3, 2, 4), title='<script>"\x1b[2J\u202e')
    root = ET.fromstring(text)  # noqa: S314 - our own
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == '<script>"\\x1b[2J\\u202e: order 1-3-2-4'
    assert "<script" not in text
