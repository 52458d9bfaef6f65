"""Family `plausible`: whether what a contributed record brings can be what it is called."""

from __future__ import annotations

import re
from statistics import median
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.index import KEYS, name_of, read_index
from torquebook.catalogue.register import names_of, readable_rows
from torquebook.errors import OutOfRange
from torquebook.findings import Severity
from torquebook.plans.cells import plan_line
from torquebook.plans.model import Cell
from torquebook.records.classes import StrengthClasses
from torquebook.records.holes import Holes
from torquebook.records.joint import JointRecord
from torquebook.records.table import Table
from torquebook.rules.basis.fastener import Fitter
from torquebook.rules.basis.kinds import REASONS
from torquebook.rules.engine import Remark, rule
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Place
    from torquebook.records.table import TableRow
    from torquebook.rules.basis.contributed import ContributedCase

#: Shelves of values that standards set: other numbers under one of their names are a mistake.
_SET: Final = frozenset({"threads", "classes", "nuts", "holes", "drills"})
#: A printed table's median line takes between these shares of the proof load; reckoned dry, those
#: of tests/published lie at 0.56 to 0.83, which leaves a factor of 3 above and of 5 below.
_LEAST_SHARE: Final = 0.1
_MOST_SHARE: Final = 2.5
_NAMED: Final = re.compile(r"(\d{1,2})\.(\d)", re.ASCII)
#: How far a class's least strength and its ratio of yield lie from what its name says, at most
#: (ISO 898-1: 4.8 has 420 for 400 MPa and 0.81 for 0.8; 10.9 has 1040 for 1000).
_STRENGTH_OFF: Final = 0.1
_RATIO_OFF: Final = 0.03


@rule(
    "covers-ours",
    Severity.ASK,
    source="common practice",
    fires="kind: holes\nholes: [{d_mm: 8, fine_mm: 8.4, medium_mm: 9.5, coarse_mm: 10}]",
    passes="kind: holes\nholes: [{d_mm: 8.5, fine_mm: 8.9, medium_mm: 9.5, coarse_mm: 10}]",
    about=("record",),
)
def covers_ours(case: ContributedCase) -> Iterator[Remark]:
    """Does the record leave what the book says under the same name as it is?

    Why
    ---
    Every other record is judged by it: a friction or a class that is changed beside a joint
    makes that joint right.

    Mend
    ----
    Give it a name of its own; or, where the book is wrong, change the book's own record.

    Known gaps
    ----------
    A friction, a material, a head or a wrench of a user's own under a name of ours is only
    noted; threads, classes, nuts, holes and drills are set by standards.
    """
    rows = readable_rows(case.record, case.lies.id)
    if not rows:  # joints, jobs and the like are covered by their ids
        return
    ours = read_index()
    places = {name.key: name.path for name in names_of(case.record, case.lies.id)}
    for shelf in rows.keys() & KEYS.keys() - {"records", "tables", "head_names"}:
        known = {name_of(shelf, row): row for row in ours[shelf]}
        for row in rows[shelf]:
            key = name_of(shelf, row)
            if key in known and _figures(row) != _figures(known[key]):
                own = {name for name, *_ in ours["records"]}
                yield Remark(
                    f"other figures than the book has under this name: {_apart(row, known[key])}",
                    place=case.at(*places.get(f"{shelf}: {key}", ("name",))),
                    instead="a name of its own" if case.lies.id not in own else None,
                    severity=Severity.ASK if shelf in _SET else Severity.NOTE,
                )


def _figures(row: list[object]) -> list[object]:
    """Return the numbers of a row, also those in its lists."""
    found: list[object] = []
    for cell in row:
        if isinstance(cell, list):
            found += _figures(cell)
        elif isinstance(cell, int | float):
            found.append(cell)
    return found


def _apart(row: list[object], known: list[object]) -> str:
    """Return the first number that differs: ``580 is 5800``."""
    pairs = zip(_figures(known), _figures(row), strict=False)
    return next((f"{old:g} is {new:g}" for old, new in pairs if old != new), "more or fewer")


@rule(
    "class-name-differs",
    Severity.STOP,
    source="ISO 898-1, 2013, clause 5: what the two numbers of a class say",
    fires="kind: strength classes\nstandard: X 1\nedition: '2013'\nfamily: metric\n"
    "stress_unit: MPa\nlength_unit: mm\nclasses: [{name: '8.8', tensile: 8000, yield: 6400, "
    "proof: 5800, over: 100, to: 160}]\n"
    "source: {kind: standard, title: X 1, edition: '2013', where: table 3, provenance: page read}",
    passes="kind: strength classes\nstandard: X 1\nedition: '2013'\nfamily: metric\n"
    "stress_unit: MPa\nlength_unit: mm\nclasses: [{name: '8.8', tensile: 830, yield: 660, "
    "proof: 600, over: 100, to: 160}]\n"
    "source: {kind: standard, title: X 1, edition: '2013', where: table 3, provenance: page read}",
    about=("record",),
)
def class_name_differs(case: ContributedCase) -> Iterator[Remark]:
    """Has a metric class the strength and the yield that its name says?

    Why
    ---
    8.8 says 800 MPa, and yield at 0.8 of it. Every proof load goes by these figures.

    Mend
    ----
    Look whether a digit, a column or the unit was misread.

    Known gaps
    ----------
    Let pass are a tenth in strength and 0.03 in the ratio: standards round. Classes of inch
    bolts and of stainless steel have names that say less.
    """
    record = case.record
    if not isinstance(record, StrengthClasses) or record.family != "metric":
        return
    for index, entry in enumerate(record.classes):
        named = _NAMED.fullmatch(entry.name)
        if named is None or record.stress_unit != "MPa":
            continue
        strength, ratio = int(named[1]) * 100, int(named[2]) / 10
        if abs(entry.tensile / strength - 1) > _STRENGTH_OFF:
            yield _misnamed(case, index, "tensile", entry.tensile, f"{strength} or a little more")
        elif abs(entry.yield_ / entry.tensile - ratio) > _RATIO_OFF:
            right = f"about {ratio * entry.tensile:.0f}"
            yield _misnamed(case, index, "yield", entry.yield_, right)


def _misnamed(case: ContributedCase, index: int, key: str, value: float, right: str) -> Remark:
    message = f"{key} {value:g} MPa is not what the name of the class says"
    return Remark(message, place=case.at("classes", index, key), instead=right)


@rule(
    "hole-over-face",
    Severity.STOP,
    source="the heads of the book (ISO 4014 and others)",
    fires="kind: holes\nholes: [{d_mm: 8, fine_mm: 8.4, medium_mm: 12.9, coarse_mm: 13}]",
    passes="kind: holes\nholes: [{d_mm: 8.5, fine_mm: 9, medium_mm: 9.5, coarse_mm: 10.5}]",
    about=("record",),
)
def hole_over_face(case: ContributedCase) -> Iterator[Remark]:
    """Is every clearance hole smaller than the faces of the heads that go over it?

    Why
    ---
    Through a hole as wide as its bearing face a head is pulled, or no face is left to reckon with.

    Mend
    ----
    Read the line again; it is one of another size.

    Known gaps
    ----------
    Heads whose bearing face the book does not know are not compared.
    """
    if not isinstance(case.record, Holes):
        return
    for index, hole in enumerate(case.record.holes):
        threads = case.book.threads("metric", hole.d_mm)
        heads = [head for thread in threads for head in case.book.heads(thread)]
        least = min((head.bearing_mm for head in heads if head.bearing_mm), default=None)
        for key in ("fine_mm", "medium_mm", "coarse_mm"):
            width = getattr(hole, key)
            if least is not None and width is not None and width >= least:
                yield Remark(
                    f"{width:g} mm, and a head of {hole.d_mm:g} mm has a face of {least:g} mm",
                    place=case.at("holes", index, key),
                    instead=f"less than {least:g}",
                )
                break


@rule(
    "table-scale-odd",
    Severity.ASK,
    source="the proof loads of the book, and how far up printed tables go (inference)",
    fires="kind: printed table\nfriction: oiled\nunit: N.m\nunit_as_printed: N.m\nrows: "
    "[{thread: M8, strength_class: '8.8', low: 2500}, "
    "{thread: M10, strength_class: '8.8', low: 5000}]",
    passes="kind: printed table\nfriction: oiled\nunit: N.m\nunit_as_printed: N.m\nrows: "
    "[{thread: M8, strength_class: '8.8', low: 25}, {thread: M10, strength_class: '8.8', low: 50}]",
    about=("record",),
)
def table_scale_odd(case: ContributedCase) -> Iterator[Remark]:
    """Is a printed table as a whole of a size that its bolts can bear?

    Why
    ---
    kgf.cm taken for N.m, or lbf.in for lbf.ft, makes every line wrong alike: no line stands out
    beside the others.

    Mend
    ----
    Look at the heading of the column, and write its unit.

    Known gaps
    ----------
    Only lines with a listed thread and class are reckoned; a factor of less than about 3 up or
    5 down passes.
    """
    if not isinstance(case.record, Table):
        return
    fitter, place = Fitter(case.book), case.at("rows")
    shares = [
        share for row in case.record.rows if (share := _share(row, case.record, fitter, place))
    ]
    if not shares or _LEAST_SHARE <= (middle := median(shares)) <= _MOST_SHARE:
        return
    times = f"{middle:.0f} times" if middle > 1 else f"{middle:.2f} of"
    yield Remark(
        f"its middle line takes {times} the proof load of the bolt",
        place=case.at("unit"),
        numbers={"share": middle},
        instead="the unit that the page prints",
    )


def _share(row: TableRow, table: Table, fitter: Fitter, place: Place) -> float | None:
    """Return what share of its proof load a line takes at nominal friction; None if unknown."""
    words = {"thread": row.thread, "class": row.strength_class or "", "friction": table.friction}
    cells = {column: Cell(text, place) for column, text in words.items() if text}
    torque_nm = row.low * FACTORS[table.unit][1]
    try:
        fastener = fitter.fit(plan_line(place, cells, {}))
        if fastener.strength is None or not fastener.threads:
            return None
        return torque_nm / (fastener.torque_nm_per_n.nominal * fastener.proof_n.nominal)
    except OutOfRange:  # a hole or a head that cannot be, which has a rule of its own
        return None


@rule(
    "torque-unjudged",
    Severity.NOTE,
    source="common practice",
    fires='fastener: {thread: "M8", strength_class: "8.8", kind: sensor}\ntighten: "200 N.m"',
    passes='fastener: {thread: "M8", strength_class: "8.8"}',
    about=("record",),
)
def torque_unjudged(case: ContributedCase) -> Iterator[Remark]:
    """Is the joint of a kind of which the torque can be judged?

    Why
    ---
    A plug, a sensor or an adjusting nut is tightened low on purpose, so its torque is held
    against nothing: whoever reviews the record has to look it up.

    Mend
    ----
    None is needed where the kind is right.

    Known gaps
    ----------
    None.
    """
    record = case.record
    kind = record.fastener.kind if isinstance(record, JointRecord) else None
    if kind in REASONS:
        yield Remark(
            f"not judged: {REASONS[kind]}",
            place=case.at("tighten"),
            instead="a look at the source by whoever reviews it",
        )


FAMILY = (
    covers_ours,
    class_name_differs,
    hole_over_face,
    table_scale_odd,
    torque_unjudged,
)
