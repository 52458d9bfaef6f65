"""My bench: the wrenches, adapters, unit, sources and book folders of one user, in a file.

It is JSON in the platform's folder for settings, small enough to be read at every start.
"""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.errors import NotUnderstood, Unreadable

if TYPE_CHECKING:
    from datetime import date

    from torquebook.catalogue.index import Rows

#: ISO 6789:2003, as trade pages give it: a wrench is checked after so many uses or months.
MOST_USES: Final = 5000
MOST_MONTHS: Final = 12
UNITS: Final = ("N.m", "lbf.ft", "lbf.in")
"""What wrenches show."""


class OwnWrench(NamedTuple):
    """A wrench of mine.

    Parameters
    ----------
    name : str
    low, high, step : float
        The ends of its scale and its smallest step, in ``unit``.
    unit : str
        ``N.m``, ``lbf.ft`` or ``lbf.in``.
    deviation : float
        Greatest deviation from the set value, as a share of it.
    drive : str
    calibrated : str
        When it was last calibrated, ``2026-05-31``; empty where that is not known.
    uses : int
        How often it was used since.
    """

    name: str
    low: float
    high: float
    step: float
    unit: str
    deviation: float
    drive: str = "not stated"
    calibrated: str = ""
    uses: int = 0

    def overdue(self, today: date) -> str:
        """Return why it is to be calibrated, empty if it is not."""
        if self.uses >= MOST_USES:
            return f"{self.uses} uses since it was calibrated, {MOST_USES} are the most"
        if not self.calibrated:
            return "no date of calibration is known"
        year, month, day = (int(part) for part in self.calibrated.split("-"))
        months = (today.year - year) * MOST_MONTHS + today.month - month - (today.day < day)
        if months < MOST_MONTHS:
            return ""
        return f"calibrated on {self.calibrated}, {months} months ago, {MOST_MONTHS} are the most"


class Adapter(NamedTuple):
    """An adapter of mine, by its length from the square drive to the bolt [mm]."""

    name: str
    extension_mm: float


class Bench(NamedTuple):
    """What one user has.

    Parameters
    ----------
    wrenches : tuple of OwnWrench
    adapters : tuple of Adapter
    unit : str
        In which torques are wanted; empty for that of the sheet.
    prefer : tuple of str
        Sources that outrank others that contradict them, the first most.
    books : tuple of str
        Folders of own records, the topmost first.
    """

    wrenches: tuple[OwnWrench, ...] = ()
    adapters: tuple[Adapter, ...] = ()
    unit: str = ""
    prefer: tuple[str, ...] = ()
    books: tuple[str, ...] = ()

    def adapter(self, name: str) -> Adapter:
        """Return an adapter by name.

        Raises
        ------
        NotUnderstood
            If there is none.
        """
        for one in self.adapters:
            if one.name.casefold() == name.strip().casefold():
                return one
        known = tuple(one.name for one in self.adapters)
        raise NotUnderstood(name, "no adapter of my bench", known or ("torquebook bench --ask",))

    @property
    def cards(self) -> tuple[dict[str, Any], ...]:
        """The wrenches as the index keeps records for ``look``."""
        return tuple(
            {
                "kind": "wrench",
                "name": one.name,
                "facts": {"low": one.low, "high": one.high, "unit": one.unit},
            }
            for one in self.wrenches
        )

    @property
    def rows(self) -> Rows:
        """The wrenches as the book's index holds them."""
        from torquebook.units import FACTORS  # noqa: PLC0415 - a bench may have no wrench

        rows = []
        for one in self.wrenches:
            ends = (end * FACTORS[one.unit][1] for end in (one.low, one.high))
            rows.append([one.name, [], *ends, one.unit, one.deviation, one.drive, "my bench"])
        return {"wrenches": rows}


def read_bench(path: str) -> Bench:
    """Read a bench; an absent file is an empty one.

    Raises
    ------
    Unreadable
        If it cannot be read, or is none.
    """
    try:
        with open(path, encoding="utf-8") as file:  # noqa: PTH123 - pathlib costs the start
            held = json.load(file)
    except FileNotFoundError:
        return Bench()
    except OSError as fault:
        raise Unreadable(path, f"cannot be read ({fault.strerror})", "see to its rights") from fault
    except (ValueError, RecursionError) as fault:
        raise _damaged(path, str(fault)) from fault
    return _bench(held, path)


def _bench(held: Any, path: str) -> Bench:
    try:
        made = Bench(
            tuple(OwnWrench(**one) for one in held.get("wrenches", ())),
            tuple(Adapter(**one) for one in held.get("adapters", ())),
            held.get("unit", ""),
            tuple(held.get("prefer", ())),
            tuple(held.get("books", ())),
        )
        sound = all(one.unit in UNITS and 0 <= one.low < one.high for one in made.wrenches)
    except (TypeError, AttributeError) as fault:
        raise _damaged(path, str(fault)) from fault
    if not sound:
        raise _damaged(path, "a wrench has no scale")
    return made


def _damaged(path: str, what: str) -> Unreadable:
    right = "write it anew: torquebook bench"
    return Unreadable(path, f"this is no bench ({what[:80]})", right)


def write_bench(path: str, bench: Bench) -> None:
    """Write a bench, whole or not at all.

    Raises
    ------
    Unreadable
        If it cannot be written.
    """
    held = {
        "wrenches": [one._asdict() for one in bench.wrenches],
        "adapters": [one._asdict() for one in bench.adapters],
        "unit": bench.unit,
        "prefer": list(bench.prefer),
        "books": list(bench.books),
    }
    from torquebook.catalogue.store.cache import put_in_place  # noqa: PLC0415 - who reads needs none

    beside = f"{path}.new"
    try:
        os.makedirs(os.path.dirname(path) or ".", exist_ok=True)  # noqa: PTH103, PTH120 - as above
        with open(beside, "w", encoding="utf-8") as file:  # noqa: PTH123 - as above
            json.dump(held, file, indent=1, ensure_ascii=False)
            file.write("\n")
        put_in_place(beside, path)
    except OSError as fault:
        what = f"cannot be written ({fault.strerror})"
        raise Unreadable(path, what, "name another file: TORQUEBOOK_BENCH") from fault
