"""Nothing missed: every printed row with one mistake in it raises what the mistake deserves.

The kinds and what they deserve: ``tests/support/planted_kinds.py``. A longer run with a report by
kind: ``python tests/bench/report_mistakes.py``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from mistake_report import Report, plant_all
from planted_kinds import KINDS

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book


@pytest.fixture(scope="module")
def report(book: Book) -> Report:
    """Return what became of one mistake in each printed row."""
    return plant_all(book, random_seed=20, per_row=1)


def test_at_least_twenty_kinds_are_tried(report: Report) -> None:
    """Every kind of mistake is tried, on most of the printed rows."""
    assert len(KINDS) >= 20
    assert all(report.tried[kind] > 0 for kind in KINDS), report
    assert report.total >= 500


def test_mistakes_raise_what_they_deserve(report: Report) -> None:
    """At least 99 in 100 mistakes raise the severity that they deserve."""
    assert report.raised_share >= 0.99, str(report)


def test_simple_mistakes_are_named(report: Report) -> None:
    """At least 97 in 100 mistakes that a simpler reading explains are named as such."""
    assert report.named_share >= 0.97, str(report)


def test_few_are_stopped_where_a_question_would_do(report: Report) -> None:
    """At most 3 in 100 mistakes are stopped though their ratio deserves a question only."""
    assert report.over_share <= 0.03, str(report)
