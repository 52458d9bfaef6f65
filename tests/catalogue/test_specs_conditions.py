"""Checks of friction, materials, printed tables and wrenches, cell by cell.

As in test_specs.py, each table is guarded by the number of cells and their sum.
"""

from __future__ import annotations

import csv
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from first_faults import read_record
from printed_cells import PUBLISHED, cells, count_and_sum

from torquebook.catalogue.book import Book
from torquebook.catalogue.places import specs_root
from torquebook.errors import NotUnderstood
from torquebook.records.table import Table

if TYPE_CHECKING:
    from collections.abc import Callable


@pytest.fixture(scope="module")
def book() -> Book:
    """Return our own book."""
    return Book.open()


# -- friction, materials ---------------------------------------------------------


def mu_for(k: float) -> float:
    """Return the friction that goes with a nut factor, by Machinery's Handbook table 3."""
    rows = cells("friction_and_scatter", lambda row: row["kind"] == "K_from_mu")
    points = []
    for row in rows:
        mu_thread, mu_head = (float(part.split("=")[1]) for part in row["item"].split())
        if mu_thread == mu_head:
            points.append((float(row["value"]), mu_head))
    points.sort()
    pairs = list(pairwise(points))
    (k0, mu0), (k1, mu1) = next((pair for pair in pairs if k <= pair[1][0]), pairs[-1])
    return mu0 + (mu1 - mu0) * (k - k0) / (k1 - k0)


FRICTION = [
    ("dry", "dry steel / dry steel", (0, 2)),
    ("cadmium plated", "cadmium / steel", (0, 2)),
    ("phosphated and oiled", "phosphate and oil / steel", (0, 2)),
    ("zinc plated", "zinc / steel", (0, 2)),
    ("zinc flake", "Dacromet / steel", (0, 2)),
    ("stainless dry", "302 stainless / 302 stainless", (0, 2)),
    ("threadlocker", "threadlocker on steel", (0,)),
    ("waxed", "waxed/highly lubricated", (1,)),
    ("dry", "clean dry", (1,)),
    ("as delivered", "plain", (1,)),
]


@pytest.mark.parametrize(("name", "item", "places"), FRICTION)
def test_friction_from_nut_factors(
    book: Book, name: str, item: str, places: tuple[int, ...]
) -> None:
    """Bands that rest on printed nut factors are those factors, turned by the handbook's table."""
    row, *_ = cells(
        "friction_and_scatter", lambda row: row["kind"] == "nut_factor_K" and row["item"] == item
    )
    printed = [float(part) for part in row["value"].split("-")]
    band = book.friction(name).mu_thread
    factors = printed if len(places) == len(printed) else printed * len(places)
    for place, k in zip(places, factors, strict=True):
        assert band[place] == pytest.approx(mu_for(k), abs=0.001)


CLASSES = [
    ("oiled", "B", "B"),
    ("greased", "B", "B"),
    ("solid lubricant", "A", "B"),
    ("waxed", "A", "A"),
    ("as delivered", "C", "C"),
    ("hot-dip galvanised", "D", "D"),
    ("stainless oiled", "D", "D"),
    ("stainless with paste", "B", "C"),
    ("unsaid", "B", "C"),
]


@pytest.mark.parametrize(("name", "first", "last"), CLASSES)
def test_friction_classes(book: Book, name: str, first: str, last: str) -> None:
    """Bands that rest on VDI 2230's friction classes begin and end with those classes."""
    rows = cells("friction_and_scatter", lambda row: row["kind"] == "friction_class")
    classes = {row["item"]: row["value"].split("-") for row in rows}
    band = book.friction(name).mu_head
    assert (band.low, band.high) == (float(classes[first][0]), float(classes[last][1]))


def test_friction_of_head_and_thread(book: Book) -> None:
    """No condition that is checked here tells thread and bearing face apart: no source does."""
    for name, *_ in (*FRICTION, *CLASSES):
        friction = book.friction(name)
        assert friction.mu_thread == friction.mu_head


#: Shelves that are meant to grow: no count guards them, but each record has to be reached.
GROWING = [
    ("friction", Book.frictions, Book.friction),
    ("material", Book.materials, Book.material),
    ("wrench", Book.wrenches, Book.wrench),
]


@pytest.mark.parametrize(("kind", "every", "find"), GROWING, ids=[row[0] for row in GROWING])
def test_growing_shelves(
    book: Book, kind: str, every: Callable[[Book], Any], find: Callable[[Book, str], Any]
) -> None:
    """Every record of a kind is on its shelf, once, and is found by each of its names."""
    ids = [entry.id for entry in book.records() if entry.kind == kind]
    assert ids
    assert len(every(book)) == len(ids)
    for record in every(book):
        for name in (record.name, *record.aliases):
            assert find(book, name) == record
        for word in record.doubtful:
            with pytest.raises(NotUnderstood) as caught:
                find(book, word)
            assert record.name in caught.value.readings
            assert len(caught.value.readings) > 1


def test_source_lines_read_as_one(book: Book) -> None:
    """A source is one short line: answers join several of them with semicolons."""
    lines = {entry.source for entry in book.records()}
    assert len(lines) > 20
    for line in lines:
        assert ";" not in line
        assert "undated" not in line
        assert "not stated" not in line
        assert len(line) <= 130


MATERIALS = {
    "steel": [
        "USt 37-2",
        "St 50-2",
        "St 52-3",
        "Cq 45",
        "34CrMo4",
        "34CrNiMo6",
        "38MnSi",
        "16MnCr5",
    ],
    "stainless steel": ["X5CrNi18-12", "X5CrNiMo17-12-2"],
    "cast iron": ["GJL-250"],
    "ductile iron": ["GJS-400-15", "GJS-500-7", "GJS-600-3"],
    "cast aluminium": ["GK-AlSi9Cu3", "GD-AlSi9Cu3", "GK-AlSi7Mg"],
    "wrought aluminium": ["AlMgSi1 F31", "AlMgSi1 F28", "AlMg4.5Mn", "AlZnMgCu1.5"],
    "aluminium": ["AlMgSi1 F31", "AlMgSi1 F28", "AlMg4.5Mn", "AlZnMgCu1.5", "GK-Al", "GD-Al"],
    "magnesium": ["AZ 91"],
}


@pytest.mark.parametrize("name", list(MATERIALS))
def test_materials(book: Book, name: str) -> None:
    """A material's band runs over the printed grades of one edition, VDI 2230:2003."""
    rows = cells(
        "friction_and_scatter", lambda row: row["kind"] == "pG_MPa" and "2003" in row["standard"]
    )
    assert len(rows) == 25
    grades = [row for row in rows if row["item"].startswith(tuple(MATERIALS[name]))]
    pressures = [float(row["value"]) for row in grades]
    strengths = [float(row["detail"].split()[2]) for row in grades]
    material = book.material(name)
    for band, printed in ((material.pressure_mpa, pressures), (material.tensile_mpa, strengths)):
        assert band
        assert (band.low, band.high) == (min(printed), max(printed))
    listed = [(row["item"], float(row["detail"].split()[2]), float(row["value"])) for row in grades]
    assert [tuple(grade) for grade in material.grades] == listed


def test_shear_ratios(book: Book) -> None:
    """Only aluminium's ratio is printed, 0.7 R_m in a course text; the others say memory."""
    with (PUBLISHED / "engagement.csv").open(encoding="utf-8", newline="") as file:
        printed = [row for row in csv.DictReader(file) if "tau 0.7 Rm" in ",".join(row.values())]
    assert len(printed) == 2
    for material in book.materials():
        if "aluminium" in material.name:
            assert material.shear_ratio == 0.7
            assert material.shear_source.startswith("a course text")
        else:
            assert (material.shear_ratio is None) == (not material.shear_source)
            assert material.shear_ratio is None or material.shear_source.startswith("memory")


# -- printed tables ------------------------------------------------------------


def test_faa_table(book: Book) -> None:
    """Every cell of AC 43.13-1B, table 7-1, is the book's."""
    rows = cells("faa_ac43_13", lambda row: bool(row["max"]))
    assert count_and_sum(rows, "max") == (100, 192773)
    (table,) = (table for table in book.tables() if table.id == "tables/faa-ac-43.13-1b-7-1")
    assert len(table.rows) == 50
    ours = {(row.thread, row.nut): row for row in table.rows}
    for row in rows:
        mine = ours[row["thread"], row["nut"].split()[0]]
        if row["kind"] == "recommended":
            assert (mine.low, mine.high) == (float(row["min"]), float(row["max"])), row
        else:
            assert mine.most == float(row["max"]), row


ARMY = [
    ("army-tm-9-2320-362-f-1", "F-1", "SAE", (40, 7401)),
    ("army-tm-9-2320-362-f-1-metric", "F-1", "metric", (28, 3942)),
    ("army-tm-10-6640-238-g1", "G1", "SAE", (140, 28927)),
]


@pytest.mark.parametrize(("name", "table", "system", "printed"), ARMY)
def test_army_tables(name: str, table: str, system: str, printed: tuple[int, float]) -> None:
    """Every cell of the two Army tables is the record's, in both printed units."""
    rows = cells("army_tm", lambda row: row["table"] == table and row["grade"].startswith(system))
    assert count_and_sum(rows) == printed
    record = read_record(specs_root() / "tables" / f"{name}.yaml")
    assert isinstance(record, Table)
    ours: list[tuple[str, str, str, float | None]] = []
    for row in record.rows:
        grade = row.strength_class or ""
        ours += [(row.thread, grade, "lb-ft", row.low), (row.thread, grade, "N.m", row.also)]
    theirs = [
        (
            row["thread"].removesuffix(" (fine and coarse)"),
            "" if system == "metric" else row["grade"],
            row["unit"],
            float(row["value"]),
        )
        for row in rows
    ]
    assert ours == theirs


def test_conditions_of_tables(book: Book) -> None:
    """A table's conditions are frictions and materials that the book knows."""
    for table in book.tables():
        for name in (table.friction, *table.factors):
            assert book.friction(name).name == name
        for name in table.into_factors:
            assert book.material(name).name == name
        for row in table.rows:
            assert book.candidates(row.thread)
            for name in filter(None, row.strength_classes):
                assert name == "SAE 6" or book.class_named(name)


def test_printed_units_agree(book: Book) -> None:
    """The two printed units of a line agree within the rounding to whole numbers and 1 %."""
    pairs = 0
    for table in book.tables():
        for row in table.rows:
            if table.id in {f"tables/{name}" for name, *_ in ARMY} and "(" in row.printed:
                also = float(row.printed.partition("(")[2].split()[0])
                assert row.low_nm == pytest.approx(also, rel=0.01, abs=0.55), row
                pairs += 1
    assert pairs == 104


def test_wrenches_are_invented(book: Book) -> None:
    """The brigade's wrenches say that they are invented; deviations follow ISO 6789:2003.

    Type II class A: 6 % up to 10 N·m capacity, 4 % above.
    """
    for wrench in book.wrenches():
        assert wrench.source.startswith("invented")
        assert wrench.deviation == (0.06 if wrench.high_nm <= 10 else 0.04)
