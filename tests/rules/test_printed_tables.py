"""No crying wolf: printed tables are right, and the few slips in them are found.

Sources: US Army TM 9-2320-362-14&P table F-1, TM 10-6640-238-13 table G1, TM 10-4320-346-12&P
table H-1, TM 9-6115-604-34 table 1-3; FAA AC 43.13-1B table 7-1; two tables printed in machine
manuals; VDI 2230-1 (2001/2003), fine threads. Row by row in tests/published/*.csv.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from printed_lists import plan_of, printed_tables

from torquebook.findings import Severity
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book

TABLES = printed_tables()

# Rows that deserve a question, by list and thread, with the reason; each is a real misprint.
EXPLAINED = {
    ("army", "1-1/4-12 UNF"): "1820 lb-ft beside 2712 N.m, which is 2000 lb-ft",
    ("army", "5/16"): "5.0 lb-in beside 0.46 N.m; it is 0.56",
    ("inch manual", "1/4-28"): "147 lb-in is 67 % of proof where the table is made for 75 %",
}


def test_all_rows_are_there() -> None:
    """The plans hold every row of the printed tables, except the M1.6 page."""
    assert {name: len(rows) for name, rows in TABLES.items()} == {
        "army": 212,
        "faa": 100,
        "metric manual": 100,
        "inch manual": 90,
        "VDI fine": 54,
    }


@pytest.mark.parametrize("name", TABLES)
def test_a_printed_table_raises_only_what_is_explained(name: str, book: Book) -> None:
    """No row of a printed table is stopped, and every question about one is a known misprint."""
    verdict = judge(plan_of(TABLES[name]), book)
    asked = {
        (name, answer.line.text("thread"))
        for answer in verdict.answers
        if any(finding.severity <= Severity.ASK for finding in answer.findings)
    }
    assert verdict.counts[Severity.STOP] == 0
    assert asked == {place for place in EXPLAINED if place[0] == name}


def test_single_rows_cry_wolf_on_at_most_three_in_a_hundred(book: Book) -> None:
    """Rows judged one by one, without their list, are never stopped and rarely asked about."""
    rows = [row for table in TABLES.values() for row in table]
    verdicts = [judge(plan_of([row]), book) for row in rows]
    asked = sum(verdict.counts[Severity.ASK] > 0 for verdict in verdicts)
    assert sum(verdict.counts[Severity.STOP] for verdict in verdicts) == 0
    assert asked <= 0.03 * len(rows)
