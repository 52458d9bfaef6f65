"""Fasteners as somebody says them."""

from __future__ import annotations

import pytest

from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood
from torquebook.reuse.reading import (
    read_drag,
    read_fastener,
    read_history,
    read_length,
    read_times,
)

BOOK = Book.open()


@pytest.mark.parametrize(
    ("text", "thread", "strength_class", "features", "history"),
    [
        ("M10x1.25 10.9 stretch", "M10x1.25", "10.9", {"stretch"}, set()),
        ("stretch bolt, class 10.9, M10x1,25", "M10x1.25", "10.9", {"stretch"}, set()),
        ("M8 nylon-insert nut", "M8", "", {"nylon-insert nut"}, set()),
        ("M8 self locking nut", "M8", "", {"locking nut"}, set()),
        ("3/8-24 SAE 8 flywheel bolts", "3/8-24", "SAE 8", {"flywheel"}, set()),
        ("3/8 UNF Gr.8, TTY", "3/8-24", "SAE 8", {"stretch"}, set()),
        ("two copper washers".removeprefix("two "), None, "", {"crush washer"}, set()),
        ("M12 x 1.5 wheel nut; rusty", "M12x1.5", "", {"wheel"}, {"corroded"}),
        ("the M6 A2-70 screw", "M6", "A2-70", set(), set()),
        (
            "M10 10.9 driveshaft bolt, by angle, ribbed, found loose",
            "M10",
            "10.9",
            {"driveline", "angle tightened", "ribbed head"},
            {"found loose"},
        ),
        ("M10 10.9 M10", "M10", "10.9", set(), set()),
    ],
)
def test_reading(
    text: str, thread: str | None, strength_class: str, features: set[str], history: set[str]
) -> None:
    """Words of the trade are understood in any order, with commas or without."""
    said = read_fastener(text, BOOK)
    assert (said.thread.size if said.thread else None) == thread
    assert said.strength_class == strength_class
    assert (said.features, said.history) == (features, history)


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("M8 nylon", ("nylon-insert nut", "nylon patch")),
        ("lock washer", ("spring washer", "toothed washer", "tab washer")),
        ("M10 stud", ("exhaust stud", "wheel stud", "plain")),
        ("M8 casteled nut", ("castellated",)),
        ("3/8 stretch", ("3/8-16 UNC", "3/8-24 UNF")),
        ("M10x1.3", ("M10x1.25", "M10", "M10x1")),
        ("M10 10", ("10.9",)),
        ("M10 A2", ("A2-50", "A2-70", "A2-80")),
    ],
)
def test_asked_back(text: str, readings: tuple[str, ...]) -> None:
    """What may mean several things, or almost means one, is asked back with its readings."""
    with pytest.raises(NotUnderstood) as caught:
        read_fastener(text, BOOK)
    assert set(readings) <= set(caught.value.readings)


def test_history() -> None:
    """Histories are read by their synonyms, and a mistyped one gets those that come near."""
    assert read_history(["rust", "Found-Loose"]) == {"corroded", "found loose"}
    with pytest.raises(NotUnderstood, match="corroded"):
        read_history(["coroded"])


def test_lengths() -> None:
    """A length carries its unit, and is above 0."""
    assert read_length("") is None
    assert read_length("5 in") == pytest.approx(127)
    with pytest.raises(NotUnderstood, match="no unit"):
        read_length("127")


def test_drag() -> None:
    """A drag is a torque, and 0 is left to the doubts."""
    assert read_drag("") is None
    assert read_drag("0 N.m") == 0
    assert read_drag("10 lbf.in") == pytest.approx(1.1298, abs=1e-4)


@pytest.mark.parametrize("text", ["-1", "1.5", "two", "10000", "²"])
def test_no_number_of_times(text: str) -> None:
    """How often is a whole number."""
    with pytest.raises(NotUnderstood, match="no number of times"):
        read_times(text, 0)


def test_times() -> None:
    """How often may be 0 where that is asked for."""
    assert (read_times("", 1), read_times("0", 0), read_times(" 4 ", 1)) == (None, 0, 4)
    with pytest.raises(NotUnderstood, match="1 to 1000"):
        read_times("1001", 1)


def test_a_head_says_nothing_but_a_head_bolt_does() -> None:
    """The kind of a head is passed over; a head bolt is mostly a stretch bolt, and asked back."""
    assert read_fastener("M10 8.8 hexagon head", BOOK).features == frozenset()
    for words in ("head bolt M10 10.9", "alloy bolt M10"):
        with pytest.raises(NotUnderstood, match="may mean more than one thing"):
            read_fastener(words, BOOK)
