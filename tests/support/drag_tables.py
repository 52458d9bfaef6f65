"""The published prevailing torques, by the names of our records."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Final

CSV: Final = Path(__file__).parents[1] / "published" / "prevailing_torque.csv"

#: By table, kind of nut and property class as the CSV prints them: our record's name.
NAMES: Final = {
    ("ISO 2320", "prevailing torque steel nut", "04"): "ISO 2320",
    (
        "ISO 2320",
        "prevailing torque steel nut",
        "unstated (8 or 10)",
    ): "ISO 2320 class 8 or 10",
    ("FAA AC 43.13-1B Table 7-2 (fine)", "reused self-locking nut", ""): "FAA fine",
    ("FAA AC 43.13-1B Table 7-2 (coarse)", "reused self-locking nut", ""): "FAA coarse",
    (
        "US Army TM 1-1500-204-23-6 Table 2-8 (fine)",
        "used all-metal and non-metallic self-locking nut",
        "",
    ): "Army fine",
    (
        "US Army TM 1-1500-204-23-6 Table 2-8 (coarse)",
        "used all-metal and non-metallic self-locking nut",
        "",
    ): "Army coarse",
    ("US Army TM 10-3510-209-24 Table D-2", "locknut", ""): "Army locknuts",
    (
        "US Army TM 9-6115-604-34 Table 1-3",
        "nuts and all-metal bolts",
        "",
    ): "Army generator all-metal",
    (
        "US Army TM 9-6115-604-34 Table 1-3",
        "nylon insert / adhesive or nylon coated bolts",
        "",
    ): "Army generator nylon",
}
#: By quantity of the CSV: the field of our rows.
FIELDS: Final = {
    "first_assembly_max": "first_on_most",
    "first_removal_min": "first_off_least",
    "fifth_removal_min": "fifth_off_least",
    "removal_min_unstated_cycle": "off_least",
    "reuse_min": "again_least",
    "reuse_min_breakaway": "again_least",
}


def printed() -> list[dict[str, str]]:
    """Return the rows that are printed somewhere; what is from memory gates nothing."""
    with CSV.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["provenance"] == "printed"]


def name_of(row: dict[str, str]) -> str:
    """Return the name of the record that holds a row."""
    return NAMES[row["table"], row["nut_kind"], row["property_class"]]
