"""Each check of a rule with its numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.reuse import drag
from torquebook.reuse.doubts import millimetres
from torquebook.reuse.model import Comparison

if TYPE_CHECKING:
    from torquebook.catalogue.library import Library
    from torquebook.records.reuse import Check, ReuseRule
    from torquebook.reuse.model import Used

_HAIR = 1e-9
NOT_MEASURED = "not measured"


def comparisons(rule: ReuseRule, used: Used, library: Library) -> tuple[Comparison, ...]:
    """Return a rule's checks with the numbers; those of its tables of drag as one.

    Raises
    ------
    NotUnderstood
        If there is no table of a name.
    """
    drags = [check for check in rule.checks if check.quantity == "drag"]
    found = []
    for check in rule.checks:
        if check.quantity != "drag":
            found.append(_compared(check, used))
        elif check is drags[0]:
            names = drag.chosen(drags, used.measured.table)
            tables = [drag.table_of(library, name) for name in names]
            judged = drag.judged(tables, used.thread, used.measured)
            found.append(Comparison(check, *judged))
    return tuple(found)


def _compared(check: Check, used: Used) -> Comparison:
    """Return one check that needs no table."""
    if check.quantity == "look":
        return Comparison(check, check.what, passed=None)
    said, passed = _MEASURES[check.quantity](check, used)
    return Comparison(check, said, passed)


def _length(_check: Check, used: Used) -> tuple[str, bool | None]:
    measured = used.measured
    length, limit = measured.length_mm, measured.limit_length_mm
    new = f", {millimetres(measured.new_length_mm)} new" if measured.new_length_mm else ""
    most = f"; at most {millimetres(limit)}" if limit else "; no limit is known"
    if length is None or limit is None:
        shown = NOT_MEASURED if length is None else f"{millimetres(length)} long"
        return f"{shown}{new}{most}", None
    return f"{millimetres(length)} long{new}{most}", length <= limit + _HAIR


def _growth(check: Check, used: Used) -> tuple[str, bool | None]:
    measured, most = used.measured, check.most or 0.0
    length, new = measured.length_mm, measured.new_length_mm
    if length is None or new is None:
        return f"{NOT_MEASURED}, beside a new one; over {_percent(most)} proves yield", None
    base, of = measured.stretched_mm, "that stretch"
    if base is None:
        base, of = new, "in all, for the length that stretches is not known"
    grown = max(length - new, 0.0)
    share = grown / base
    said = f"grew {millimetres(grown)} of {millimetres(base)} {of}: {_percent(share)}"
    if share > most + _HAIR:
        return f"{said}; over {_percent(most)} proves yield", False
    # Less proves nothing alone; with a computation that says the same it is enough.
    passed = True if used.computed and "elastic" in used.history else None
    return f"{said}; up to {_percent(most)} proves nothing", passed


def _diameter(_check: Check, used: Used) -> tuple[str, bool | None]:
    pair, least = used.measured.diameters_mm, used.measured.least_diameter_mm
    limit = f"; at least {millimetres(least)}" if least else "; no limit is known"
    if pair is None:
        return f"{NOT_MEASURED}{limit}", None
    said = f"{millimetres(min(pair))} where it is thinnest{limit}"
    return said, None if least is None else min(pair) >= least - _HAIR


def _difference(_check: Check, used: Used) -> tuple[str, bool | None]:
    pair, most = used.measured.diameters_mm, used.measured.most_difference_mm
    limit = f"; at most {millimetres(most)}" if most else "; no limit is known"
    if pair is None:
        return f"{NOT_MEASURED} at two places{limit}", None
    apart = max(pair) - min(pair)
    shown = f"{millimetres(max(pair))} and {millimetres(min(pair))}"
    said = f"{shown}: {millimetres(apart)} apart{limit}"
    return said, None if most is None else apart <= most + _HAIR


def _uses(check: Check, used: Used) -> tuple[str, bool | None]:
    allowed, uses = used.measured.uses_allowed, used.measured.uses
    if check.most is not None:
        allowed = int(check.most)
    most = f"; {allowed} allowed in all" if allowed else "; none is printed"
    if uses is None:
        return f"not counted{most}", None
    said = f"tightened {uses} time{'s' if uses > 1 else ''}{most}"
    return said, None if allowed is None else uses < allowed


def _percent(share: float) -> str:
    return f"{100 * share:.2g} %"


_MEASURES = {
    "length": _length,
    "growth": _growth,
    "diameter": _diameter,
    "diameter difference": _difference,
    "uses": _uses,
}
