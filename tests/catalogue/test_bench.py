"""My bench: read, written, and laid over the book."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.bench import Adapter, Bench, OwnWrench, read_bench, write_bench
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood, Unreadable

if TYPE_CHECKING:
    from pathlib import Path

RED = OwnWrench("red", 20, 100, 1, "lbf.ft", 0.04, "1/2 in", "2026-05-31", 12)
BENCH = Bench((RED,), (Adapter("crow", 101.6),), "N.m", ("AC 43.13-1B",), ("records",))


def test_a_bench_is_read_as_it_was_written(tmp_path: Path) -> None:
    """What is written comes back; the folder is made where there is none."""
    path = str(tmp_path / "new" / "bench.json")
    assert read_bench(path) == Bench()
    write_bench(path, BENCH)
    assert read_bench(path) == BENCH


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        '{"wrenches": [{}]}',
        '{"wrenches": 1}',
        json.dumps({"wrenches": [{**RED._asdict(), "low": 900}]}),
        json.dumps({"wrenches": [{**RED._asdict(), "unit": "Nm"}]}),
        "[" * 100_000,
    ],
)
def test_a_damaged_bench_is_one_message(tmp_path: Path, text: str) -> None:
    """A file that is no bench is named, with how to mend it."""
    path = tmp_path / "bench.json"
    path.write_text(text)
    with pytest.raises(Unreadable, match=r"bench\.json: this is no bench .* torquebook bench"):
        read_bench(str(path))


def test_a_bench_that_cannot_be_read_or_written_is_one_message(tmp_path: Path) -> None:
    """A folder where the file belongs is refused, read or written."""
    with pytest.raises(Unreadable, match="cannot be read"):
        read_bench(str(tmp_path))
    with pytest.raises(Unreadable, match="TORQUEBOOK_BENCH"):
        write_bench(str(tmp_path), BENCH)


@pytest.mark.parametrize(
    ("calibrated", "uses", "today", "why"),
    [
        ("2026-05-31", 12, date(2027, 5, 30), ""),
        ("2026-05-31", 12, date(2027, 5, 31), "12 months ago"),
        ("2026-05-31", 4999, date(2026, 6, 1), ""),
        ("2026-05-31", 5000, date(2026, 6, 1), "5000 uses since"),
        ("", 0, date(2026, 6, 1), "no date"),
    ],
)
def test_calibration_is_due_by_months_and_uses(
    calibrated: str, uses: int, today: date, why: str
) -> None:
    """ISO 6789:2003 has a wrench checked after 12 months or 5000 operations."""
    overdue = RED._replace(calibrated=calibrated, uses=uses).overdue(today)
    assert why in overdue
    assert bool(overdue) == bool(why)


def test_own_wrenches_stand_in_for_those_of_the_demo() -> None:
    """With a wrench of my own the invented ones are found by name only; its scale is exact."""
    book = Book.open(own=BENCH.rows)
    (red,) = book.wrenches()
    assert (red.name, red.unit, red.invented) == ("red", "lbf.ft", False)
    assert red.low_nm == pytest.approx(20 * 1.3558179483)  # NIST SP 811, B.8
    assert book.wrench("click 20-100").invented


def test_an_adapter_is_found_by_name() -> None:
    """Case does not matter; an unknown one offers those that there are."""
    assert BENCH.adapter("Crow").extension_mm == 101.6
    with pytest.raises(NotUnderstood, match="crow"):
        BENCH.adapter("snake")
    with pytest.raises(NotUnderstood, match="torquebook bench --ask"):
        Bench().adapter("snake")
