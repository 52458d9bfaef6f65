"""Family `rows`: the value beside printed tables and beside the rest of the list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.basis import report, say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

TABLES = "the printed tables that the book holds, with the conditions they were printed for"
_LIST = """joint,thread,class,tighten,friction
a,M8,8.8,22 N.m,0.12
b,M10,8.8,44 N.m,0.12
c,M12,8.8,76 N.m,0.12
d,M14,8.8,120 N.m,0.12
e,M16,8.8,187 N.m,0.12
f,M18,8.8,265 N.m,0.12
g,M20,8.8,{g},0.12
"""


@rule(
    "wrong-row",
    Severity.STOP,
    source=TABLES,
    fires=_LIST.format(g="265 N.m"),
    passes=_LIST.format(g="370 N.m"),
    needs=("bolt", "clamp", "thread", "torque"),
)
def wrong_row(case: Case) -> Iterator[Remark]:
    """Does the value belong to another class or to the next size?

    Why
    ---
    Eyes slip one row or one column in a printed table; 10.9 for 8.8 is 1.45 times too
    much, the next size 1.4 to 2 times.

    Mend
    ----
    Look the value up again with a ruler under the row.

    Known gaps
    ----------
    Needs a printed table that applies, or five lines of the same class and friction.
    """
    for deviation, slips, _ in report.reported(case, "wrong-row"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            severity=report.severity(deviation),
            instead=report.right(case, deviation),
        )


@rule(
    "table-disagrees",
    Severity.STOP,
    source=TABLES,
    fires="3/8-16 SAE 8 25 lbf.ft friction=dry",
    passes="3/8-16 SAE 8 42 lbf.ft friction=dry",
    needs=("bolt", "clamp", "thread", "torque"),
)
def table_disagrees(case: Case) -> Iterator[Remark]:
    """Does the value agree with a printed table that applies?

    Why
    ---
    A value far from every table for its thread, class and condition was meant for
    another fastener, or has been misread.

    Mend
    ----
    The maker's value for this joint comes first; if this is one, name it as the source.

    Known gaps
    ----------
    Up to 10 % off is never an error, up to 25 % is not reported unless the whole list
    follows the table.
    """
    for deviation, slips, instead in report.reported(case, "table-disagrees"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            severity=report.severity(deviation),
            instead=instead or report.right(case, deviation),
            source="; ".join(sorted({row.table.source for row in deviation.rows})),
        )


@rule(
    "odd-one-out",
    Severity.STOP,
    source="inference from the list itself",
    fires=_LIST.format(g="273 N.m"),
    passes=_LIST.format(g="350 N.m"),
    needs=("bolt", "clamp", "thread", "torque"),
)
def odd_one_out(case: Case) -> Iterator[Remark]:
    """Does the line keep to the level of the other lines of its class and friction?

    Why
    ---
    A list from one source tightens all its bolts to about one share of proof; the line
    that does not was copied wrong, or is a special case that should say so.

    Mend
    ----
    Look the value up again.

    Known gaps
    ----------
    Silent below six such lines, and where their levels differ widely.
    """
    for deviation, slips, instead in report.reported(case, "odd-one-out"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            severity=report.severity(deviation),
            instead=instead or report.right(case, deviation),
        )


@rule(
    "oiled-but-dry-value",
    Severity.STOP,
    source=TABLES,
    fires="1/2-13 SAE 5 75 lbf.ft friction=oiled",
    passes="1/2-13 SAE 5 57 lbf.ft friction=oiled",
    needs=("bolt", "thread", "class", "torque", "friction"),
)
def oiled_but_dry_value(case: Case) -> Iterator[Remark]:
    """Is a value that was printed for dry threads used on lubricated ones?

    Why
    ---
    Oil turns more of the torque into preload: the dry value pulls a third harder.

    Mend
    ----
    Use the value printed for oil, or clean the threads dry.

    Known gaps
    ----------
    Needs a printed table with a dry value for this thread and class.
    """
    torque, dry, preload = case.torque, report.dry_value(case), case.utilisation
    if torque is None or dry is None or preload is None:
        return
    factor = dry.table.factors.get(case.friction.name)
    right = f"; the table takes {say.percent(1 - factor)} off" if factor else ""
    yield Remark(
        f"{say.planned(torque)} is the dry value of {dry.table.source}; with "
        f"{case.friction.name} threads it gives {say.share(preload.nominal)} proof{right}",
        numbers={"utilisation": preload.nominal},
        instead=say.torque(factor * dry.row.high_nm, torque.unit) if factor else None,
        severity=report.severity(case.deviation) if case.deviation else Severity.ASK,
    )


@rule(
    "lines-contradict",
    Severity.ASK,
    source="common practice",
    fires="joint,thread,class,tighten\nhub,M12,8.8,70 N.m\nhub,M12,8.8,85 N.m\n",
    passes="joint,thread,class,tighten\nhub,M12,8.8,70 N.m\nhub,M12,8.8,51.6 lbf.ft\n",
    needs=("joint", "torque"),
)
def lines_contradict(case: Case) -> Iterator[Remark]:
    """Do two lines say different things of one joint?

    Why
    ---
    One of the two is wrong, and in the dark under the car the first one found is used.

    Mend
    ----
    Keep the line that has the better source; give the other joint its own name.

    Known gaps
    ----------
    Lines are compared by joint, thread, class, kind and friction as typed.
    """
    other = case.peers.contradicted(case)
    if other is not None:
        yield Remark(
            f'"{case.line.text("tighten")}", but line {other.line.number} says '
            f'"{other.line.text("tighten")}" for the same joint',
            numbers={"other_line": float(other.line.number)},
        )


FAMILY = (wrong_row, table_disagrees, odd_one_out, oiled_but_dry_value, lines_contradict)
