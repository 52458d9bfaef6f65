"""Writing: stages as the canonical shorthand, which reads back as the same stages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.notation.stages import Angle, Form, Slacken, Stage, Torque
from torquebook.numerals import fraction_text, sheet_text
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Iterable


def write(stages: Iterable[Stage], *, plain: bool = False) -> str:
    """Return stages as a service sheet prints them.

    Parameters
    ----------
    stages : iterable of Stage
    plain : bool
        Whether to keep to ASCII.

    Examples
    --------
    >>> write([Torque("N.m", "exact", (30.0,)), Angle("turn", "exact", (0.25,))], plain=True)
    '30 N.m, +1/4 turn'
    """
    return ", ".join(_stage(stage, plain=plain) for stage in stages)


def _stage(stage: Stage, *, plain: bool) -> str:
    """Return one stage."""
    if isinstance(stage, Torque):
        shown = _value(stage.form, stage.printed, stage.unit, plain=plain)
        if stage.beside is None:
            return shown
        numbers, unit = stage.beside
        form = stage.form if len(numbers) > 1 else "exact"
        return f"{shown} ({_value(form, numbers, unit, plain=plain)})"
    if isinstance(stage, Angle):
        return "+" + _value(stage.form, stage.printed, stage.unit, plain=plain)
    if isinstance(stage, Slacken):
        back = (
            ""
            if stage.by_deg is None
            else " " + _value("exact", (stage.by_deg,), "deg", plain=plain)
        )
        return f"slacken{back}"
    return f"wait {sheet_text(stage.minutes)} min"


def _value(form: Form, printed: tuple[float, ...], unit: str, *, plain: bool) -> str:
    """Return numbers in their form, with their unit."""
    first, *rest = [sheet_text(number) for number in printed]
    many = printed[0] > 1
    if unit == "turn" and form in {"exact", "range"}:
        shown = " to ".join(map(fraction_text, printed))
        many = printed[-1] > 1
    elif form == "range":
        shown = f"{first}{'-' if plain else '–'}{rest[0]}"
        many = printed[1] > 1
    elif form == "tolerance" and printed[1] == printed[2]:
        shown = f"{first} {'+/-' if plain else '±'}{rest[0]}"
    elif form == "tolerance":
        shown = f"{first} +{rest[1]}/{'-' if plain else '−'}{rest[0]}"
    else:
        shown = {"minimum": "min ", "maximum": "max "}.get(form, "") + first
    return with_unit(shown, unit, plain=plain, many=many)
