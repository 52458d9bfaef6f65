"""Checks of what the book's records work out themselves."""

from __future__ import annotations

import subprocess
import sys

import pytest

from torquebook.catalogue import shelves
from torquebook.catalogue.shelves import PrintedRow, Thread


def test_metric_thread() -> None:
    """A metric thread gives the diameters and stress area that ISO prints.

    Sources: ISO 724 (9.026, 8.160, 8.376); ISO 898-1 (58.0 mm²), printed to three figures.
    """
    thread = Thread("M10", "metric", 10, 1.5, "coarse", "")
    assert thread.d2_mm == pytest.approx(9.026, abs=5e-4)
    assert thread.d3_mm == pytest.approx(8.160, abs=5e-4)
    assert thread.minor_mm == pytest.approx(8.376, abs=5e-4)
    assert thread.stress_area_mm2 == pytest.approx(58.0, abs=0.05)


def test_inch_thread() -> None:
    """An inch thread gives the diameters and stress area that ASME B1.1 prints.

    3/8-16 UNC: pitch diameter 0.3344 in, UNR minor diameter 0.3005 in, stress area 0.0775 in².
    """
    thread = Thread("3/8-16", "inch", 9.525, 1.5875, "UNC", "")
    assert thread.d2_mm / 25.4 == pytest.approx(0.3344, abs=5e-5)
    assert thread.d3_mm / 25.4 == pytest.approx(0.3005, abs=1e-4)
    assert thread.stress_area_mm2 / 25.4**2 == pytest.approx(0.0775, abs=5e-5)


@pytest.mark.parametrize(
    ("printed", "classes"),
    [
        ("SAE 5", ("SAE 5",)),
        ("SAE 1 or 2", ("SAE 1", "SAE 2")),
        ("", ("",)),
        ("8.8 or 9.8", ("8.8", "9.8")),
    ],
)
def test_classes_of_a_printed_row(printed: str, classes: tuple[str, ...]) -> None:
    """A line that is printed for two classes speaks of both."""
    row = PrintedRow("1/4-20", printed, "", 5, 5, None, "lbf.ft", 6.8, 6.8, None, "5 lb-ft")
    assert row.strength_classes == classes


def test_a_shelf_is_loaded_when_it_is_asked_for() -> None:
    """A thread's page loads no friction and no tables; every name is there when asked for."""
    code = (
        "import sys; from torquebook.catalogue.book import Book;"
        "from torquebook.answers.sizes import sizes; sizes(Book.open(), 'M10', '8.8');"
        "print('torquebook.catalogue.shelves.conditions' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
    assert {getattr(shelves, name).__name__ for name in shelves.__all__} == set(shelves.__all__)
    with pytest.raises(AttributeError, match="no attribute Cupboard"):
        _ = shelves.Cupboard
