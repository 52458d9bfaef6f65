"""Turn records into the rows that the index holds."""

from __future__ import annotations

from functools import singledispatch
from typing import TYPE_CHECKING, Any

from torquebook.catalogue.designation import INCH_MM, read_designation
from torquebook.records.base import NamedRecord
from torquebook.records.classes import StrengthClasses
from torquebook.records.friction import FrictionRecord
from torquebook.records.heads import Heads
from torquebook.records.holes import Holes, TappingDrills
from torquebook.records.material import MaterialRecord
from torquebook.records.nuts import NutClasses
from torquebook.records.pattern import PatternRecord
from torquebook.records.table import Table, TableRow
from torquebook.records.threads import InchThreads, MetricThreads
from torquebook.records.wrench import WrenchRecord
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from torquebook.catalogue.index import Rows
    from torquebook.records.base import Record

KSI_MPA = 6.894757293168361  # 1000 lbf/in², exact: 4448.2216152605 N / 645.16 mm²
STRESS_MPA = {"MPa": 1.0, "ksi": KSI_MPA}
LENGTH_MM = {"mm": 1.0, "in": INCH_MM}


@singledispatch
def rows_of(record: Record, name: str) -> Rows:
    """Return a record's rows, by shelf.

    Parameters
    ----------
    record : Record
        A record of any kind.
    name : str
        Its id: the file's path without the ending.
    """
    raise TypeError(f"no shelf for {type(record).__name__} {name}")


@rows_of.register(NamedRecord)
def _(_record: NamedRecord, _name: str) -> Rows:
    """Rules, joints and jobs are read whole, by the library."""
    return {}


@rows_of.register(PatternRecord)
def _(record: PatternRecord, _name: str) -> Rows:
    return {"patterns": [[record.name, record.shape, record.order, record.source.line]]}


@rows_of.register(Table)
def _(record: Table, name: str) -> Rows:
    about = name, record.title, record.source.edition, record.source.where
    factors = record.factors, record.into_factors
    rows = [_table_row(record, row) for row in record.rows]
    end = record.note or "", record.source.line
    return {"tables": [[*about, record.friction, *factors, record.tolerance, rows, *end]]}


@rows_of.register(Holes)
def _(record: Holes, _name: str) -> Rows:
    source = record.source.line
    return {"holes": [[h.d_mm, h.fine_mm, h.medium_mm, h.coarse_mm, source] for h in record.holes]}


@rows_of.register(TappingDrills)
def _(record: TappingDrills, _name: str) -> Rows:
    source = record.source.line
    return {"drills": [[drill.size, drill.drill_mm, source] for drill in record.drills]}


@rows_of.register(FrictionRecord)
def _(record: FrictionRecord, _name: str) -> Rows:
    bands = record.mu_thread.row, record.mu_head.row
    end = record.lubricated, record.source.line, record.doubtful
    return {"frictions": [[record.name, record.aliases, *bands, *end]]}


@rows_of.register(MaterialRecord)
def _(record: MaterialRecord, _name: str) -> Rows:
    least = record.engagement.times_d, record.engagement.source
    bands = [band.row if band else None for band in (record.tensile_mpa, record.pressure_mpa)]
    grades = [[grade.name, grade.tensile_mpa, grade.pressure_mpa] for grade in record.grades]
    shear = (record.shear.ratio, record.shear.source) if record.shear else (None, "")
    about = record.name, record.aliases, *least, *bands, record.source.line
    return {"materials": [[*about, grades, *shear, record.doubtful]]}


@rows_of.register(WrenchRecord)
def _(record: WrenchRecord, _name: str) -> Rows:
    nm = FACTORS[record.unit][1]
    ends = _tidy(record.low * nm), _tidy(record.high * nm)
    about = record.unit, record.deviation, record.drive, record.source.line
    return {"wrenches": [[record.name, record.aliases, *ends, *about]]}


def _tidy(value: float) -> float:
    """Return a value without the last bits that a factor leaves behind."""
    return float(f"{value:.9g}")


@rows_of.register(MetricThreads)
def _(record: MetricThreads, _name: str) -> Rows:
    source = record.source.line
    rows = [[t.size, "metric", t.d_mm, t.pitch_mm, t.series, source] for t in record.threads]
    return {"threads": rows}


@rows_of.register(InchThreads)
def _(record: InchThreads, _name: str) -> Rows:
    rows = []
    for thread in record.threads:
        geometry = _tidy(thread.d_in * INCH_MM), _tidy(INCH_MM / thread.tpi)
        rows.append([thread.size, "inch", *geometry, thread.series, record.source.line])
    return {"threads": rows}


@rows_of.register(StrengthClasses)
def _(record: StrengthClasses, _name: str) -> Rows:
    stress, length = STRESS_MPA[record.stress_unit], LENGTH_MM[record.length_unit]
    rows = [
        [
            entry.name,
            record.family,
            record.standard,
            record.edition,
            *(_tidy(value * stress) for value in (entry.tensile, entry.yield_, entry.proof)),
            entry.elongation_pct,
            _tidy(entry.over * length),
            _tidy(entry.to * length),
            record.source.line,
        ]
        for entry in record.classes
    ]
    return {"classes": rows}


@rows_of.register(NutClasses)
def _(record: NutClasses, _name: str) -> Rows:
    rows = [
        [
            entry.name,
            entry.style,
            record.edition,
            record.standard,
            entry.proof_mpa,
            entry.over_mm,
            entry.to_mm,
            entry.pairs_with or "",
            record.source.line,
        ]
        for entry in record.classes
    ]
    return {"nuts": rows}


@rows_of.register(Heads)
def _(record: Heads, _name: str) -> Rows:
    names = [record.head, record.standard, record.aliases]
    rows = [
        [
            record.head,
            record.standard,
            entry.size,
            read_designation(entry.size).d_mm,
            entry.across_flats_mm,
            entry.key_mm,
            entry.bearing_mm,
            record.source.line,
        ]
        for entry in record.sizes
    ]
    return {"heads": rows, "head_names": [names]}


def _table_row(record: Table, row: TableRow) -> list[Any]:
    nm = FACTORS[record.unit][1]
    high = row.low if row.high is None else row.high
    low_nm, high_nm = _tidy(row.low * nm), _tidy(high * nm)
    most_nm = None if row.most is None else _tidy(row.most * nm)
    torques = [row.low, high, row.most, record.unit, low_nm, high_nm, most_nm]
    return [row.thread, row.strength_class or "", row.nut or "", *torques, _printed(record, row)]


def _printed(record: Table, row: TableRow) -> str:
    """Return a line as the table prints it."""
    spread = f"{row.low:g}" if row.high is None else f"{row.low:g}-{row.high:g}"
    printed = f"{spread} {record.unit_as_printed}"
    if row.most is not None:
        printed += f", at most {row.most:g}"
    if row.also is not None:
        printed += f" ({row.also:g} {record.also_unit_as_printed})"
    return printed
