"""Checks of turning records into rows."""

from __future__ import annotations

import pytest

from torquebook.catalogue.rows import KSI_MPA, rows_of
from torquebook.records.base import Record, Source
from torquebook.records.classes import ClassEntry, StrengthClasses
from torquebook.records.table import Table, TableRow
from torquebook.records.wrench import WrenchRecord

SOURCE = Source(kind="handbook", title="Book", edition="2nd", where="p. 3", provenance="invented")


def test_inch_classes() -> None:
    """Values in ksi and inches are turned into MPa and mm by the exact factors.

    Source: SAE J429, grade 5: 85, 92, 120 ksi; 586.1, 634.3, 827.4 MPa beside them.
    """
    entry = ClassEntry.model_validate(
        {"name": "SAE 5", "tensile": 120, "yield": 92, "proof": 85, "over": 0.2, "to": 1}
    )
    record = StrengthClasses(
        kind="strength classes",
        title="t",
        standard="SAE J429",
        edition="not stated",
        family="inch",
        stress_unit="ksi",
        length_unit="in",
        classes=[entry],
        source=SOURCE,
    )
    ((row,),) = rows_of(record, "classes/x").values()
    assert row[4:7] == pytest.approx([827.4, 634.3, 586.1], abs=0.05)
    assert row[8:] == [5.08, 25.4, "Book, 2nd, p. 3"]
    assert pytest.approx(4448.2216152605 / 25.4**2) == KSI_MPA


def test_printed_row() -> None:
    """A printed line keeps what the table prints, and has newton metres beside it."""
    rows = [
        TableRow(thread="3/8-24", nut="tension", low=160, high=190, most=390),
        TableRow(thread="1/4", strength_class="SAE 5", low=72, also=8),
    ]
    record = Table(
        kind="printed table",
        title="t",
        friction="dry",
        unit="lbf.in",
        unit_as_printed="in-lb",
        also_unit_as_printed="N.m",
        rows=rows,
        source=SOURCE,
    )
    ((row,),) = rows_of(record, "tables/x").values()
    first, second = row[8]
    assert row[0] == "tables/x"
    assert first[:7] == ["3/8-24", "", "tension", 160, 190, 390, "lbf.in"]
    assert first[7:10] == pytest.approx([18.0776, 21.4671, 44.0641], abs=5e-5)
    assert first[10] == "160-190 in-lb, at most 390"
    assert second[3:6] == [72, 72, None]
    assert second[9:] == [None, "72 in-lb (8 N.m)"]


def test_wrench_in_newton_metres() -> None:
    """A wrench's scale is turned into newton metres."""
    record = WrenchRecord(
        kind="wrench",
        title="t",
        name="w",
        low=20,
        high=150,
        unit="lbf.ft",
        deviation=0.04,
        drive="1/2 in",
        source=SOURCE,
    )
    ((row,),) = rows_of(record, "wrenches/w").values()
    assert row[2:5] == [
        pytest.approx(27.1164, abs=5e-5),
        pytest.approx(203.373, abs=5e-4),
        "lbf.ft",
    ]


def test_unknown_kind() -> None:
    """A kind of record without a shelf is a fault of ours, not a silence."""
    with pytest.raises(TypeError, match="no shelf for Record"):
        rows_of(Record(kind="x", title="t", source=SOURCE), "x")
