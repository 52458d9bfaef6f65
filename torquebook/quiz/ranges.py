"""Families about a wrench's range: its deviation, what a click proves, which wrench will do."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.answers.settings import on_wrenches
from torquebook.bands import Band
from torquebook.catalogue.defaults import DEVIATION, DEVIATION_SMALL, SMALL_NM, deviation_at
from torquebook.catalogue.shelves import Wrench
from torquebook.mechanics.scatter import with_tool
from torquebook.quiz.answering import (
    EXACT,
    among,
    asked,
    chosen,
    figure,
    given,
    in_unit,
    round_torques,
    to_nm,
)
from torquebook.quiz.levels import FULL
from torquebook.quiz.model import Option, Question
from torquebook.units import Quantity

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw

DEVIATION_SOURCE: Final = "ISO 6789:2003, type II, class A"
CHECK_SOURCE: Final = "US Army TB 43-0218, and NAVEDTRA 14014: mark, back off, tighten to the mark"
RANGE_SOURCE: Final = "ISO 6789:2003, checked at 20, 60 and 100 % of the range"
_NONE: Final = -1
_NO_RANGE: Final = "none of these"
_FAR: Final = 12.0  # from the first stage to the last
_MARKS: Final = ((100, 50), (20, 5), (5, 1), (1, 0.5), (0, 0.1))
_RANGES_NM: Final = ((1, 5), (2, 10), (5, 25), (10, 50), (20, 100), (40, 200), (60, 300))
_BARELY: Final = 1.05  # a range that ends so near to the standard's limit is a trap


@lru_cache(maxsize=16)
def _wrenches(unit: str) -> tuple[Wrench, ...]:
    """Return the wrenches that a question names, in round numbers of a unit."""
    found = []
    for low_nm, high_nm in _RANGES_NM:
        low, high = (_round(in_unit(end, unit)) for end in (low_nm, high_nm))
        ends = to_nm(low, unit), to_nm(high, unit)
        name = f"{low:g} to {given(high, unit)}"
        found.append(
            Wrench(name, (), *ends, unit, deviation_at(ends[1]), "", "given in the question")
        )
    return tuple(found)


def _round(value: float) -> float:
    step = next(step for above, step in _MARKS if value >= above)
    return round(round(value / step) * step, 2)


@lru_cache(maxsize=8)
def _holds(unit: str) -> str:
    """Return how well a wrench holds its setting, as the standard says."""
    also = "" if unit == "N.m" else f" ({figure(in_unit(SMALL_NM, unit), unit)})"
    most, small = f"±{100 * DEVIATION:.0f} %", f"±{100 * DEVIATION_SMALL:.0f} %"
    return (
        f"A wrench whose range ends above {SMALL_NM:g} N·m{also} is within {most} of what is set, "
        f"one that ends there or below within {small}."
    )


@lru_cache(maxsize=64)
def _settings(unit: str, least_nm: float) -> tuple[tuple[Wrench, float], ...]:
    """Return wrenches with the round torques of a range that each can be set to."""
    return tuple(
        (wrench, value)
        for wrench in _wrenches(unit)
        for value in round_torques(unit, max(least_nm, wrench.low_nm), wrench.high_nm)
        if not SMALL_NM < wrench.high_nm < _BARELY * SMALL_NM
    )


def _ends(setting: float, share: float) -> tuple[float, float]:
    """Return the least and the most that a wrench delivers at a setting."""
    band = with_tool(Band.exact(setting), share)
    return band.low, band.high


def deviation(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask how far what a wrench delivers may lie from its setting."""
    wrench, setting = draw.pick(_settings(unit, 1.0))
    share = wrench.deviation
    low, high = _ends(setting, share)
    sign = 1 - 2 * draw.below(2)
    value, other = (low, high) if sign < 0 else (high, low)
    wrong = DEVIATION_SMALL if share == DEVIATION else DEVIATION
    slips = [
        (setting, "the deviation forgotten"),
        (other, "the other end"),
        (setting + sign * 100 * share, "the per cent taken for units of torque"),
        (setting * (1 + sign * 10 * share), "a decimal slip"),
        (setting * (1 + sign * wrong), "the other row of the standard"),
        (setting * (1 + sign * share / 2), "half of it on each side"),
        (setting * (1 + sign * 2 * share), "the deviation taken twice"),
    ]
    answer, tail, shown = asked(draw, value, unit, slips, EXACT)
    way, word = ("least", "less") if sign < 0 else ("most", "more")
    return Question(
        "wrench-deviation", level, "Know how well a torque wrench holds its setting.",
        f"A click wrench for {wrench.name}, in good order, is set to {given(setting, unit)}. What "
        f"is the {way} that it may deliver?{tail}",
        (_holds(unit),), answer,
        (f"Its range ends {_side(wrench)} {SMALL_NM:g} N·m: {100 * share:.0f} %",
         f"{given(setting, unit)} {word} {100 * share:.0f} % = {shown}"),
        (DEVIATION_SOURCE,),
    )  # fmt: skip


def _side(wrench: Wrench) -> str:
    return "above" if wrench.high_nm > SMALL_NM else "not above"


_START: Final = "to turn it on takes"
_HELD: Final = "it was tightened to"
_LESS: Final = "the wrench may have given less"
_MORE: Final = "the wrench may have given more"
_OTHER: Final = "rust, dirt and oil change what it takes to turn a bolt on"
_SEEN: Final = "The wrench was taken off at the click."
_FOUND: Final = "The bolt was not marked before, and nobody saw it tightened."


class _Click(NamedTuple):
    """What happened, what it rests on, what it proves, and what it does not, with the mistake.

    Claims are pairs: of what, and which of ``_limits``.
    """

    told: str
    given: str
    right: tuple[str, int]
    wrong: tuple[tuple[str, int, str], ...]
    step: str


_CLICKS: Final = (
    _Click(
        "put on a bolt that is tight already. It clicks before the bolt has moved", _FOUND,
        (_START, 0),
        ((_START, 1, "it did not move"), (_START, 2, _LESS), (_HELD, 0, _OTHER),
         (_HELD, 1, "a click says nothing of how tight it was"), (_HELD, 2, _OTHER)),
        "The bolt bore what the wrench gave, which is {0} at least.",
    ),
    _Click(
        "put on a bolt that is tight already. It clicks after the bolt has moved on a little",
        _FOUND, (_START, 1),
        ((_START, 0, "it moved before the click"), (_START, 3, _MORE), (_HELD, 1, _OTHER),
         (_HELD, 0, "a click says nothing of how tight it was"), (_HELD, 3, _OTHER)),
        "The bolt gave way to what the wrench gave, which is {1} at most.",
    ),
    _Click(
        "put on a loose bolt, and turns it smoothly until it clicks", _SEEN, (_HELD, 0),
        ((_HELD, 2, _LESS), (_HELD, 3, "it has got that at least"), (_START, 0, _OTHER),
         (_START, 1, _OTHER), (_START, 2, _OTHER)),
        "The bolt got what the wrench gave, which is {0} at least.",
    ),
    _Click(
        "put on a loose bolt, and turns it smoothly until it clicks", _SEEN, (_HELD, 1),
        ((_HELD, 2, _LESS), (_HELD, 3, _MORE), (_START, 0, _OTHER),
         (_START, 1, _OTHER), (_START, 3, _OTHER)),
        "The bolt got what the wrench gave, which is {1} at most.",
    ),
)  # fmt: skip


def click_proves(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what a click proves, of a bolt that stood, that moved, and that was tightened."""
    wrench, setting = draw.pick(_settings(unit, 15.0))
    ends = tuple(figure(end, unit) for end in _ends(setting, wrench.deviation))
    least, most = ends
    limits = f"{least} or more", f"{most} or less", f"{most} or more", f"{least} or less"
    click = draw.pick(_CLICKS)
    wrong = [Option(f"{what} {limits[at]}", why) for what, at, why in draw.mixed(click.wrong)[:3]]
    what, at = click.right
    shown = given(setting, unit)
    found = click.given == _FOUND
    check = "How tight it was is not known: to check, mark it, back it off, tighten it to the mark."
    return Question(
        "click-proves", level, "Know what a click on a bolt proves, and what not.",
        f"A wrench for {wrench.name} is set to {shown} and {click.told}. What does that prove?",
        (_holds(unit), click.given),
        chosen(draw, f"{what} {limits[at]}", wrong),
        (f"{shown} give or take {100 * wrench.deviation:.0f} %: {least} to {most}.",
         click.step.format(*ends), *((check,) if found else ())),
        (DEVIATION_SOURCE, CHECK_SOURCE)[: 1 + found],
    )  # fmt: skip


@lru_cache(maxsize=16)
def _stages(unit: str) -> tuple[tuple[float, float, int], ...]:
    """Return pairs of stages that one of the wrenches at most can be set to, and which; else -1."""
    every, found = _wrenches(unit), []
    covers = {
        value: [one.wrench.name for one in on_wrenches(every, Quantity(value, unit)) if one.covers]
        for value in round_torques(unit, 6, 250)
    }
    names = [wrench.name for wrench in every]
    for first, fits in covers.items():
        for last, others in covers.items():
            both = set(fits) & set(others)
            if first < last and len(both) <= 1:
                found.append((first, last, names.index(both.pop()) if both else _NONE))
    return tuple(found)


@lru_cache(maxsize=16)
def _fitting(unit: str, *, fits: bool) -> tuple[tuple[float, float, int], ...]:
    """Return the stages that a wrench fits, or those that are a little too far apart for any."""
    every = _stages(unit)
    if fits:
        return tuple(one for one in every if one[2] != _NONE)
    return tuple(one for one in every if one[2] == _NONE and one[1] < _FAR * one[0])


def which_wrench(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the one wrench that every stage can be set on."""
    every = _wrenches(unit)
    fits = level < FULL or bool(draw.below(4))
    first, last, right = draw.pick(_fitting(unit, fits=fits))
    near = right if fits else _nearest(every, to_nm(last, unit))
    others = [(float(at), wrench.name) for at, wrench in enumerate(every) if at != right]
    beside = sorted(others, key=lambda one: abs(one[0] - near))[: 5 if fits else 3 + draw.below(2)]
    shown_at = [int(at) for at, _ in (among(draw, right, beside) if fits else beside)]
    wrong = [Option(every[at].name, _why(every[at], first, last, unit)) for at in shown_at]
    if fits and level == FULL:
        wrong.append(Option(_NO_RANGE, f"{every[right].name} holds both stages"))
    shown = f"{given(first, unit)}, then {given(last, unit)}"
    step = f"Both stages lie within {every[right].name}." if fits else (
        "No range holds both: take two wrenches."
    )  # fmt: skip
    return Question(
        "which-wrench", level, "Look at every stage when a wrench is chosen.",
        f"A joint is tightened in two stages, {shown}, with one wrench for both. Which of these "
        "ranges will do?",
        ("A wrench is used within its range only, ends included.",
         "The torques are set as they stand, without an adapter."),
        chosen(draw, every[right].name if fits else _NO_RANGE, wrong),
        (step,), (RANGE_SOURCE,),
    )  # fmt: skip


def _nearest(every: tuple[Wrench, ...], torque_nm: float) -> int:
    return min(range(len(every)), key=lambda at: abs(every[at].high_nm - torque_nm))


def _why(wrench: Wrench, first: float, last: float, unit: str) -> str:
    if to_nm(first, unit) < wrench.low_nm:
        return f"{given(first, unit)} lies below its lowest mark"
    return f"{given(last, unit)} lies above its highest mark"


FAMILY: Final = (
    ("wrench-deviation", deviation),
    ("click-proves", click_proves),
    ("which-wrench", which_wrench),
)
