"""No crying wolf: printed tables are right, and the few slips in them are found."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from printed_lists import plan_of, printed_tables

from torquebook.findings import Severity
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book

TABLES = printed_tables()

# Rows that deserve a question, with the reason; by list and joint or thread.
EXPLAINED: dict[str, dict[str, str]] = {}


def test_all_rows_are_there() -> None:
    """The plans hold every row of the printed tables."""
    assert {name: len(rows) for name, rows in TABLES.items()} == {}


@pytest.mark.parametrize("name", TABLES)
def test_a_printed_table_raises_no_stop(name: str, book: Book) -> None:
    """No row of a printed table is stopped."""
    verdict = judge(plan_of(TABLES[name]), book)
    stops = [str(finding) for finding in verdict.findings if finding.severity is Severity.STOP]
    assert stops == []
