"""An angle through the book's data: limiting cases, and what must not be answered."""

from __future__ import annotations

from itertools import pairwise

import pytest

from torquebook.answers.fastening import fastening
from torquebook.answers.turned import POINTS, turn, turned
from torquebook.bands import Band
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood
from torquebook.findings import Place
from torquebook.plans.cells import plan_line
from torquebook.plans.model import Cell


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
        ("M10", "10.9", "60 N.m + 0 deg", "", "angle is more than 0; write 60 N.m .* 90 deg"),
        ("M10", "10.9", "60 N.m + 45 deg + 0 deg", "", "an angle is more than 0"),
        ("M10", "10.9", "40 N.m + 90 deg", "50-40", "from low to high; write 40-50"),
        ("M10", "10.9", "40 N.m + 90 deg", "40-", '^"40-": '),
        ("M10", "10.9", "40 N.m + 90 deg", "-40", '^"-40": a length is more than 0$'),
        ("M10", "10.9", "40 N.m + 90 deg", "0", '^"0": a length is more than 0$'),
        ("M10", "10.9", "40 N.m + 90 deg", "0.1", "one pitch or more, here 1.5 mm"),
        ("M10", "10.9", "40 N.m + 90 deg", "1-40", "one pitch or more, here 1.5 mm"),
    ],
)
def test_what_has_no_course_is_refused(
    book: Book, thread: str, strength: str, tighten: str, clamp: str, message: str
) -> None:
    """One message says what is wanted."""
    what = fastening(book, thread, strength, "", "", "")
    with pytest.raises(NotUnderstood, match=message):
        turn(what, tighten, clamp)


@pytest.mark.parametrize(
    ("text", "low_mm", "high_mm"),
    [
        ("40", 40, 40),
        ("30 mm", 30, 30),
        ("1.5-2 in", 38.1, 50.8),
        ("1.5-2.0in", 38.1, 50.8),
        ("1.5in-2in", 38.1, 50.8),
        ("38–42", 38, 42),
        ("38 to 42", 38, 42),
        ("1-1/4 in", 31.75, 31.75),
    ],
)
def test_a_clamp_length_reads_as_in_a_list(
    book: Book, text: str, low_mm: float, high_mm: float
) -> None:
    """A unit behind a range holds for both its ends, here and in the column of a list."""
    what = fastening(book, "M10", "10.9", "oiled", "", "")
    found = turn(what, "40 N.m + 30 deg", text).clamp_length_mm
    assert found == pytest.approx((low_mm, (low_mm + high_mm) / 2, high_mm))
    place = Place("plan.csv", 2)
    assert found == plan_line(place, {"clamp_length": Cell(text, place)}, {}).clamp_length_mm


@pytest.mark.parametrize(
    ("tighten", "snug_necks", "necks"),
    [
        ("40 N.m + 30 deg", "no", "no"),
        ("60 N.m + 90 deg", "no", "may"),
        ("60 N.m + 900 deg", "no", "yes"),
        ("85 N.m + 30 deg", "may", "may"),
        ("120 N.m + 30 deg", "likely", "likely"),
    ],
)
def test_necking_is_told_by_the_whole_band(
    book: Book, tighten: str, snug_necks: str, necks: str
) -> None:
    """A part of the band past its uniform strain may neck, the whole of it does."""
    found = turn(fastening(book, "M10", "10.9", "", "", ""), tighten)
    assert (found.snug_necks, found.necks) == (snug_necks, necks)
    held = tuple(share >= 1 for share in found.end.strain_share)
    levels = {"no": (), "may": (2,), "likely": (1, 2), "yes": (0, 1, 2)}
    assert held == tuple(index in levels[necks] for index in range(3))


def test_a_snug_torque_that_no_bolt_carries_is_refused(book: Book) -> None:
    """The message names the torques at which the bolt necks; just above them it is refused."""
    what = fastening(book, "M10", "10.9", "", "", "")
    with pytest.raises(
        NotUnderstood, match=r"the snug torque alone is more than M10 10\.9"
    ) as told:
        turn(what, "200 N.m + 90 deg")
    high_nm = float(told.value.what.partition(" to ")[2].split()[0])
    wrench = 1 - what.deviation_at(high_nm)
    assert turn(what, f"{0.99 * high_nm / wrench:.1f} N.m + 90 deg").snug_necks == "likely"
    with pytest.raises(NotUnderstood, match="the snug torque alone"):
        turn(what, f"{1.01 * high_nm / wrench:.1f} N.m + 90 deg")


def test_a_class_without_elongation_is_no_guess(book: Book) -> None:
    """The mechanics are never fed a strain that nobody printed."""
    what = fastening(book, "M10", "A2-70", "", "", "")
    with pytest.raises(ValueError, match="elongation"):
        turned(
            what.thread, what.strength, what.friction, what.bearing_mm,
            Band.exact(20.0), Band.exact(30.0), None,
        )  # fmt: skip
