"""The drawings of questions, read back from their markup."""

from __future__ import annotations

from math import atan2, degrees, hypot
from xml.etree import ElementTree as ET

import pytest

from torquebook.quiz.model import AdapterWrench, BoltCircle, HeadMark
from torquebook.render.quizsheet.drawing import drawn

SVG = "{http://www.w3.org/2000/svg}"
ANGLES = (0.0, 30.0, 45.0, 60.0, 90.0, 120.0, 135.0, 180.0)


def texts(svg: str) -> list[tuple[float, float, str]]:
    """Return where the texts of a drawing stand, y up, and what they say."""
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    return [
        (float(one.get("x", "")), -float(one.get("y", "")), one.text or "")
        for one in root.iter(f"{SVG}text")
    ]


@pytest.mark.parametrize("count", [3, 4, 6, 8, 10])
@pytest.mark.parametrize("start", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize("clockwise", [True, False])
def test_bolts_are_counted_from_their_start_and_their_way(
    count: int, start: float, *, clockwise: bool
) -> None:
    """Each bolt carries its own number, number 1 lies where it is said, the others as counted."""
    found = texts(drawn(BoltCircle(count, start, clockwise)))
    assert [int(said) for _, _, said in found] == list(range(1, count + 1))
    x0, y0 = (sum(one[at] for one in found) / count for at in (0, 1))  # type: ignore[misc]
    way = 1 if clockwise else -1
    for x, y, said in found:
        turned = degrees(atan2(x - x0, y - y0))  # from the top, clockwise
        wanted = start + way * 360 * (int(said) - 1) / count
        assert (turned - wanted + 180) % 360 - 180 == pytest.approx(0, abs=1.5)


def test_a_mark_shows_number_one() -> None:
    """The tick leads from the middle of bolt 1 outward."""
    svg = drawn(BoltCircle(6, 90.0, clockwise=False))
    assert svg.count('stroke-width="0.8"') == 1
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    (tick,) = (one for one in root.iter(f"{SVG}path") if one.get("stroke-width") == "0.8")
    start, end = (
        [float(number) for number in part.split()] for part in tick.get("d", "")[1:].split("L")
    )
    (first,) = (one for one in texts(svg) if one[2] == "1")
    assert start[0] == pytest.approx(first[0], abs=0.01)
    assert end[0] > start[0]


def test_a_shown_order_stands_in_the_bolts() -> None:
    """Where the drawing is to show an order, each bolt's turn stands in it."""
    circle = BoltCircle(4, order=(1, 3, 2, 4))
    turns = {said: (x, y) for x, y, said in texts(drawn(circle))}
    own = {said: (x, y) for x, y, said in texts(drawn(BoltCircle(4)))}
    for turn, position in enumerate(circle.order, 1):
        assert turns[str(turn)] == pytest.approx(own[str(position)], abs=0.05)


@pytest.mark.parametrize("head", ["hexagon", "socket"])
@pytest.mark.parametrize("mark", ["8.8", "12.9", "A2-70"])
def test_a_head_carries_its_mark(head: str, mark: str) -> None:
    """The mark stands on the head, inside its outline and clear of a socket."""
    svg = drawn(HeadMark(mark, head))
    ((x, y, said),) = texts(svg)
    assert said == mark
    half = 0.66 * 3.6 * len(mark) / 2
    corner = hypot(abs(x) + half, abs(y) + 1.3)
    assert corner < 12
    assert head == "hexagon" or abs(y) - 1.3 > 5.2 * 0.87


@pytest.mark.parametrize("angle", ANGLES)
def test_a_wrench_has_its_lengths_and_its_angle(angle: float) -> None:
    """The drawing names both lengths, and an angle that is neither straight nor square."""
    svg = drawn(AdapterWrench(400, 100, angle, "400 mm", "100 mm"))
    said = {text for _, _, text in texts(svg)}
    shown = {f"{angle:g}°"} if 0 < angle < 180 and angle != 90 else set()
    assert said == {"L 400 mm", "E 100 mm"} | shown


@pytest.mark.parametrize("angle", ANGLES)
def test_an_adapter_stands_at_its_angle(angle: float) -> None:
    """The bolt lies from the drive where the angle says: 0 away from the grip, 90 square to it."""
    svg = drawn(AdapterWrench(400, 100, angle, "400 mm", "100 mm"))
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    (x, y) = next(
        (float(one.get("cx", "")), -float(one.get("cy", "")))
        for one in root.iter(f"{SVG}circle")
        if one.get("cx")
    )
    assert (degrees(atan2(y, x)) - angle + 180) % 360 - 180 == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize(("lever", "adapter"), [(250, 120), (500, 50), (254, 127)])
@pytest.mark.parametrize("angle", ANGLES)
def test_a_wrench_fits_a_column(lever: float, adapter: float, angle: float) -> None:
    """No drawing of a wrench is wider than half a page, whatever its lengths."""
    root = ET.fromstring(drawn(AdapterWrench(lever, adapter, angle, "500 mm", "120 mm")))  # noqa: S314
    assert float(root.get("width", "").removesuffix("mm")) < 88
    assert float(root.get("height", "").removesuffix("mm")) < 45
