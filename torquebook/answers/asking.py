"""Read what a person answers about his bench: a scale, a step, a deviation, a date."""

from __future__ import annotations

import re
from typing import Final

from torquebook import units
from torquebook.catalogue.bench import UNITS
from torquebook.errors import NotUnderstood

_SCALE: Final = re.compile(r"\s*([0-9.,]+)\s*(?:-|–|to)\s*([0-9.,]+)\s*(\S.*?)\s*", re.ASCII)
_DATE: Final = re.compile(r"[12][0-9]{3}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])", re.ASCII)
_WORST: Final = 0.5
#: Inch sizes: common practice. What they are called in mm (ISO 1174-1): from memory.
_DRIVES: Final = {"1/4": "6.3", "3/8": "10", "1/2": "12.5", "3/4": "20", "1": "25", "1 1/2": "40"}
_NO_DRIVE: Final = "not stated"


def scale(text: str) -> tuple[float, float, str]:
    """Return the ends of a wrench's scale and its unit: ``20-100 N.m``.

    Raises
    ------
    NotUnderstood
        If it is no range, its unit is none of a wrench, or it ends where it begins.
    """
    found = _SCALE.fullmatch(text)
    if not found:
        raise NotUnderstood(text, "a scale has two ends and a unit", ("20-100 N.m",))
    low, high, unit = found.groups()
    ends = [units.read(f"{end} {unit}", "torque") for end in (low, high)]
    if ends[0].unit not in UNITS:
        readings = tuple(f"{low}-{high} {each}" for each in UNITS)
        raise NotUnderstood(text, "no wrench shows that unit", readings)
    if ends[0].value >= ends[1].value:
        raise NotUnderstood(text, "a scale goes up", (f"{high}-{low} {unit}",))
    return ends[0].value, ends[1].value, ends[0].unit


def number(text: str) -> float:
    """Return a number above 0, with a point or a comma.

    Raises
    ------
    NotUnderstood
        If it is none.
    """
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = 0.0
    if not 0 < value < float("inf"):
        raise NotUnderstood(text, "a number above 0 belongs here", ("1",))
    return value


def whole(text: str) -> int:
    """Return a whole number from 0 up.

    Raises
    ------
    NotUnderstood
        If it is none.
    """
    if not re.fullmatch(r"[0-9]{1,7}", text.strip(), re.ASCII):
        raise NotUnderstood(text, "a whole number belongs here", ("0",))
    return int(text)


def deviation(text: str) -> float:
    """Return a deviation as a share: ``4 %`` or ``0.04``.

    Raises
    ------
    NotUnderstood
        If it is none, or more than half.
    """
    value = number(text.replace("%", "").strip()) / (100 if "%" in text else 1)
    if value > _WORST:
        raise NotUnderstood(text, "no wrench is off by half", (f"{value:g} %",))
    return value


def drive(text: str) -> str:
    """Return a square drive as wrench records have it: ``1/2 in``, from ``12.5 mm`` too.

    Raises
    ------
    NotUnderstood
        If it is no size of one.
    """
    said = " ".join(text.split()).replace(",", ".")
    if said == _NO_DRIVE:
        return said
    for inch, mm in _DRIVES.items():
        if re.fullmatch(rf'{inch} ?(?:in|inch|")?|{re.escape(mm)} ?mm', said):
            return f"{inch} in"
    sizes = tuple(f"{inch} in" for inch in _DRIVES)
    raise NotUnderstood(text, "no size of a square drive", (*sizes, _NO_DRIVE))


def day(text: str) -> str:
    """Return a date as it is kept: ``2026-05-31``; empty where it is not known.

    Raises
    ------
    NotUnderstood
        If it is written in another way, which might mean another day.
    """
    if text and not _DATE.fullmatch(text.strip()):
        raise NotUnderstood(text, "a date is written year-month-day", ("2026-05-31",))
    return text.strip()


def unit(text: str) -> str:
    """Return a unit of torque by its plain name, empty for none.

    Raises
    ------
    NotUnderstood
        If it is none.
    """
    return units.unit_named(text, "torque") if text.strip() else ""


def length_mm(text: str) -> float:
    """Return a length in mm, given with its unit.

    Raises
    ------
    NotUnderstood
        If it cannot be read.
    """
    return units.read(text, "length").si


def named(text: str) -> str:
    """Return a name as records have it.

    Raises
    ------
    NotUnderstood
        If it holds characters that no name has.
    """
    name = " ".join(text.split())
    if not name.isprintable() or set("|;") & set(name):
        raise NotUnderstood(text, "no name", ("click 20-100",))
    return name
