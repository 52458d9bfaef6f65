"""What a bench comes to."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from torquebook.answers.benches import reminder, state
from torquebook.catalogue.bench import Bench, OwnWrench

if TYPE_CHECKING:
    from pathlib import Path

OLD = Bench((OwnWrench("red", 20, 100, 1, "N.m", 0.04, "1/2 in", "2020-01-01"),))


def test_what_is_overdue_is_said_once_a_day(tmp_path: Path) -> None:
    """The second time on a day it is quiet, and on the next day it is said again."""
    path = str(tmp_path / "bench.json")
    monday, tuesday = date(2026, 11, 23), date(2026, 11, 24)
    assert "red: calibrated on 2020-01-01" in reminder(OLD, path, monday)
    assert reminder(OLD, path, monday) == ""
    assert reminder(OLD, path, tuesday)


def test_a_folder_that_cannot_be_written_to_is_reminded_each_time(tmp_path: Path) -> None:
    """A missed note of the day costs a second word, never an error."""
    path = str(tmp_path / "none" / "bench.json")
    assert reminder(OLD, path, date(2026, 11, 23)) == reminder(OLD, path, date(2026, 11, 23)) != ""


def test_an_empty_bench_is_quiet(tmp_path: Path) -> None:
    """Without wrenches nothing is overdue."""
    assert reminder(Bench(), str(tmp_path / "bench.json")) == ""
    assert state(Bench(), "b").overdue == {}
