"""What to set on a torque wrench, with or without an adapter, and which wrench can."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook import units
from torquebook.errors import NotUnderstood, OutOfRange, TorquebookError
from torquebook.mechanics.adapter import wrench_setting

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Wrench

BEST_LOW: Final = 0.25
BEST_HIGH: Final = 0.75
BEST_SOURCE: Final = "TB 43-0218, table 3-1"
"""The middle of a wrench's range, from its lowest mark (0) to its highest (1).

The table prints 30 to 60 for a wrench of 15 to 75, and 50 to 150 for one of 0 to 200."""
SHORTEST_MM: Final = 1.0
LONGEST_MM: Final = 10_000.0
STRAIGHT_BACK_DEG: Final = 180.0
_HAIR: Final = 1e-6  # the ends of a scale are rounded in the index
FORMULA_SOURCE: Final = "TM 9-2350-277-40&P, p. 44; the cosine is common practice"


class Adapter(NamedTuple):
    """An adapter on a wrench: lengths as they were given, and the angle between them."""

    wrench_length: units.Quantity
    extension: units.Quantity
    angle_deg: float


class WrenchSetting(NamedTuple):
    """What one wrench has to be set to.

    Parameters
    ----------
    wrench : Wrench
    setting : Quantity
        In the unit of its scale.
    position : float
        Where that lies in its range: 0 is the lowest mark, 1 the highest.
    """

    wrench: Wrench
    setting: units.Quantity
    position: float

    @property
    def fit(self) -> str:
        """``best``, ``low end`` or ``high end`` of the range, or ``below`` or ``above`` it."""
        if not -_HAIR <= self.position <= 1 + _HAIR:
            return "below" if self.position < 0 else "above"
        if self.position < BEST_LOW:
            return "low end"
        return "best" if self.position <= BEST_HIGH else "high end"

    @property
    def covers(self) -> bool:
        """Whether the wrench can be set to it."""
        return self.fit not in {"below", "above"}


class Settings(NamedTuple):
    """The answer: the torque wanted at the bolt, what to set, and the wrenches, best first."""

    torque: units.Quantity
    adapter: Adapter | None
    setting: units.Quantity
    wrenches: tuple[WrenchSetting, ...]


def read_adapter(length: str, extension: str, angle: str) -> Adapter | None:
    """Return the adapter that a command line describes, None if it describes none.

    Parameters
    ----------
    length, extension : str
        With their units; empty if not given.
    angle : str
        Degrees, or an angle with its unit; empty is straight on.

    Raises
    ------
    NotUnderstood
        If one of them cannot be read, or is none that an adapter or a wrench can have.
    TorquebookError
        If one of the lengths is missing.
    """
    if not (length or extension or angle):
        return None
    if not (length and extension):
        raise TorquebookError(
            "an adapter needs both lengths; write --length 12in --extension 4in, measured from "
            "the wrench's square drive to the middle of the grip and to the bolt"
        )
    wrench_length, reach = units.read(length, "length"), units.read(extension, "length")
    if not SHORTEST_MM <= wrench_length.si <= LONGEST_MM:
        raise NotUnderstood(length, "a wrench is 1 mm to 10 m long")
    if reach.si > LONGEST_MM:
        raise NotUnderstood(extension, "an adapter is at most 10 m long")
    return Adapter(wrench_length, reach, _degrees(angle or "0"))


def _degrees(angle: str) -> float:
    """Return an angle between wrench and adapter, as the option takes it."""
    try:
        degrees = float(angle)
    except ValueError:
        degrees = units.read(angle, "angle").si
    if not 0 <= degrees <= STRAIGHT_BACK_DEG:
        what = "an adapter is turned by 0 (straight on) to 180 degrees (straight back)"
        raise NotUnderstood(angle, what, _folded(degrees))
    return degrees


def _folded(degrees: float) -> tuple[str, ...]:
    """Return the angle that does the same, for one that counts the other way round."""
    other = abs(degrees) if -STRAIGHT_BACK_DEG <= degrees <= 0 else 2 * STRAIGHT_BACK_DEG - degrees
    return (f"{other:g}",) if 0 <= other <= STRAIGHT_BACK_DEG else ()


def settings(book: Book, torque: str, adapter: Adapter | None, names: Sequence[str]) -> Settings:
    """Return what to set for a torque at the bolt.

    Parameters
    ----------
    book : Book
    torque : str
        With its unit.
    adapter : Adapter or None
    names : sequence of str
        The wrenches to look at; all in the book if empty.

    Raises
    ------
    NotUnderstood
        If the torque cannot be read, or there is no wrench of a name.
    TorquebookError
        If the adapter reaches back to the hand.
    """
    wanted = units.read(torque, "torque")
    if wanted.value <= 0:
        raise NotUnderstood(torque, "no torque to set")
    set_nm = wanted.si
    if adapter:
        set_nm = _with_adapter(wanted.si, adapter)
    setting = units.Quantity(set_nm, "N.m")
    chosen = [book.wrench(name) for name in names] or book.wrenches()
    found = on_wrenches(chosen, setting)
    return Settings(wanted, adapter, units.convert(setting, wanted.unit), found)


def on_wrenches(wrenches: Iterable[Wrench], setting: units.Quantity) -> tuple[WrenchSetting, ...]:
    """Return what each wrench has to be set to; the one nearest its middle comes first."""
    found = [_on(wrench, setting) for wrench in wrenches]
    found.sort(key=lambda one: abs(one.position - (BEST_LOW + BEST_HIGH) / 2))
    return tuple(found)


def _with_adapter(torque_nm: float, adapter: Adapter) -> float:
    """Return what to set for a torque at the bolt [N·m]."""
    try:
        return wrench_setting(
            torque_nm, adapter.wrench_length.si, adapter.extension.si, adapter.angle_deg
        )
    except OutOfRange as fault:
        most = units.convert(units.Quantity(fault.high, "mm"), adapter.extension.unit)
        raise TorquebookError(
            f"an adapter of {units.write(adapter.extension)}, turned by {adapter.angle_deg:g} "
            f"degrees, reaches back to the hand or past it; take one that is shorter than "
            f"{units.write(most)}"
        ) from fault


def _on(wrench: Wrench, setting: units.Quantity) -> WrenchSetting:
    position = (setting.si - wrench.low_nm) / (wrench.high_nm - wrench.low_nm)
    return WrenchSetting(wrench, units.convert(setting, wrench.unit), position)
