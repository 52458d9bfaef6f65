"""What each level of training may meet: threads, strength classes and units.

Level 1 knows coarse metric threads M6 to M12 and class 8.8 and no angle; level 2 adds fine
threads up to M16, class 10.9 and angles; level 3 all that the book has from M5 to M24 and from
1/4 to 1 inch. What is only read off a head or a table may be any metric size and class that a
workshop meets.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.errors import NotUnderstood, TorquebookError
from torquebook.quiz.model import LEVELS
from torquebook.unitnames import USUAL, unit_named

if TYPE_CHECKING:
    from torquebook.catalogue.shelves import Thread

FULL: Final = 3
ANGLES_FROM: Final = 2
COUNTRIES: Final = USUAL["torque"]
"""Units of torque that a country's sheets may be in."""
CLASSES: Final = {
    1: ("8.8",),
    2: ("8.8", "10.9"),
    3: (
        "4.6", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9", "A2-70", "A4-80",
        "SAE 2", "SAE 5", "SAE 8",
    ),
}  # fmt: skip
#: What levels 1 and 2 read and do not compute with.
_READ: Final = ("5.8", "6.8", "8.8", "10.9", "12.9")
_READ_MM: Final = (5.0, 24.0)
_UNITS: Final = {
    1: ("N.m", "lbf.ft"),
    2: ("N.m", "lbf.ft", "kgf.m"),
    3: ("N.m", "lbf.ft", "lbf.in", "kgf.m", "kgf.cm"),
}
_DIAMETERS: Final = {1: (6, 8, 10, 12), 2: (6, 8, 10, 12, 14, 16)}
_FULL_MM: Final = (5.0, 25.4)


def checked(level: int, unit: str) -> str:
    """Return a country's unit by its plain name.

    Raises
    ------
    TorquebookError
        If there is no such level, or sheets are not made in that unit.
    """
    if level not in LEVELS:
        raise TorquebookError(f"level {level}: there are {', '.join(map(str, LEVELS))}")
    name = unit_named(unit, "torque")
    if name not in COUNTRIES:
        raise NotUnderstood(unit, "no unit that sheets of questions are made in", COUNTRIES)
    return name


def units_of(level: int, unit: str) -> tuple[str, ...]:
    """Return the units of torque that may be met: the level's, and the country's own."""
    known = _UNITS[level]
    return known if unit in known else (*known, unit)


def classes_of(level: int, *, read: bool = False) -> tuple[str, ...]:
    """Return the strength classes that a level computes with, or those that it reads."""
    return _READ if read and level < FULL else CLASSES[level]


def may_meet(level: int, thread: Thread, *, read: bool = False) -> bool:
    """Return whether a level computes with a thread, or reads it off a table."""
    if level == FULL:
        return _FULL_MM[0] <= thread.d_mm <= _FULL_MM[1]
    if thread.family != "metric" or (thread.series != "coarse" and level == 1):
        return False
    if read:
        return _READ_MM[0] <= thread.d_mm <= _READ_MM[1]
    return thread.d_mm in _DIAMETERS[level]


def length_unit(unit: str) -> str:
    """Return the unit of lengths that goes with a country's unit of torque."""
    return "in" if unit.startswith("lbf") else "mm"
