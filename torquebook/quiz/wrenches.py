"""Families about torque wrenches with an adapter: what to set, and what arrives."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.answers.settings import FORMULA_SOURCE
from torquebook.mechanics.adapter import torque_at_bolt, wrench_setting
from torquebook.quiz.answering import asked, given, round_torques
from torquebook.quiz.levels import length_unit
from torquebook.quiz.model import AdapterWrench, Question
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw

_LEVERS: Final = {"mm": (250, 300, 350, 400, 450, 500), "in": (10, 12, 14, 16, 18, 20)}
_REACHES: Final = {"mm": (50, 60, 75, 100, 120), "in": (2, 3, 4, 5)}
_ANGLES: Final = {1: (0,), 2: (0, 0, 90), 3: (0, 30, 45, 60, 90, 120, 135)}
_STANDS: Final = {0: "straight on", 90: "square to the wrench"}
_SQUARE: Final = 90
_LEVER_SAID: Final = (
    "L is measured from the middle of the grip, E to the middle of the bolt, both from the square "
    "drive of the wrench; the angle is 0° where the adapter lengthens the wrench."
)


def _levers(draw: Draw, level: int, unit: str) -> tuple[int, int, int, str]:
    """Return lever, reach, angle and the unit of both lengths."""
    length = length_unit(unit)
    return (
        draw.pick(_LEVERS[length]),
        draw.pick(_REACHES[length]),
        draw.pick(_ANGLES[level]),
        length,
    )


def _drawn(lever: int, reach: int, angle: int, length: str) -> AdapterWrench:
    size = FACTORS[length][1]
    return AdapterWrench(
        lever * size, reach * size, float(angle), f"{lever} {length}", f"{reach} {length}"
    )


def _place(lever: int, reach: int, angle: int, length: str) -> str:
    how = _STANDS.get(angle, f"at {angle}° to it")
    return (
        f"The wrench has a lever L of {lever} {length}; an adapter with E of {reach} {length} "
        f"stands {how}."
    )


def adapter_set(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what to set for a torque behind an adapter."""
    lever, reach, angle, length = _levers(draw, level, unit)
    wanted = draw.pick(round_torques(unit, 15, 250))
    value = wrench_setting(wanted, lever, reach, angle)
    slips = [
        (torque_at_bolt(wanted, lever, reach, angle), "the formula turned round"),
        (wanted, "the adapter forgotten"),
        (wrench_setting(wanted, lever, reach), "corrected as if it stood straight on"),
        (wrench_setting(wanted, lever, reach, 180), "corrected as if it pointed back"),
        (wrench_setting(wanted, lever, 2 * reach, angle), "the adapter counted twice"),
        (wanted * lever / reach, "divided by the adapter alone"),
        (wanted * reach / (lever + reach), "the lengths mixed up"),
    ]
    answer, tail, shown = asked(draw, value, unit, slips, 0.02)
    step = f"{given(wanted, unit)} · L / (L + {_along(angle)}) = {shown}"
    return Question(
        "adapter-set", level, "Set a wrench right when an adapter makes it longer.",
        f"{_place(lever, reach, angle, length)} The bolt is to get {given(wanted, unit)}. What is "
        f"to be set on the wrench?{tail}",
        (_LEVER_SAID,), answer,
        (step, "Square to the wrench it adds no lever: nothing is corrected.")
        if angle == _SQUARE else (step,),
        (FORMULA_SOURCE,), drawing=_drawn(lever, reach, angle, length),
    )  # fmt: skip


def adapter_arrives(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what arrives at the bolt behind an adapter that nobody allowed for."""
    lever, reach, angle, length = _levers(draw, level, unit)
    setting = draw.pick(round_torques(unit, 15, 250))
    value = torque_at_bolt(setting, lever, reach, angle)
    slips = [
        (wrench_setting(setting, lever, reach, angle), "the formula turned round"),
        (setting, "the adapter forgotten"),
        (torque_at_bolt(setting, lever, reach), "taken as if it stood straight on"),
        (torque_at_bolt(setting, lever, reach, 180), "taken as if it pointed back"),
        (torque_at_bolt(setting, lever, 2 * reach, angle), "the adapter counted twice"),
        (setting * (1 + reach / (lever + reach)), "the reach put over the whole length"),
        (setting * lever / (lever + 2 * reach), "the lengths mixed up"),
    ]
    answer, tail, shown = asked(draw, value, unit, slips, 0.02)
    return Question(
        "adapter-arrives", level, "See what an adapter that was forgotten does to a bolt.",
        f"{_place(lever, reach, angle, length)} It was set to {given(setting, unit)} and clicked. "
        f"How much arrived at the bolt?{tail}",
        (_LEVER_SAID,), answer,
        (f"{given(setting, unit)} · (L + {_along(angle)}) / L = {shown}",),
        (FORMULA_SOURCE,), drawing=_drawn(lever, reach, angle, length),
    )  # fmt: skip


def _along(angle: int) -> str:
    """Return what an adapter adds to the lever, as a solution writes it."""
    return f"E · cos {angle}°" if angle else "E"


FAMILY: Final = (("adapter-set", adapter_set), ("adapter-arrives", adapter_arrives))
