"""A joint's fasteners as the rulebook takes them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Held, Library
from torquebook.records.joint import JointRecord
from torquebook.reuse.joints import used_of

BOOK = Book.open()
FOLDER = Path(__file__).parent / "book"
LIMITS = Library([FOLDER]).one("joints", JointRecord, "limits")


def joint(fastener: dict[str, Any], tighten: str = "40 N.m") -> Held[JointRecord]:
    """Return a joint of other fasteners, without limits, stack and friction."""
    record = JointRecord.model_validate(
        {
            "kind": "joint",
            "title": "an example",
            "name": "an example",
            "fastener": fastener,
            "count": 4,
            "tighten": tighten,
            "source": {"kind": "invented", "title": "an example", "provenance": "invented"},
        }
    )
    return Held(LIMITS.id, LIMITS.path, record, LIMITS.text)


def test_all_that_a_record_says() -> None:
    """Thread, class, features, limits, and what its stages do come from the record."""
    used = used_of(LIMITS, BOOK)
    assert used.thread == BOOK.thread("M10x1.25")
    assert used.strength_class == "10.9"
    assert used.features == {"stretch", "angle tightened"}
    assert used.history == {"past yield"}
    measured = used.measured
    assert (measured.new_length_mm, measured.limit_length_mm) == (126.0, 126.5)
    assert (measured.uses_allowed, measured.stretched_mm) == (4, 110)
    assert "40 N·m, +90°, +90° took it to" in used.notes[0]


@pytest.mark.parametrize(
    ("nut", "feature"),
    [
        ("self-locking", "locking nut"),
        ("nylon insert", "nylon-insert nut"),
        ("all-metal", "all-metal locking nut"),
    ],
)
def test_locking_nuts(nut: str, feature: str) -> None:
    """A locking nut that stands where its class belongs is one of the features."""
    fastener = {"thread": "M10", "strength_class": "8.8", "nut": nut}
    assert used_of(joint(fastener), BOOK).features == {feature}


def test_said_history_needs_no_computation() -> None:
    """Where a record says what its bolts went through, nothing is computed."""
    fastener = {"thread": "M10", "strength_class": "8.8", "history": ["past yield"]}
    used = used_of(joint(fastener, "5 N.m"), BOOK)
    assert (used.history, used.notes) == ({"past yield"}, ())


@pytest.mark.parametrize("kind", ["plug", "sensor", "adjusting"])
def test_no_preload_no_computation(kind: str) -> None:
    """A torque that seals or sets a play says nothing of yield."""
    used = used_of(joint({"thread": "M10", "strength_class": "8.8", "kind": kind}), BOOK)
    assert (used.history, used.notes) == (frozenset(), ())


@pytest.mark.parametrize(
    ("fastener", "tighten", "note"),
    [
        ({"thread": "M10"}, "40 N.m", "no strength class"),
        ({"thread": "3/8-16", "strength_class": "10.9"}, "40 N.m", "metric threads only"),
        ({"thread": "M10", "strength_class": "8.8"}, "90 deg", "no torque"),
    ],
)
def test_what_cannot_be_computed_is_said(fastener: dict[str, str], tighten: str, note: str) -> None:
    """Where it cannot be computed the note says why, and nothing is taken for granted."""
    used = used_of(joint(fastener, tighten), BOOK)
    assert used.history == frozenset()
    assert used.notes[0].startswith("whether it went past yield is not known: ")
    assert note in used.notes[0]
