"""The published tables as contributed records: only their known misprints are asked about.

Sources: US Army TM 9-2320-362-14&P table F-1, TM 10-6640-238-13 table G1, TM 10-4320-346-12&P
table H-1, TM 9-6115-604-34 table 1-3; FAA AC 43.13-1B table 7-1; two tables printed in machine
manuals; VDI 2230-1 (2001/2003), fine threads. Row by row in tests/published/*.csv.
"""

from __future__ import annotations

import json
from collections import defaultdict
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from printed_lists import read

from torquebook.catalogue.places import specs_root
from torquebook.catalogue.tidy import editor_line
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.rules import columns, printed
from torquebook.rules.admitting import Desk, Vetting

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding

PATH = "tables/example/table.yaml"
SLUGS = {rule.slug for rule in (*printed.FAMILY, *columns.FAMILY)}
UNITS = {"lb-ft": "lbf.ft", "lb-in": "lbf.in", "in-lb": "lbf.in", "N.m": "N.m"}
#: What is asked about, by table, thread and rule: each is a misprint of the page.
EXPLAINED = {
    ("TM 10-4320-346-12&P H-1 (cont.)", "1-1/4-12", "pair-differs"),
    ("TM 9-6115-604-34 1-3", "5/16", "pair-differs"),
}


def army() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield a cell of an Army table with what is printed beside it."""
    rows = read("army_tm.csv")
    for row, beside in pairwise(rows):
        pair = {row["unit"], beside["unit"]}
        same = all(row[key] == beside[key] for key in ("document", "table", "thread", "grade"))
        if same and row["unit"] != "N.m" and "N.m" in pair and "prevailing" not in row["condition"]:
            size = row["thread"].replace(" (fine and coarse)", "").replace(" UNF", "")
            cell = {"thread": size, "low": float(row["value"]), "also": float(beside["value"])}
            grade = {"strength_class": row["grade"]} if row["grade"].startswith("SAE") else {}
            yield f"{row['document']} {row['table']}|{row['unit']}", cell | grade


def faa() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield a range of the FAA's table."""
    for row in read("faa_ac43_13.csv"):
        if row["kind"] == "recommended":
            nut = row["nut"].split(" ", 1)[0]
            values = {"low": float(row["min"]), "high": float(row["max"])}
            yield (
                f"{row['document']} {row['table']}|in-lb",
                {
                    "thread": row["thread"],
                    "nut": nut,
                    **values,
                },
            )


def manuals() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield a cell of the machine manuals; one table for each condition."""
    for row in read("machinery_manuals.csv"):
        size = f"{row['thread']}x{row['pitch']}" if row["thread"].startswith("M") else row["thread"]
        name = f"{row['document']}, {row['condition']}|{row['unit']}"
        yield (
            name,
            {
                "thread": size,
                "strength_class": row["class"],
                "low": float(row["value"]),
            },
        )


def fine() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield a torque of VDI 2230; one table for each friction."""
    for row in read("vdi2230_fine.csv"):
        if row["quantity(FM_kN|MA_Nm)"] == "MA_Nm":
            yield (
                f"VDI 2230-1, mu {row['mu']}|N.m",
                {
                    "thread": f"{row['thread']}x{row['pitch']}",
                    "strength_class": row["class"],
                    "low": float(row["value"]),
                },
            )


def known(cell: dict[str, Any], book: Book) -> bool:
    try:
        book.candidates(cell["thread"])
    except NotUnderstood:
        return False
    return True


def by_table(source: Any, book: Book) -> dict[str, list[dict[str, Any]]]:
    """Return the cells of a source whose threads the book lists, by table."""
    tables: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for name, cell in source():
        if known(cell, book):
            tables[name].append(cell)
    return tables


def looked_at(name: str, rows: list[dict[str, Any]]) -> tuple[str, tuple[Finding, ...]]:
    """Return a table as the text of a record, and what is found in it."""
    title, _, unit = name.partition("|")
    data = {
        "kind": "printed table",
        "title": title,
        "friction": "dry",
        "unit": UNITS[unit],
        "unit_as_printed": unit,
        "also_unit_as_printed": "N.m",
        "rows": rows,
        "source": {"kind": "manual", "title": title, "provenance": "as in tests/published"},
    }
    text = f"{editor_line('printed table', 2)}\n{json.dumps(data, indent=1)}\n"
    return text, Vetting().look_at(text, PATH, Desk(str(specs_root())))


@pytest.mark.parametrize("source", [army, faa, manuals, fine])
def test_only_misprints_are_asked_about(source: Any, book: Book) -> None:
    """Pairs, steps, ratios and fine threads of printed tables are as the rules hold them to be."""
    tables = by_table(source, book)
    asked = set()
    for name, rows in tables.items():
        title = name.partition("|")[0]
        text, found = looked_at(name, rows)
        assert not [finding for finding in found if finding.severity is Severity.STOP]
        assert not [finding for finding in found if finding.rule == "table-scale-odd"]
        for finding in found:
            if finding.rule in SLUGS:
                line = text.splitlines()[: finding.place.line]
                thread = next(one for one in reversed(line) if '"thread"' in one)
                asked.add((title, thread.split('"')[3], finding.rule))
    assert sum(map(len, tables.values())) >= {army: 90, faa: 40, manuals: 180, fine: 50}[source]
    assert asked == {item for item in EXPLAINED if item[0] in {n.partition("|")[0] for n in tables}}


@pytest.mark.parametrize("factor", [1 / 12, 9.80665, 12])
def test_a_unit_taken_for_another_shows_in_the_whole(factor: float, book: Book) -> None:
    """Feet for inches, inches for feet, or kgf·m times ten: the table is asked about as a whole."""
    (name, rows), *_ = by_table(army, book).items()
    wrong = [row | {"low": row["low"] * factor, "also": row["also"] * factor} for row in rows]
    assert "table-scale-odd" in {finding.rule for finding in looked_at(name, wrong)[1]}
