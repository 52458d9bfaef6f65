"""What a bench comes to: its wrenches, and which of them are to be calibrated."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from torquebook.catalogue.bench import Bench


class BenchState(NamedTuple):
    """A bench, the file that it is kept in, and by wrench why it is to be calibrated."""

    bench: Bench
    path: str
    overdue: dict[str, str]


def state(bench: Bench, path: str, today: date | None = None) -> BenchState:
    """Return a bench with what is overdue on a day, today if none is given."""
    day = today or date.today()  # noqa: DTZ011 - the day on the wall of the workshop
    why = {one.name: one.overdue(day) for one in bench.wrenches}
    return BenchState(bench, path, {name: reason for name, reason in why.items() if reason})
