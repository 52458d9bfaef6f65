"""Published values for the checks of the formulas.

``@pytest.mark.published(file, where, rows)`` runs a test once for each printed row of
``tests/published/<file>`` that ``where`` picks. ``rows`` is how many there must be, so
that a filter cannot silently empty a test. Rows in conflict and rows from memory gate
nothing: they are left out here, unless ``where`` asks for them by their confidence.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

PUBLISHED = Path(__file__).parents[1] / "published"
_NAMING = ("standard", "edition", "quantity", "quantity(FM_kN|MA_Nm)", "thread", "class", "grade")
_NAMING += ("grade_class", "nut_class", "style", "size_range_in", "mu", "item", "value", "value_us")
# of cells in conflict, how the notes mark the one that two or more pages print
_SEVERAL = tuple(f"printed by {count} page(s)" for count in range(2, 10))


def _read(file: str) -> list[Row]:
    with (PUBLISHED / file).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def _gates(row: Row) -> bool:
    of_memory = row["printed_in"].startswith("from memory")
    return not of_memory and row["confidence"] not in {"conflict", "from memory", "computed"}


def _fits(row: Row, where: dict[str, str | tuple[str, ...]]) -> bool:
    return all(
        row[column] in wanted if isinstance(wanted, tuple) else row[column] == wanted
        for column, wanted in where.items()
    )


def _name(row: Row) -> str:
    return " ".join(row[column] for column in _NAMING if row.get(column))


def pytest_configure(config: pytest.Config) -> None:
    """Make the marker known."""
    config.addinivalue_line("markers", "published(file, where, rows): one run for each printed row")


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Give the test its printed rows, each with its source as the id."""
    marker = metafunc.definition.get_closest_marker("published")
    if marker is None:
        return
    file, where, count = marker.args
    rows = [row for row in _read(file) if _fits(row, where)]
    if "confidence" not in where:
        rows = [row for row in rows if _gates(row)]
    if len(rows) != count:
        message = f"{metafunc.definition.name}: {len(rows)} rows of {file}, expected {count}"
        raise pytest.UsageError(message)
    metafunc.parametrize("printed", rows, ids=_name)


@pytest.fixture(scope="session")
def published() -> Callable[[str], list[Row]]:
    """All rows of a published table that gate."""
    return lambda file: [row for row in _read(file) if _gates(row)]


@pytest.fixture(scope="session")
def real_rows() -> Callable[[str], list[Row]]:
    """All rows of a list or measurement in ``tests/published/real``."""
    return lambda file: _read(f"real/{file}")


@pytest.fixture(scope="session")
def half_digit() -> Callable[[str], float]:
    """Half a unit of the last printed digit: how far rounding alone can move a cell."""

    def half(text: str) -> float:
        return 0.5001 * 10.0 ** -len(text.partition(".")[2])

    return half


@pytest.fixture(scope="session")
def properties() -> dict[tuple[str, str], float]:
    """ISO 898-1 mechanical properties, by quantity and class.

    Where pages differ, the value that two or more pages print; the others are slips by
    the notes of the table.
    """
    return {
        (row["quantity"], row["class"]): float(row["value"])
        for row in _read("iso898_1_properties.csv")
        if row["value"].replace(".", "").isdigit() and (_gates(row) or row["note"] in _SEVERAL)
    }


@pytest.fixture(scope="session")
def sae_stresses() -> list[Row]:
    """SAE J429 stresses by grade and size range, chosen as in ``properties``."""
    rows = [row for row in _read("sae_j429.csv") if row["quantity"].endswith("_ksi")]
    return [row for row in rows if _gates(row) or row["note"] in _SEVERAL]


@pytest.fixture(scope="session")
def coarse_pitches() -> dict[float, float]:
    """ISO 262 coarse pitch by nominal diameter, M3 to M39, in mm."""
    return {
        float(row["d_mm"]): float(row["value"])
        for row in _read("iso_threads.csv")
        if row["quantity"] == "listed_pitch_mm" and "x" not in row["thread"]
    }


@pytest.fixture(scope="session")
def hole_medium_mm() -> dict[float, float]:
    """ISO 273 medium holes by nominal diameter, in mm.

    For M12 to M16 some pages keep the old steps of 1 mm, by their notes; those are left out.
    """
    return {
        float(row["d_mm"]): float(row["value"])
        for row in _read("iso_threads.csv")
        if row["quantity"] == "clearance_medium_mm" and "older 1 mm steps" not in row["note"]
    }


@pytest.fixture(scope="session")
def inch_thread() -> Callable[[str], tuple[float, float]]:
    """Diameter and pitch in mm of a unified thread, written 1-3/8-6 UNC."""

    def read(thread: str) -> tuple[float, float]:
        *diameter, per_inch = thread.split(maxsplit=1)[0].split("-")
        return 25.4 * float(sum(map(Fraction, diameter))), 25.4 / int(per_inch)

    return read
