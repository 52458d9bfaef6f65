"""A thread's page."""

from __future__ import annotations

import pytest

from torquebook.answers.sizes import sizes
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood

BOOK = Book.open()


def test_loads_of_one_class() -> None:
    """M8, 8.8: 21 200 N proof, 29 200 N ultimate as printed (ISO 898-1:2013, tables 4 and 5)."""
    (page,) = sizes(BOOK, "M8", "8.8")
    (load,) = page.loads
    assert load.proof_n == pytest.approx(21200, rel=0.003)
    assert load.ultimate_n == pytest.approx(29200, rel=0.003)
    assert [one.name for one in load.classes] == ["8.8"]


def test_all_classes_are_there_once_weakest_first() -> None:
    """Every listed class stands in one row; rows of like strength are one."""
    (page,) = sizes(BOOK, "M10")
    names = [one.name for load in page.loads for one in load.classes]
    assert sorted(names) == sorted(one.name for one in BOOK.strengths("metric", 10.0))
    proofs = [load.proof_n for load in page.loads]
    assert proofs == sorted(proofs)
    strengths = [(load.proof_n, load.yield_n, load.ultimate_n) for load in page.loads]
    assert len(set(strengths)) == len(strengths)


def test_hexagons_come_first_and_others_have_something_to_turn() -> None:
    """Spanners for hexagons stand on top; a head without spanner or key is left out."""
    (page,) = sizes(BOOK, "M10")
    heads = [head.head.startswith("hexagon") for head in page.heads]
    assert heads == sorted(heads, reverse=True)
    assert all(head.across_flats_mm or head.key_mm for head in page.heads)


def test_other_pitches_leave_out_the_thread_itself() -> None:
    """The other pitches of the diameter are listed, the coarser first."""
    (page,) = sizes(BOOK, "M10x1.25")
    assert [other.size for other in page.others][:2] == ["M10", "M10x1"]
    assert "M10x1.25" not in [other.size for other in page.others]


def test_class_of_the_other_family_is_refused() -> None:
    """An SAE grade is none for a metric thread."""
    with pytest.raises(NotUnderstood):
        sizes(BOOK, "M10", "SAE 8")
