"""Prevailing torques beside their tables."""

from __future__ import annotations

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.errors import NotUnderstood
from torquebook.records.reuse import Check, DragRow
from torquebook.reuse.drag import chosen, judged, table_of
from torquebook.reuse.model import Measured

LIBRARY = Library()
BOOK = Book.open()
ISO = table_of(LIBRARY, "ISO 2320")
CHECKS = [Check(what="drag", quantity="drag", table=name) for name in ("FAA fine", "FAA coarse")]


def test_no_table() -> None:
    """Without a table the drag stays open, and the option is named."""
    found = judged((), BOOK.thread("M10"), Measured(drag_nm=2))
    assert found == ("drag 2 N·m; no table is named for it: --table NAME", None, True)


def test_no_thread() -> None:
    """Without a thread a table tells nothing."""
    found = judged((ISO,), None, Measured())
    assert found == ("not measured; without its thread ISO 2320 tells nothing", None, True)


def test_not_measured() -> None:
    """What was not measured shows the limit that it will be held against."""
    found = judged((ISO,), BOOK.thread("M10"), Measured())
    assert found.said.startswith("not measured; at least 1.5 N·m at the first removal, for how")
    assert found.passed is None


@pytest.mark.parametrize(("uses", "passed"), [(1, False), (2, True), (None, False), (6, None)])
def test_first_removal(uses: int | None, passed: bool | None) -> None:
    """Used once, or nobody knows how often: the drag of a first removal (M10: 1.5 N·m).

    Beyond the fifth removal the table says nothing.
    """
    found = judged((ISO,), BOOK.thread("M10"), Measured(drag_nm=1.2, uses=uses))
    assert found.passed is passed


def test_table_of_first_removal_only() -> None:
    """A table that prints no more than the first removal is held against that."""
    row = DragRow(thread="M10", first_off_least=1.5)
    record = ISO.record.model_copy(update={"rows": [row]})
    held = type(ISO)(ISO.id, ISO.path, record, ISO.text)
    found = judged((held,), BOOK.thread("M10"), Measured(drag_nm=1.4, uses=3))
    assert "at least 1.5 N·m at the first removal" in found.said
    assert found.passed is False


@pytest.mark.parametrize(
    ("picked", "names"),
    [("", ["FAA fine", "FAA coarse"]), ("faa Coarse", ["faa Coarse"]), ("ISO 2320", [])],
)
def test_picked_table(picked: str, names: list[str]) -> None:
    """A picked table takes the place of a rule's own, where it is among them."""
    assert chosen(CHECKS, picked) == names


def test_picked_where_none_is_named() -> None:
    """A rule that names no table takes any."""
    assert chosen([Check(what="drag", quantity="drag")], "ISO 2320") == ["ISO 2320"]


def test_unknown_table() -> None:
    """A table that is not there is asked back with those that come near."""
    with pytest.raises(NotUnderstood, match="FAA"):
        table_of(LIBRARY, "FAA coarze")


def test_a_drag_that_is_none_is_read_again() -> None:
    """Far beyond what a table prints, and below its most, nothing is decided (inference)."""
    table = ISO
    found = judged((table,), BOOK.thread("M10"), Measured(drag_nm=40.0, uses=3))
    assert found.passed is None
    assert "is no drag (inference): read again" in found.said
