"""What a command line asks of the rulebook."""

from __future__ import annotations

from pathlib import Path

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.errors import NotUnderstood
from torquebook.records.joint import JointRecord
from torquebook.reuse.asking import Tightened, of_job, of_joint, used_in_words, with_measured
from torquebook.reuse.model import Measured, Used

BOOK = Book.open()
LIBRARY = Library([Path(__file__).parent / "book"])
NOTHING = Used(None, "", frozenset(), frozenset(), Measured(new_length_mm=100, uses=2))


def test_told_lies_over_the_record() -> None:
    """What is measured now counts before the record, and what is not told stays."""
    told = Measured(new_length_mm=101, uses=0, drag_nm=0.0)
    found = with_measured(NOTHING, told).measured
    assert found == Measured(new_length_mm=101, uses=0, drag_nm=0)
    assert with_measured(NOTHING, Measured()) == NOTHING


def test_tightening_without_angle() -> None:
    """A torque alone is worked out too, and makes no angle-tightened bolt."""
    used = used_in_words("M10 8.8", frozenset(), Measured(), Tightened("20 N.m"), BOOK)
    assert (used.features, used.history) == (frozenset(), {"elastic"})


def test_clamp_length_is_read_as_in_a_list() -> None:
    """A range of clamp lengths, with or without a unit, is taken."""
    how = Tightened("30 N.m + 60 deg", "58-62", "oiled")
    used = used_in_words("M10 10.9", frozenset(), Measured(), how, BOOK)
    assert "angle tightened" in used.features
    with pytest.raises(NotUnderstood, match="one pitch or more"):
        used_in_words("M10 10.9", frozenset(), Measured(), Tightened("30 N.m", "1 mm"), BOOK)


def test_typed_limits_are_not_the_records() -> None:
    """Whose limits count is said: those of the record, or those that were typed."""
    held = LIBRARY.one("joints", JointRecord, "limits")
    assert of_joint(held, LIBRARY, BOOK).limits_source.startswith("an example")
    typed = Measured(length_mm=126.2, limit_length_mm=126.4)
    assert of_joint(held, LIBRARY, BOOK, (), typed).limits_source == ""
    history = frozenset({"damaged thread"})
    answer = of_joint(held, LIBRARY, BOOK, (), typed, history).answer  # type: ignore[arg-type]
    assert answer.rulings[0].rule.id == "reuse/damaged-thread"


def test_job_in_working_order() -> None:
    """A job's joints come in its order, gates left out."""
    answered = of_job("doubtful", LIBRARY, BOOK)
    assert [asked.name for asked in answered.asked] == ["too thick", "always new"]
    assert [asked.answer.verdict for asked in answered.asked] == ["measure", "renew"]
