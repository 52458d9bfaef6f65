"""Printed torque tables and real lists from tests/published, turned into plans.

One row of a table becomes one line of a plan; what the page does not say stays empty.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.plans.model import COLUMNS
from torquebook.plans.reading import read_plan

if TYPE_CHECKING:
    from torquebook.plans.model import Plan

PUBLISHED = Path(__file__).resolve().parents[1] / "published"

Row = dict[str, str]

# The tables print two grades in one column; the weaker one is what the value must suit.
_GRADES = {"SAE 1 or 2": "SAE 2", "SAE 6 or 7": "SAE 7", "SAE 5": "SAE 5", "SAE 8": "SAE 8"}


def read(name: str) -> list[Row]:
    """Return the rows of a CSV in tests/published."""
    with (PUBLISHED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def plan_of(rows: list[Row]) -> Plan:
    """Return rows as a plan, by way of the CSV that a spreadsheet would write."""
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS)
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
        rows.append(
            {
                "joint": f"{row['thread']} {row['nut']} {row['kind']}",
                "thread": row["thread"],
                "nut": row["nut"].split(" ", 1)[0],
                "tighten": f"{value} {row['unit']}",
                "friction": "cadmium plated",
                "source": f"{row['document']} {row['table']}",
            }
        )
    return rows


def _machinery() -> dict[str, list[Row]]:
    plans: dict[str, list[Row]] = {}
    for row in read("machinery_manuals.csv"):
        metric = row["thread"].startswith("M")
        inch_friction = "dry" if row["condition"] == "dry" else "oiled"
        socket = row["class"] == "socket head"
        plans.setdefault("metric manual" if metric else "inch manual", []).append(
            {
                "joint": row["condition"],
                "thread": f"{row['thread']}x{row['pitch']}" if metric else row["thread"],
                "class": "" if socket else row["class"],
                "head": "socket" if socket else "",
                "tighten": f"{row['value']} {row['unit']}",
                "friction": "0.125" if metric else inch_friction,
                "source": row["document"],
            }
        )
    return plans


def _vdi() -> dict[str, list[Row]]:
    plans: dict[str, list[Row]] = {}
    for row in read("vdi2230_fine.csv"):
        # M1.6 lies below the sizes that the catalogue holds.
        if row["quantity(FM_kN|MA_Nm)"] == "MA_Nm" and row["thread"] != "M1.6":
            plans.setdefault("VDI fine", []).append(
                {
                    "thread": f"{row['thread']}x{row['pitch']}",
                    "class": row["class"],
                    "tighten": f"{row['value']} N.m",
                    "friction": row["mu"],
                    "source": f"{row['standard']} {row['edition']}",
                }
            )
    return plans


# What the pages call the condition of the threads, in the book's words.
_CONDITIONS = {
    "engine oil on threads and seats": "oiled",
    "engine oil or chassis grease": "oiled",
    "clean dry": "dry",
    "oil": "oiled",
    "lubricating oil": "oiled",
    "wet": "oiled",
    "threadlocker": "threadlocker",
    "none": "",
    "": "",
}


def real_lists() -> dict[str, list[Row]]:
    """Return the real lists B01 to B10 as plans, by file name, as the pages print them."""
    plans = {}
    for path in sorted((PUBLISHED / "real").glob("B*.csv")):
        if "dirty" not in path.name:
            plans[path.stem] = [_real(row) for row in read(f"real/{path.name}")]
    return plans


def _real(row: Row) -> Row:
    angles = "".join(f" + {angle} deg" for angle in row["angle_deg"].split("+") if angle)
    return {
        "joint": row["joint"],
        "thread": row["thread"],
        "class": row["class"],
        "count": row["count"],
        "tighten": f"{row['torque']} {row['unit']}{angles}",
        "friction": _CONDITIONS[row["lubrication"]],
        "source": row["source"],
        "note": row["material"],
    }


def dirty_list() -> list[Row]:
    """Return the scanned table with its slips: each stage as read, then the total angle."""
    rows = []
    for row in read("real/B02_as_scanned_dirty.csv"):
        imperial, slash, metric = row["ftlbs/Nm"].partition("/")
        stages = [row[name] for name in ("stage_1", "stage_2", "stage_3") if row[name] != "-"]
        snug = (
            f"{imperial} ft lb ({metric} Nm)" if " " not in metric else f"{imperial}{slash}{metric}"
        )
        rows.append({"joint": row["designation"], "tighten": " + ".join([snug, *stages])})
        if row["total"] != "-":
            total = row["total"].removesuffix("°")
            rows.append(
                {
                    "joint": f"{row['designation']}, total angle",
                    "tighten": f"{snug} + {total}°",
                }
            )
    return rows


def angle_procedures() -> list[Row]:
    """Return the 30 angle and stretch procedures as a plan."""
    rows = []
    for row in read("real/C_angle_and_stretch_procedures.csv"):
        stages = [row[f"stage_{number}"] for number in (1, 2, 3, 4) if row[f"stage_{number}"]]
        rows.append(
            {
                "joint": f"{row['joint']} {row['length_mm']} {row['note']}".strip(),
                "thread": row["thread"],
                "class": row["class"],
                "length": row["length_mm"],
                "tighten": ", ".join(stages),
                "friction": "oiled" if "oil" in row["lubrication"] else "",
                "source": row["source"],
            }
        )
    return rows
