"""Family `printed`: whether a contributed table says what no table says."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook import units
from torquebook.catalogue.designation import INCH_MM, read_designation
from torquebook.catalogue.lookup import SAME_MM
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.records.table import Table
from torquebook.records.threads import InchThreads
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.contributed import ContributedCase

#: Two printed units of one torque differ by no more, beside the rounding of their digits.
PAIR_SHARE: Final = 0.02
_TABLE: Final = (
    'kind: printed table\nfriction: "dry"\nunit: "N.m"\nunit_as_printed: "N.m"\n'
    'also_unit_as_printed: "lb-ft"\nrows:\n'
)
_ROW: Final = "  - {{thread: {}, strength_class: '{}', low: {}}}\n"


@rule(
    "pair-differs",
    Severity.ASK,
    source="NIST SP 811, 2008 edition, table B.8",
    fires=_TABLE + "  - {thread: M20, low: 465, also: 434}",
    passes=_TABLE + "  - {thread: M20, low: 465, also: 343}",
    about=("record",),
)
def pair_differs(case: ContributedCase) -> Iterator[Remark]:
    """Do the two units that a table prints for one torque agree within 2 %?

    Why
    ---
    One of the two is a misprint, and nothing on the page says which.

    Mend
    ----
    Look whether it was copied as printed. If so, leave the line out and say why in a comment.

    Known gaps
    ----------
    What the rounding of the printed digits explains passes. Ranges have one value beside them,
    and are not compared.
    """
    table = case.record
    if not isinstance(table, Table) or table.also_unit_as_printed is None:
        return
    try:
        beside = units.read(f"1 {table.also_unit_as_printed}", "torque").unit
    except NotUnderstood:
        return
    for index, row in enumerate(table.rows):
        if row.also is None or row.high is not None:
            continue
        off = units.pair_deviation((row.low,), table.unit, (row.also,), beside)
        if off > PAIR_SHARE:
            also = units.Quantity(row.also, beside)
            own = units.write(units.convert(also, table.unit))
            share = say.percent(off)
            yield Remark(
                f"{units.write(also)} is {own}, {share} from {row.low:g} beside it",
                numbers={"deviation": off},
                place=case.at("rows", index, "also"),
                instead=f"{own}, if that is right; else leave the line out",
            )


@rule(
    "unit-misread",
    Severity.STOP,
    source="the units of the book",
    fires=_TABLE.replace('unit_as_printed: "N.m"', 'unit_as_printed: "in-lb"', 1)
    + _ROW.format("M8", "8.8", 25),
    passes=_TABLE.replace('unit_as_printed: "N.m"', 'unit_as_printed: "Nm"', 1)
    + _ROW.format("M8", "8.8", 25),
    about=("record",),
)
def unit_misread(case: ContributedCase) -> Iterator[Remark]:
    """Does a table's unit as printed mean the unit that its values are taken in?

    Why
    ---
    lb-in taken for lb-ft makes every line of the table twelve times too large.

    Mend
    ----
    Write under unit what the page prints, in the book's name for it.

    Known gaps
    ----------
    A unit that may mean several, such as lb, is asked back.
    """
    table = case.record
    if not isinstance(table, Table):
        return
    for key in ("unit_as_printed", "also_unit_as_printed"):
        printed = getattr(table, key)
        if printed is None:
            continue
        try:
            meant = units.read(f"1 {printed}", "torque").unit
        except NotUnderstood as trouble:
            message, severity = f'"{printed}" as a unit of torque: {trouble.what}', Severity.ASK
            yield Remark(
                message, place=case.at(key), instead=say.nearest(trouble), severity=severity
            )
            continue
        if key == "unit_as_printed" and meant != table.unit:
            message = f'"{printed}" is {meant}, and the values are taken in {table.unit}'
            yield Remark(message, place=case.at(key), instead=f'unit: "{meant}"')


@rule(
    "inch-size-differs",
    Severity.STOP,
    source="ASME B1.1: the size's name begins with its diameter",
    fires="kind: inch threads\nthreads: [{size: 15/16-16, d_in: 0.9735, tpi: 16, series: UN}]",
    passes="kind: inch threads\nthreads: [{size: 15/16-16, d_in: 0.9375, tpi: 16, series: UN}]",
    about=("record",),
)
def inch_size_differs(case: ContributedCase) -> Iterator[Remark]:
    """Has an inch thread the diameter that its name says?

    Why
    ---
    Every load and torque of the size goes by its diameter; two digits swapped are not seen.

    Mend
    ----
    Write the diameter of the name in inches.

    Known gaps
    ----------
    A metric thread's name is held against its diameter and pitch when it is read.
    """
    threads = case.record.threads if isinstance(case.record, InchThreads) else ()
    for index, thread in enumerate(threads):
        try:
            named_in = read_designation(thread.size).d_mm / INCH_MM
        except NotUnderstood:
            continue
        if abs(named_in - thread.d_in) * INCH_MM > SAME_MM:
            yield Remark(
                f"{thread.size} is {named_in:g} in, d_in says {thread.d_in:g}",
                numbers={"d_in": thread.d_in},
                place=case.at("threads", index, "d_in"),
                instead=f"d_in: {named_in:g}",
            )


FAMILY = (pair_differs, unit_misread, inch_size_differs)
