"""Printed torque tables and real lists from tests/published, turned into plans.

One row of a table becomes one line of a plan; what the page does not say stays empty.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.plans.reading import read_plan

if TYPE_CHECKING:
    from torquebook.plans.model import Plan

PUBLISHED = Path(__file__).resolve().parents[1] / "published"

Row = dict[str, str]

# The tables print two grades in one column; the weaker one is what the value must suit.
_GRADES = {"SAE 1 or 2": "SAE 2", "SAE 6 or 7": "SAE 7", "SAE 5": "SAE 5", "SAE 8": "SAE 8"}
_COLUMNS = (
    "joint", "kind", "thread", "class", "count", "tighten", "friction", "head", "into",
    "engagement", "clamp_length", "length", "nut", "state", "order", "wrench", "source", "note",
)  # fmt: skip


def read(name: str) -> list[Row]:
    """Return the rows of a CSV in tests/published."""
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def plan_of(rows: list[Row]) -> Plan:
    """Return rows as a plan, by way of the CSV that a spreadsheet would write."""
    text = io.StringIO()
    writer = csv.DictWriter(text, _COLUMNS)
    writer.writeheader()
    writer.writerows(rows)
    return read_plan("-", stdin=io.BytesIO(text.getvalue().encode()))


def printed_tables() -> dict[str, list[Row]]:
    """Return the printed torque tables as plans, by name."""
    return {
        "army": _army(),
        "faa": _faa(),
        **_machinery(),
        **_vdi(),
    }


def _army() -> list[Row]:
    rows = []
    for row in read("army_tm.csv"):
        grade = row["grade"]
        line = {
            "joint": f"{row['table']} {grade}",
            "thread": row["thread"].replace(" (fine and coarse)", ""),
            "class": _GRADES.get(grade, ""),
            "tighten": f"{row['value']} {row['unit']}",
            "friction": "dry" if "dry" in row["condition"] else "",
            "kind": "prevailing" if "prevailing" in row["condition"] else "",
            "source": f"{row['document']} table {row['table']}",
        }
        rows.append(line)
    return rows


def _faa() -> list[Row]:
    rows = []
    for row in read("faa_ac43_13.csv"):
        recommended = row["kind"] == "recommended"
        value = f"{row['min']}-{row['max']}" if recommended else row["max"]
        rows.append({
            "joint": f"{row['thread']} {row['nut']} {row['kind']}",
            "thread": row["thread"],
            "nut": row["nut"].split(" ", 1)[0],
            "tighten": f"{value} {row['unit']}",
            "friction": "cadmium plated",
            "source": f"{row['document']} {row['table']}",
        })
    return rows


def _machinery() -> dict[str, list[Row]]:
    plans: dict[str, list[Row]] = {}
    for row in read("machinery_manuals.csv"):
        metric = row["thread"].startswith("M")
        if metric:
            friction = "0.125"
        else:
            friction = "dry" if row["condition"] == "dry" else "oiled"
        socket = row["class"] == "socket head"
        plans.setdefault("metric manual" if metric else "inch manual", []).append({
            "joint": row["condition"],
            "thread": f"{row['thread']}x{row['pitch']}" if metric else row["thread"],
            "class": "" if socket else row["class"],
            "head": "socket" if socket else "",
            "tighten": f"{row['value']} {row['unit']}",
            "friction": friction,
            "source": row["document"],
        })
    return plans


def _vdi() -> dict[str, list[Row]]:
    plans: dict[str, list[Row]] = {}
    for row in read("vdi2230_fine.csv"):
        # M1.6 lies below the sizes that the catalogue holds.
        if row["quantity(FM_kN|MA_Nm)"] == "MA_Nm" and row["thread"] != "M1.6":
            plans.setdefault("VDI fine", []).append({
                "thread": f"{row['thread']}x{row['pitch']}",
                "class": row["class"],
                "tighten": f"{row['value']} N.m",
                "friction": row["mu"],
                "source": f"{row['standard']} {row['edition']}",
            })
    return plans
