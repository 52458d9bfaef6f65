"""Whether a tightening took a fastener past yield."""

from __future__ import annotations

import pytest

from torquebook.bands import Band
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood
from torquebook.reuse.yielding import read_segments, strained

BOOK = Book.open()


@pytest.mark.parametrize(
    ("tighten", "segments"),
    [
        ("40 N.m", [(40, 0)]),
        ("30 N.m + 90 deg", [(30, 90)]),
        ("30 N.m, slacken, 40 N.m + 90 deg + 60 deg", [(30, 0), (40, 150)]),
        ("30 N.m + 90 deg, slacken, 20 N.m", [(30, 90), (20, 0)]),
    ],
)
def test_segments_of_stages(tighten: str, segments: list[tuple[float, float]]) -> None:
    """Each torque counts, with all angles after it."""
    found = read_segments(tighten)
    assert [(torque.nominal, angle.nominal) for torque, angle in found] == segments


@pytest.mark.parametrize("later", ["slacken, 25 N.m", "25 N.m"])
def test_what_came_before_counts(later: str) -> None:
    """An overload stays one, whatever follows it."""
    assert strained(BOOK, "M10", "8.8", f"200 N.m, {later}", None, "oiled").history == "past yield"


@pytest.mark.parametrize("tighten", ["90 deg", "slacken"])
def test_no_torque(tighten: str) -> None:
    """Stages without a torque cannot be worked out."""
    with pytest.raises(NotUnderstood, match="no torque"):
        read_segments(tighten)


@pytest.mark.parametrize(
    ("tighten", "history"),
    [
        ("5 N.m", "elastic"),
        ("20 N.m + 10 deg", "elastic"),
        ("30 N.m + 60 deg", "may be past yield"),
        ("30 N.m + 180 deg", "past yield"),
        ("500 N.m", "past yield"),
    ],
)
def test_whole_band_decides(tighten: str, history: str) -> None:
    """Below or past yield needs the whole band; between them it may have gone past."""
    found = strained(BOOK, "M10", "10.9", tighten, Band.exact(60))
    assert found.history == history


def test_more_angle_strains_more() -> None:
    """The word never goes back as the angle grows."""
    words = ["elastic", "may be past yield", "past yield"]
    found = [
        words.index(strained(BOOK, "M10", "10.9", f"30 N.m + {angle} deg", Band.exact(60)).history)
        for angle in range(5, 181, 25)
    ]
    assert found == sorted(found)
    assert (found[0], found[-1]) == (0, 2)


def test_class_without_elongation() -> None:
    """A class whose elongation is not listed cannot be worked out."""
    names = [entry.name for entry in BOOK.strengths("inch", 9.525) if entry.elongation_pct is None]
    names += [entry.name for entry in BOOK.strengths("metric", 10) if entry.elongation_pct is None]
    assert names
    thread = "3/8-16" if names[0].startswith("SAE") else "M10"
    with pytest.raises(NotUnderstood, match="no elongation"):
        strained(BOOK, thread, names[0], "20 N.m")
