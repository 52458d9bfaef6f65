"""Checks of the tables of prevailing torques against the published cells."""

from __future__ import annotations

import pytest
from drag_tables import FIELDS, NAMES, name_of, printed
from printed_cells import count_and_sum

from torquebook.catalogue.library import Library
from torquebook.records.reuse import DragTable
from torquebook.units import FACTORS

TABLES = {held.record.name: held.record for held in Library().all("prevailing", DragTable)}
ROWS = printed()


def test_cells_are_all_there() -> None:
    """The published file has the counted cells with their sum, and each table is ours."""
    assert count_and_sum(ROWS) == (130, 4653.42)
    assert set(TABLES) == set(NAMES.values())


@pytest.mark.parametrize("name", sorted(TABLES))
def test_table_holds_the_printed_cells(name: str) -> None:
    """A table holds every printed cell, in the printed unit, and none besides."""
    wanted = {
        (row["thread"], FIELDS[row["quantity"]]): float(row["value"])
        for row in ROWS
        if name_of(row) == name
    }
    table = TABLES[name]
    assert {row["unit"] for row in ROWS if name_of(row) == name} == {table.unit}
    held = {
        (row.thread, field): value
        for row in table.rows
        for field, value in row
        if field != "thread" and value is not None
    }
    assert held == wanted


def test_printed_newton_metres_agree() -> None:
    """The second unit of the published file is the first one's, to its last printed digit."""
    for row in ROWS:
        nm = float(row["value"]) * FACTORS[row["unit"]][1]
        assert nm == pytest.approx(float(row["value_nm"]), abs=0.0051), row


@pytest.mark.parametrize(
    ("pitch", "sizes", "low", "high"), [("fine", 8, 1.52, 1.852), ("coarse", 7, 2.0, 2.4)]
)
def test_army_against_faa(pitch: str, sizes: int, low: float, high: float) -> None:
    """For one thread the Army demands more than the FAA, so an answer names its table."""
    faa = {row.thread: row.again_least for row in TABLES[f"FAA {pitch}"].rows}
    ratios = [
        row.again_least / least
        for row in TABLES[f"Army {pitch}"].rows
        if row.again_least and (least := faa.get(row.thread))
    ]
    assert len(ratios) == sizes
    assert (min(ratios), max(ratios)) == (pytest.approx(low, 2e-3), pytest.approx(high, 2e-3))
