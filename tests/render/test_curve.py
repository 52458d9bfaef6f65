"""The drawing of an angle's course."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from torquebook.answers.fastening import fastening
from torquebook.answers.turned import turn
from torquebook.catalogue.book import Book
from torquebook.render.curve import WIDTH, curve_svg

SVG = "{http://www.w3.org/2000/svg}"


def drawn(tighten: str, friction: str = "") -> ET.Element:
    what = fastening(Book.open(), "M10", "10.9", friction, "", "")
    course = turn(what, tighten, "40").course
    hostile = 'M10 <script>alert("x")</script> & more'
    return ET.fromstring(curve_svg(hostile, ["friction 0.08 to 0.16"], course))  # noqa: S314 - our own drawing


def uprights(root: ET.Element, style: str) -> list[tuple[float, float, float]]:
    """Return x, top and bottom of the lines of a style."""
    found = []
    for path in root.findall(f".//{SVG}path[@class='{style}']"):
        x, top, length = map(float, path.attrib["d"].removeprefix("M").replace("v", " ").split())
        found.append((x, top, top + length))
    return found


@pytest.fixture(scope="module")
def root() -> ET.Element:
    """Return the drawing of one course, parsed."""
    return drawn("40 N.m + 90 deg", "oiled")


def test_it_is_sound_and_escaped(root: ET.Element) -> None:
    """The drawing parses, holds no script, and shows hostile text as text."""
    assert root.tag == f"{SVG}svg"
    assert not root.findall(f".//{SVG}script")
    assert '<script>alert("x")</script>' in (root.findtext(f"{SVG}title") or "")


def test_snug_yield_and_end_are_marked_in_both_panels(root: ET.Element) -> None:
    """Each panel has a band, a line and the three marks."""
    words = [text.text for text in root.findall(f".//{SVG}text")]
    assert [words.count(word) for word in ("snug", "yield", "end")] == [2, 2, 2]
    assert len(root.findall(f".//{SVG}polygon")) == len(root.findall(f".//{SVG}polyline")) == 2


def test_nothing_is_drawn_outside(root: ET.Element) -> None:
    """Every point lies within the picture, and the line within its band."""
    box = [float(part) for part in root.attrib["viewBox"].split()]
    for name in ("polygon", "polyline"):
        for shape in root.findall(f".//{SVG}{name}"):
            points = [tuple(map(float, p.split(","))) for p in shape.attrib["points"].split()]
            assert all(0 <= x <= WIDTH and 0 <= y <= box[3] for x, y in points)


def test_the_course_ends_where_the_likely_bolt_necks() -> None:
    """Line and band stop at the mark, short of the end; without necking there is no mark."""
    root = drawn("60 N.m + 900 deg")
    marks = uprights(root, "n")
    assert len(marks) == 2
    (x, *_), _ = marks
    assert x < WIDTH / 2
    for name in ("polygon", "polyline"):
        for shape in root.findall(f".//{SVG}{name}"):
            assert max(float(p.split(",")[0]) for p in shape.attrib["points"].split()) == x
    words = [text.text for text in root.findall(f".//{SVG}text")]
    assert words.count("likely necks") == words.count("end") == 2
    assert uprights(drawn("40 N.m + 90 deg"), "n") == []


def test_a_bolt_that_necks_at_snug_is_marked_there() -> None:
    """Where the likely bolt has no course, the mark stands at snug."""
    root = drawn("120 N.m + 90 deg")
    snug = float(next(t for t in root.iter(f"{SVG}text") if t.text == "snug").attrib["x"])
    assert [x < snug for x, _, _ in uprights(root, "n")] == [True, True]


@pytest.mark.parametrize("tighten", ["60 N.m + 900 deg", "90 N.m + 90 deg", "40 N.m + 35 deg"])
def test_no_mark_crosses_a_word_on_the_axis(tighten: str) -> None:
    """A line that yields or necks beside "snug" or "end" stops above that word."""
    root = drawn(tighten)
    lines = [*uprights(root, "y"), *uprights(root, "n")]
    gaps = []
    for text in root.iter(f"{SVG}text"):
        if text.text in {"snug", "end"}:
            at, base = float(text.attrib["x"]), float(text.attrib["y"])
            left, right = (at, at + 30) if text.text == "snug" else (at - 30, at)
            own = [line for line in lines if line[1] < base and base - line[2] < 100]
            gaps += [base - bottom for x, _, bottom in own if left <= x <= right]
    assert len(gaps) == 2  # a line in either panel
    assert min(gaps) >= 11  # as high as the letters
