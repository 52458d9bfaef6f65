"""The drawing of an order."""

from __future__ import annotations

import re
from math import hypot
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.patterns.layout import circle_spots, row_spots
from torquebook.patterns.making import centre_out, cross_over
from torquebook.render.pattern import drawing

if TYPE_CHECKING:
    from collections.abc import Sequence
    from random import Random

SVG = "{http://www.w3.org/2000/svg}"


def centres(text: str) -> list[tuple[float, float, int]]:
    """Return where the numbers in the bolts stand, y up, with their numbers."""
    root = ET.fromstring(text)  # noqa: S314 - our own drawing
    labels = [one for one in root.iter(f"{SVG}text") if one.get("font-size") == "4.3"]
    return [
        (float(one.get("x", "")), -float(one.get("y", "")), int(one.text or "")) for one in labels
    ]


def order_drawn(text: str, spots: Sequence[tuple[float, float]]) -> tuple[int, ...]:
    """Return the positions by the numbers drawn where they lie, whatever the drawing's scale."""
    drawn = centres(text)
    xs, ys = zip(*spots, strict=True)
    left, low = min(one[0] for one in drawn), min(one[1] for one in drawn)
    wide, tall = max(one[0] for one in drawn) - left, max(one[1] for one in drawn) - low
    scale = max(wide, tall) / (max(max(xs) - min(xs), max(ys) - min(ys)) or 1)

    def position(x: float, y: float) -> int:
        away = [
            hypot((a - min(xs)) * scale + left - x, (b - min(ys)) * scale + low - y)
            for a, b in spots
        ]
        assert min(away) < 0.1
        return away.index(min(away)) + 1

    by_turn = sorted(drawn, key=lambda one: one[2])
    assert [turn for *_, turn in by_turn] == list(range(1, len(drawn) + 1))
    return tuple(position(x, y) for x, y, _ in by_turn)


@pytest.mark.parametrize("numbered", [False, True])
@pytest.mark.parametrize("count", [2, 4, 5, 6, 8, 12, 16, 40])
def test_the_numbers_stand_where_the_order_goes(count: int, *, numbered: bool) -> None:
    """The turn of each bolt stands in its place, whether or not its position stands beside it."""
    spots, order = circle_spots(count, 80), cross_over(count)
    assert order_drawn(drawing(spots, order, numbered=numbered), spots) == order


def test_rows_are_drawn_as_they_lie() -> None:
    """Two rows of five are numbered from the middle."""
    spots = row_spots((5, 5), 60, 60)
    order = centre_out(spots)
    assert order_drawn(drawing(spots, order), spots) == order


@given(
    st.lists(
        st.tuples(st.integers(-40, 40), st.integers(-40, 40)), min_size=2, max_size=20, unique=True
    ),
    st.randoms(use_true_random=False),
)
def test_any_order_over_any_layout_is_drawn(spots: list[tuple[int, int]], chance: Random) -> None:
    """Whatever the layout and the order, each number stands in its bolt, and inside the paper."""
    order = list(range(1, len(spots) + 1))
    chance.shuffle(order)
    text = drawing(spots, order)
    root = ET.fromstring(text)  # noqa: S314 - our own drawing
    width, height = (float(one) for one in root.get("viewBox", "").split()[2:])
    assert all(3 < x < width - 3 and 3 < -y < height for x, y, _ in centres(text))
    assert max(width, height) <= 180.1
    assert order_drawn(text, spots) == tuple(order)
    for curve in root.iter(f"{SVG}path"):
        points = [
            tuple(map(float, one.split()))
            for one in re.findall(r"[0-9.-]+ [0-9.-]+", curve.get("d", ""))
        ]
        assert all(-9 < x < width + 9 and -9 < y < height + 9 for x, y in points)


@pytest.mark.parametrize(("count", "arrows"), [(1, 0), (2, 1), (6, 5), (8, 7), (9, 3), (16, 3)])
def test_arrows_lead_the_way(count: int, arrows: int) -> None:
    """Up to eight positions every step has an arrow, above that the first three have."""
    text = drawing(circle_spots(count), cross_over(count))
    assert text.count("Z") == arrows


def test_an_arrow_goes_round_a_bolt_in_its_way() -> None:
    """From end to end of a row of three the arrow is bent; in a tangle only the first are drawn."""
    row = ((0.0, 0.0), (1.0, 0.0), (2.0, 0.0))
    assert "Q" in drawing(row, (1, 3, 2))
    assert "Q" not in drawing(row, (1, 2, 3))
    rows = row_spots((4, 4), 60, 50)
    assert drawing(rows, centre_out(rows)).count("Z") == 3


def shapes(text: str) -> list[str]:
    """Return the outlines that a drawing has, in their order."""
    root = ET.fromstring(text)  # noqa: S314 - our own drawing
    return [
        one.tag.removeprefix(SVG) for one in root if one.tag in {f"{SVG}circle", f"{SVG}polygon"}
    ]


def test_groups_differ_by_their_outline() -> None:
    """The first group is round, then square, square on a corner, and with a second rim."""
    text = drawing(circle_spots(6), (1, 4), groups=[(2, 3), (5,), (6,)])
    assert shapes(text) == ["circle", *["polygon"] * 2, "circle", "polygon", *["circle"] * 2]
    assert [turn for *_, turn in centres(text)] == [1, 2]  # what an order leaves out is empty
    points = re.findall(r'points="([^"]*)"', text)
    assert len(set(points)) == 3
    assert "#fff" in text
    assert not set(re.findall(r"#[0-9a-f]+", text)) - {"#fff", "#000"}


def test_bolts_never_touch() -> None:
    """A drawing of many positions grows until two bolts stand apart."""
    places = centres(drawing(circle_spots(60), cross_over(60)))
    near = min(hypot(a[0] - b[0], a[1] - b[1]) for a in places for b in places if a is not b)
    assert near > 2 * 3.2


def test_a_drawing_fits_its_paper() -> None:
    """Two positions that all but touch, far from a third, do not blow the drawing up."""
    root = ET.fromstring(drawing([(0, 0), (0.001, 0), (1000, 0)], (1, 2, 3)))  # noqa: S314 - our own
    assert float(root.get("viewBox", "").split()[2]) == pytest.approx(180)


def test_lines_and_letters_print_on_any_laser() -> None:
    """No line is thinner than 0.3 mm, no letter lower than 3 mm."""
    text = drawing(circle_spots(6), cross_over(6), groups=[(2,)], numbered=True)
    assert min(map(float, re.findall(r'stroke-width="([0-9.]+)"', text))) >= 0.3
    assert min(map(float, re.findall(r'font-size="([0-9.]+)"', text))) >= 3


def test_position_1_is_marked() -> None:
    """A tick marks position 1 where its number does not stand beside it; one bolt needs none."""
    assert drawing(circle_spots(6), cross_over(6)).count('stroke-width="0.8"/>') == 1
    numbered = drawing(circle_spots(6), cross_over(6), numbered=True)
    assert 'stroke-width="0.8"/>' not in numbered
    assert re.findall(r">([0-9]+)<", numbered)[6:] == list("123456")
    assert 'stroke-width="0.8"/>' not in drawing([(0, 0)], (1,))


def test_the_mark_of_a_bolt_amid_others_points_upward() -> None:
    """Where no way leads outward the tick goes where there is room: up, off a row's middle."""
    text = drawing([(0, 0), (1, 0), (-1, 0)], (1, 2, 3))
    start, end = re.findall(
        r'd="M([0-9. ]+)L([0-9. ]+)" fill="none" stroke="#000" stroke-width="0.8"', text
    )[0]
    (x, y), (there, up) = map(str.split, (start, end))
    assert x == there
    assert float(up) < float(y)


def test_an_order_with_faults_is_drawn_as_far_as_it_goes() -> None:
    """A position twice keeps its first turn; one that there is not is passed over."""
    text = drawing(circle_spots(4), (1, 1, 3, 9, 2, 0, 4, 1))
    assert [turn for *_, turn in centres(text)] == [1, 3, 4, 5]


def test_a_screen_reader_is_told() -> None:
    """Title and description say what is drawn."""
    root = ET.fromstring(drawing(circle_spots(4), (1, 3, 2, 4)))  # noqa: S314 - our own
    assert root.get("role") == "img"
    assert [child.text for child in root[:2]] == [
        "order 1-3-2-4",
        "4 positions as they lie; the number in each is its turn.",
    ]


def test_a_hostile_title_is_inert() -> None:
    """A title is text: no element, no control character."""
    text = drawing(circle_spots(4), (1, 3, 2, 4), title='<script>"\x1b[2J\u202e')
    root = ET.fromstring(text)  # noqa: S314 - our own
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == '<script>"\\x1b[2J\\u202e: order 1-3-2-4'
    assert "<script" not in text
