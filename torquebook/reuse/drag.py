"""Prevailing torques: what a printed table demands of one thread."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from torquebook.catalogue.lookup import plain
from torquebook.records.reuse import DragTable
from torquebook.units import FACTORS, Quantity, write

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.library import Held, Library
    from torquebook.catalogue.shelves import Thread
    from torquebook.records.reuse import Check, DragRow
    from torquebook.reuse.model import Measured

SHELF = "prevailing"
FIRST = 1
LAST_LISTED = 5  # the removal that tables of ISO 2320 end at
ABSURD = 20.0  # so many times the least one printed, a drag was read wrongly (inference)
_HAIR = 1 + 1e-9


class Judged(NamedTuple):
    """A drag beside a table.

    Parameters
    ----------
    said : str
    passed : bool or None
        None where that is open.
    listed : bool
        Whether one of the tables lists the thread; true where there is no table or no thread.
    """

    said: str
    passed: bool | None
    listed: bool = True


def table_of(library: Library, name: str) -> Held[DragTable]:
    """Return a table by its name; raises ``NotUnderstood`` with those that come near."""
    return library.named(SHELF, DragTable, name)


def chosen(checks: Sequence[Check], picked: str) -> list[str]:
    """Return the tables that a rule's checks may be held against: the picked one, or its own."""
    own = [check.table for check in checks if check.table]
    if not picked:
        return own
    return [picked] if not own or plain(picked) in map(plain, own) else []


def judged(tables: Sequence[Held[DragTable]], thread: Thread | None, measured: Measured) -> Judged:
    """Return a measured drag beside the first table that lists the thread.

    Parameters
    ----------
    tables : sequence of Held of DragTable
        Those that may apply; empty where no table is named.
    thread : Thread or None
    measured : Measured
    """
    shown = _drag(measured.drag_nm, "N.m")
    if not tables:
        return Judged(f"{shown}; no table is named for it: --table NAME", None)
    names = " and ".join(held.record.name for held in tables)
    if thread is None:
        return Judged(f"{shown}; without its thread {names} tells nothing", None)
    found = [
        (held.record, row)
        for held in tables
        for row in held.record.rows
        if row.thread in _sizes(thread)
    ]
    if found:
        # Where several tables list the thread, for nuts of several classes, the strictest counts.
        table, row = max(
            found, key=lambda one: _least(one[1], measured.uses)[0] * FACTORS[one[0].unit][1]
        )
        return _beside(table, row, measured)
    verb = "does" if len(tables) == 1 else "do"
    return Judged(f"{shown}; {names} {verb} not list {thread.size}", None, listed=False)


def _sizes(thread: Thread) -> tuple[str, ...]:
    """Return how a table may print a thread: by its size, in inches also without its pitch."""
    if thread.family == "inch":
        return thread.size, thread.size.rpartition("-")[0]
    return (thread.size,)


def _beside(table: DragTable, row: DragRow, measured: Measured) -> Judged:
    """Return a drag beside a line of a table."""
    least, when = _least(row, measured.uses)
    factor = FACTORS[table.unit][1]
    told = f"at least {_both(least, table.unit)}{when}"
    if row.first_on_most is not None:
        told += f", at most {_both(row.first_on_most, table.unit)} going on"
    drag_nm = measured.drag_nm
    shown = _drag(drag_nm, table.unit)
    said = f"{shown}; {told} for {row.thread} by {table.name} ({table.nuts})"
    if drag_nm is None:
        return Judged(said, None)
    if row.fifth_off_least is not None and (measured.uses or 0) > LAST_LISTED:
        return Judged(f"{said}; the table ends at the fifth removal", None)
    if drag_nm > ABSURD * least * factor:
        return Judged(f"{said}; {ABSURD:g} times that is no drag (inference): read again", None)
    if row.first_on_most is not None and drag_nm > row.first_on_most * factor * _HAIR:
        return Judged(f"{said}; more than a new one may show: a thread that has galled", False)
    return Judged(said, drag_nm * _HAIR >= least * factor)


def _least(row: DragRow, uses: int | None) -> tuple[float, str]:
    """Return the least torque that counts after so many uses, and the words for when."""
    if row.again_least is not None:
        return row.again_least, ""
    if uses in {None, FIRST} and row.first_off_least is not None:
        unsaid = "" if uses else ", for how often it came off is not said (--uses)"
        return row.first_off_least, f" at the first removal{unsaid}"
    if row.fifth_off_least is not None:
        return row.fifth_off_least, " up to the fifth removal"
    if row.off_least is not None:
        return row.off_least, " at a removal that the page does not name"
    return row.first_off_least or 0.0, " at the first removal"


def _drag(drag_nm: float | None, unit: str) -> str:
    if drag_nm is None:
        return "not measured"
    return f"drag {_both(drag_nm / FACTORS[unit][1], unit)}"


def _both(value: float, unit: str) -> str:
    """Return a torque in a unit, with N·m behind it where that is another one."""
    printed = write(Quantity(round(value, 6), unit))
    if unit == "N.m":
        return printed
    return f"{printed} ({value * FACTORS[unit][1]:.2f} N·m)"
