"""The drawing of an angle's course."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from torquebook.answers.fastening import fastening
from torquebook.answers.turned import turn
from torquebook.catalogue.book import Book
from torquebook.render.curve import WIDTH, curve_svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def root() -> ET.Element:
    """Return the drawing of one course, parsed."""
    what = fastening(Book.open(), "M10", "10.9", "oiled", "", "")
    course = turn(what, "40 N.m + 90 deg", "40").course
    hostile = 'M10 <script>alert("x")</script> & more'
    return ET.fromstring(curve_svg(hostile, ["friction 0.08 to 0.16"], course))  # noqa: S314 - our own drawing


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
