"""What a bench comes to: its wrenches, and which of them are to be calibrated."""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import date
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from torquebook.catalogue.bench import Bench


class BenchState(NamedTuple):
    """A bench, and what is to be said of it.

    Parameters
    ----------
    bench : Bench
    path : str
        Of its file.
    kept : bool
        Whether that file is there.
    overdue : dict of str to str
        By wrench why it is to be calibrated.
    """

    bench: Bench
    path: str
    kept: bool
    overdue: dict[str, str]


def state(bench: Bench, path: str, today: date | None = None) -> BenchState:
    """Return a bench with what is overdue on a day, today if none is given."""
    day = today or date.today()  # noqa: DTZ011 - the day on the wall of the workshop
    why = {one.name: one.overdue(day) for one in bench.wrenches}
    overdue = {name: reason for name, reason in why.items() if reason}
    return BenchState(bench, path, os.path.exists(path), overdue)  # noqa: PTH110 - as the bench


def reminder(bench: Bench, path: str, today: date | None = None) -> str:
    """Return once a day which wrenches are to be calibrated; empty at every other time.

    Parameters
    ----------
    bench : Bench
    path : str
        The bench's file; the day of the last reminder is the date of a file beside it.
    today : date, optional
        The day on the wall if not given.
    """
    if not bench.wrenches:
        return ""
    found = state(bench, path, today)
    said, day = f"{path}.said", (today or date.today()).isoformat()  # noqa: DTZ011 - as above
    if not found.overdue or _read(said) == day:
        return ""
    # A folder that cannot be written to is reminded each time.
    with suppress(OSError), open(said, "w", encoding="ascii") as file:  # noqa: PTH123 - as the bench
        file.write(day)
    each = "; ".join(f"{name}: {why}" for name, why in found.overdue.items())
    return f"to be calibrated: {each}"


def _read(path: str) -> str:
    with suppress(OSError, ValueError), open(path, encoding="ascii") as file:  # noqa: PTH123 - as above
        return file.read(10)
    return ""
