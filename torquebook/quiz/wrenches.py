"""Families about torque wrenches: adapters, deviation, which wrench, what a click proves."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from torquebook.answers.settings import FORMULA_SOURCE, on_wrenches
from torquebook.bands import Band
from torquebook.catalogue.defaults import DEVIATION, DEVIATION_SMALL, SMALL_NM, deviation_at
from torquebook.catalogue.shelves import Wrench
from torquebook.mechanics.adapter import torque_at_bolt, wrench_setting
from torquebook.mechanics.scatter import with_tool
from torquebook.quiz.answering import (
    asked,
    chosen,
    figure,
    given,
    in_unit,
    round_torques,
    to_nm,
)
from torquebook.quiz.levels import FULL, length_unit
from torquebook.quiz.model import AdapterWrench, Option, Question
from torquebook.units import FACTORS, Quantity

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw

_LEVERS: Final = {"mm": (250, 300, 350, 400, 450, 500), "in": (10, 12, 14, 16, 18, 20)}
_REACHES: Final = {"mm": (50, 60, 75, 100, 120), "in": (2, 3, 4, 5)}
_ANGLES: Final = {1: (0,), 2: (0, 0, 90), 3: (0, 30, 45, 60, 90, 120, 135)}
_STANDS: Final = {0: "straight on", 90: "square to the wrench"}
_SQUARE: Final = 90
DEVIATION_SOURCE: Final = "ISO 6789:2003, type II, class A"
CHECK_SOURCE: Final = "US Army TB 43-0218, and NAVEDTRA 14014; what a click proves: common practice"
RANGE_SOURCE: Final = "ISO 6789:2003, checked at 20, 60 and 100 % of the range"
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
    straight = wrench_setting(wanted, lever, reach)
    slips = [
        (torque_at_bolt(wanted, lever, reach, angle), "the formula turned round"),
        (wanted, "the adapter forgotten"),
        (straight, "corrected as if it stood straight on"),
        (wanted * lever / reach, "divided by the adapter alone"),
        (wanted * reach / (lever + reach), "the lengths mixed up"),
        (value * 10, "a decimal slip"),
    ]
    answer, tail = asked(draw, value, unit, slips, 0.02)
    step = f"{given(wanted, unit)} · L / (L + E · cos {angle}°) = {figure(value, unit)}"
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
        (setting * (1 + reach / (lever + reach)), "the reach put over the whole length"),
        (value * 10, "a decimal slip"),
    ]
    answer, tail = asked(draw, value, unit, slips, 0.02)
    return Question(
        "adapter-arrives", level, "See what an adapter that was forgotten does to a bolt.",
        f"{_place(lever, reach, angle, length)} It was set to {given(setting, unit)} and clicked. "
        f"How much arrived at the bolt?{tail}",
        (_LEVER_SAID,), answer,
        (f"{given(setting, unit)} · (L + E · cos {angle}°) / L = {figure(value, unit)}",),
        (FORMULA_SOURCE,), drawing=_drawn(lever, reach, angle, length),
    )  # fmt: skip


@lru_cache(maxsize=8)
def _holds(unit: str) -> str:
    """Return how well a wrench holds its setting, as the standard says."""
    also = "" if unit == "N.m" else f" ({figure(in_unit(SMALL_NM, unit), unit)})"
    most, small = f"±{100 * DEVIATION:.0f} %", f"±{100 * DEVIATION_SMALL:.0f} %"
    return f"The wrench is within {most} above {SMALL_NM:g} N·m{also}, and within {small} up to it."


@lru_cache(maxsize=512)
def _delivered(setting: float, unit: str) -> tuple[float, float, float]:
    """Return the least and the most that a wrench delivers, in its unit, and its deviation."""
    nm = to_nm(setting, unit)
    band = with_tool(Band.exact(nm), deviation_at(nm))
    return in_unit(band.low, unit), in_unit(band.high, unit), deviation_at(nm)


def deviation(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask how far what a wrench delivers may lie from its setting."""
    setting = draw.pick(round_torques(unit, 6, 300))
    low, high, share = _delivered(setting, unit)
    value, other = (low, high) if draw.below(2) else (high, low)
    way = "least" if value == low else "most"
    sign = -1 if value == low else 1
    wrong = DEVIATION_SMALL if share == DEVIATION else DEVIATION
    slips = [
        (setting, "the deviation forgotten"),
        (other, "the other end"),
        (setting + sign * 100 * share, "the per cent taken for units of torque"),
        (setting * (1 + sign * 10 * share), "a decimal slip"),
        (setting * (1 + sign * wrong), "the other row of the standard"),
    ]
    answer, tail = asked(draw, value, unit, slips, 0.004)
    word = "less" if sign < 0 else "more"
    return Question(
        "wrench-deviation", level, "Know how well a torque wrench holds its setting.",
        f"A click wrench in good order is set to {given(setting, unit)}. What is the {way} that it "
        f"may deliver?{tail}",
        (_holds(unit),), answer,
        (f"{given(setting, unit)} is {_side(setting, unit)} 10 N·m: {100 * share:.0f} %",
         f"{given(setting, unit)} {word} {100 * share:.0f} % = {figure(value, unit)}"),
        (DEVIATION_SOURCE,),
    )  # fmt: skip


def _side(setting: float, unit: str) -> str:
    return "above" if to_nm(setting, unit) > SMALL_NM else "not above"


def click_proves(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what a click on a tight bolt proves."""
    setting = draw.pick(round_torques(unit, 15, 300))
    low, high, share = _delivered(setting, unit)
    shown, least, most = given(setting, unit), figure(low, unit), figure(high, unit)
    wrong = [
        Option(f"that it was tightened to {shown}", "a click says nothing of how tight it was"),
        Option(f"that it was tightened to at most {most}", "it may be far tighter and still click"),
        Option("that its preload is right", "a rusty thread clicks as well, without any preload"),
        Option(f"that it turns at {shown}", "it did not turn"),
    ]
    right = f"only that turning it on takes at least {least}"
    return Question(
        "click-proves", level, "Know what a click on a tight bolt proves, and what not.",
        f"A wrench is set to {shown} and put on a bolt that is tight already. It clicks at once, "
        "and the bolt does not move. What does that prove?",
        (_holds(unit), "The bolt was not marked before, and nobody saw it tightened."),
        chosen(draw, right, draw.mixed(wrong)[:3]),
        (f"The wrench may give {100 * share:.0f} % less than {shown}: {least}.",
         "More may be there. To check, mark it, back it off and tighten it to the mark."),
        (DEVIATION_SOURCE, CHECK_SOURCE),
    )  # fmt: skip


_MARKS: Final = ((100, 50), (20, 5), (5, 1), (1, 0.5), (0, 0.1))
_RANGES_NM: Final = ((2, 10), (5, 25), (10, 50), (20, 100), (40, 200), (60, 300))


@lru_cache(maxsize=16)
def _wrenches(unit: str) -> tuple[Wrench, ...]:
    """Return the wrenches that a question names, in round numbers of a unit."""
    found = []
    for low_nm, high_nm in _RANGES_NM:
        low, high = (_round(in_unit(end, unit)) for end in (low_nm, high_nm))
        ends = to_nm(low, unit), to_nm(high, unit)
        name = f"{low:g} to {given(high, unit)}"
        found.append(Wrench(name, (), *ends, unit, DEVIATION, "", "given in the question"))
    return tuple(found)


def _round(value: float) -> float:
    step = next(step for above, step in _MARKS if value >= above)
    return round(round(value / step) * step, 2)


@lru_cache(maxsize=16)
def _stages(unit: str) -> tuple[tuple[float, float, int], ...]:
    """Return pairs of stages that exactly one of the wrenches can be set to, and which."""
    every, found = _wrenches(unit), []
    covers = {
        value: [one.wrench.name for one in on_wrenches(every, Quantity(value, unit)) if one.covers]
        for value in round_torques(unit, 6, 250)
    }
    names = [wrench.name for wrench in every]
    for first, fits in covers.items():
        for last, others in covers.items():
            both = set(fits) & set(others)
            if first < last and len(both) == 1:
                found.append((first, last, names.index(both.pop())))
    return tuple(found)


def which_wrench(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the one wrench that every stage can be set on."""
    every = _wrenches(unit)
    first, last, right = draw.pick(_stages(unit))
    others = [at for at in range(len(every)) if at != right]
    others.sort(key=lambda at: (abs(at - right), at))
    wrong = [Option(every[at].name, _why(every[at], first, last, unit)) for at in others[:3]]
    if level == FULL:
        wrong.append(Option("none of these", "one of them holds both stages"))
    shown = f"{given(first, unit)}, then {given(last, unit)}"
    return Question(
        "which-wrench", level, "Look at every stage when a wrench is chosen.",
        f"A joint is tightened in two stages, {shown}, with one wrench for both. Which of these "
        "ranges will do?",
        ("A wrench is used within its range only, ends included.",
         "The torques are set as they stand, without an adapter."),
        chosen(draw, every[right].name, wrong),
        (f"Both stages lie within {every[right].name}.",), (RANGE_SOURCE,),
    )  # fmt: skip


def _why(wrench: Wrench, first: float, last: float, unit: str) -> str:
    if to_nm(first, unit) < wrench.low_nm:
        return f"{given(first, unit)} lies below its lowest mark"
    return f"{given(last, unit)} lies above its highest mark"


FAMILY: Final = (
    ("adapter-set", adapter_set),
    ("adapter-arrives", adapter_arrives),
    ("wrench-deviation", deviation),
    ("click-proves", click_proves),
    ("which-wrench", which_wrench),
)
