"""Measurements that cannot be right."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.reuse.doubts import READING_MM, sound
from torquebook.reuse.model import Measured, Used

if TYPE_CHECKING:
    from torquebook.catalogue.shelves import Thread

M10 = Book.open().thread("M10")


def used(measured: Measured, thread: Thread | None = M10) -> Used:
    """Return a plain bolt with what was measured on it."""
    return Used(thread, "", frozenset({"plain"}), frozenset(), measured)


@pytest.mark.parametrize(
    ("measured", "left"),
    [
        (Measured(length_mm=99.9, new_length_mm=100), "length_mm"),
        (Measured(length_mm=105, new_length_mm=100), "length_mm"),
        (Measured(length_mm=90, limit_length_mm=101), "length_mm"),
        (Measured(length_mm=110, limit_length_mm=101), "length_mm"),
        (Measured(new_length_mm=100, limit_length_mm=100), "limit_length_mm"),
        (Measured(stretched_mm=101, new_length_mm=100), "stretched_mm"),
        (Measured(stretched_mm=101, length_mm=100), "stretched_mm"),
        (Measured(diameters_mm=(10.1, 9.9)), "diameters_mm"),
        (Measured(diameters_mm=(9.9, 4.9)), "diameters_mm"),
        (Measured(drag_nm=0), "drag_nm"),
        (Measured(drag_nm=60), "drag_nm"),
        (Measured(uses=0), "uses"),
    ],
)
def test_doubtful_values_go(measured: Measured, left: str) -> None:
    """What cannot be right is taken out and asked back; the rest stays."""
    kept, doubts = sound(used(measured))
    assert len(doubts) == 1
    assert getattr(kept, left) is None
    others = {name: value for name, value in vars(measured).items() if name != left}
    assert {name: value for name, value in vars(kept).items() if name != left} == others


@pytest.mark.parametrize(
    "measured",
    [
        Measured(),
        Measured(length_mm=100 - READING_MM, new_length_mm=100),
        Measured(length_mm=104.9, new_length_mm=100),
        Measured(length_mm=100),
        Measured(length_mm=92, limit_length_mm=101),
        Measured(length_mm=105, limit_length_mm=101),
        Measured(stretched_mm=100, new_length_mm=100),
        Measured(stretched_mm=100),
        Measured(diameters_mm=(10.0, 5.0)),
        Measured(drag_nm=10.5),
        Measured(uses=1),
    ],
)
def test_possible_values_stay(measured: Measured) -> None:
    """What may be right is left alone, up to the very edge of a doubt."""
    assert sound(used(measured)) == (measured, ())


def test_unknown_thread_leaves_it_open() -> None:
    """Without a thread no diameter and no drag is too large."""
    measured = Measured(diameters_mm=(30, 1), drag_nm=500)
    assert sound(used(measured, None)) == (measured, ())
