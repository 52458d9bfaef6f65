"""An angle through the book's data: limiting cases, and what must not be answered."""

from __future__ import annotations

from itertools import pairwise

import pytest

from torquebook.answers.fastening import fastening
from torquebook.answers.turned import POINTS, turn, turned
from torquebook.bands import Band
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood


@pytest.fixture(scope="module")
def book() -> Book:
    """Return our own book."""
    return Book.open()


def test_a_course_begins_at_snug_and_rises(book: Book) -> None:
    """Preload and torque never fall over the angle, and begin with the snug torque."""
    what = fastening(book, "M10", "10.9", "oiled", "", "")
    course = turn(what, "40 N.m + 45 deg + 45 deg", "40").course
    assert len(course) == POINTS
    assert course[0].torque_nm == pytest.approx((40 * 0.96, 40, 40 * 1.04))
    assert course[-1].angle_deg == pytest.approx((85, 90, 95))
    for before, after in pairwise(course):
        assert after.preload_n.nominal >= before.preload_n.nominal
        assert after.torque_nm.high >= before.torque_nm.high


def test_an_unstated_clamp_length_gives_a_wider_band(book: Book) -> None:
    """Where vehicles leave the clamp length open, the band holds that of a stated one."""
    what = fastening(book, "M12x1.5", "10.9", "oiled", "", "")
    stated, open_ = (turn(what, "60 N.m + 60 deg", length).end for length in ("36", ""))
    assert open_.permanent_mm.low <= stated.permanent_mm.low
    assert open_.permanent_mm.high >= stated.permanent_mm.high


@pytest.mark.parametrize(
    ("thread", "strength", "tighten", "clamp", "message"),
    [
        ("M10", "10.9", "90 deg", "", "a torque and then an angle is wanted"),
        ("M10", "10.9", "40 N.m", "", "a torque and then an angle is wanted"),
        ("M10", "10.9", "40 N.m, 90 deg, 50 N.m", "", "only angles may follow"),
        ("M10", "A2-70", "20 N.m + 30 deg", "", "no elongation after fracture"),
        ("M10", "10.9", "40 N.m + 90 deg", "50-40", "no clamp length"),
    ],
)
def test_what_has_no_course_is_refused(
    book: Book, thread: str, strength: str, tighten: str, clamp: str, message: str
) -> None:
    """One message says what is wanted."""
    what = fastening(book, thread, strength, "", "", "")
    with pytest.raises(NotUnderstood, match=message):
        turn(what, tighten, clamp)


def test_a_class_without_elongation_is_no_guess(book: Book) -> None:
    """The mechanics are never fed a strain that nobody printed."""
    what = fastening(book, "M10", "A2-70", "", "", "")
    with pytest.raises(ValueError, match="elongation"):
        turned(
            what.thread, what.strength, what.friction, what.bearing_mm,
            Band.exact(20.0), Band.exact(30.0), None,
        )  # fmt: skip
