"""Cells of the published tables, for the checks of the records in ``specs/``."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

PUBLISHED = Path(__file__).parents[1] / "published"
Row = dict[str, str]


def cells(name: str, keep: Callable[[Row], bool]) -> list[Row]:
    """Return the rows of a published table that are kept and not in conflict."""
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return [
            row for row in csv.DictReader(file) if keep(row) and row["confidence"] != "conflict"
        ]


def count_and_sum(rows: list[Row], column: str = "value") -> tuple[int, float]:
    """Return how many cells there are and what they add up to."""
    return len(rows), round(sum(float(row[column]) for row in rows), 3)
