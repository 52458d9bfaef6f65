"""Families about units, angles and the shorthand of service sheets."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from torquebook import notation, units
from torquebook.mechanics.turning import (
    advance_mm,
    degrees_from_flats,
    degrees_from_turns,
    flats_from_degrees,
    turns_from_degrees,
)
from torquebook.notation import Angle, Torque
from torquebook.numerals import fraction_text
from torquebook.quiz.answering import (
    EXACT,
    Asked,
    asked,
    chosen,
    given,
    round_torques,
    unit_text,
)
from torquebook.quiz.levels import ANGLES_FROM, FULL, units_of
from torquebook.quiz.model import Option, Question
from torquebook.quiz.stock import sizes, sizes_beside
from torquebook.units import FACTORS, Quantity, with_unit

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.notation import Stage
    from torquebook.quiz.answering import Wrong
    from torquebook.quiz.draws import Draw

UNITS_SOURCE: Final = "NIST SP 811, 2008, appendix B"
ANGLE_SOURCE: Final = "definition of the turn and of the regular hexagon"
SHEET_SOURCE: Final = (
    "US Army TM 10-4320-315-24, table 3-4: a torque first, then the angles; shorthand of this book"
)
#: What a number becomes where one unit is taken for another of the same words.
_MIXED: Final = {
    "lbf.ft": ("lbf.in", "inches taken for feet"),
    "lbf.in": ("lbf.ft", "feet taken for inches"),
    "kgf.m": ("kgf.cm", "centimetres taken for metres"),
    "kgf.cm": ("kgf.m", "metres taken for centimetres"),
}
_TURNS: Final = (1 / 6, 1 / 4, 1 / 3, 1 / 2, 2 / 3, 3 / 4)
_DEGREES: Final = (30, 45, 60, 75, 90, 105, 120, 135, 150, 180, 210, 240, 270)
_FLATS: Final = (0.5, 1, 1.5, 2, 2.5, 3, 4)
_FACE_TO_CORNER: Final = 30.0
_DEPTH: Final = 0.613434  # h3 over the pitch: (d − d3) / 2, d3 = d − 1.226869 P


@lru_cache(maxsize=1024)
def _converted(value: float, unit: str, other: str) -> float:
    return units.convert(Quantity(value, unit), other).value


def convert(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for a torque in the other unit."""
    known = [name for name in units_of(level, unit) if name != unit]
    other = draw.pick(known)
    first, second = (unit, other) if draw.below(2) else (other, unit)
    torque = draw.pick(round_torques(first, 5, 300))
    value = _converted(torque, first, second)
    slips = [
        (torque, "the number kept, the unit changed"),
        (torque**2 / value, "divided instead of multiplied"),
        (value**2 / torque, "the factor used twice"),
        *_halves(torque, first, second),
    ]
    for name in (first, second):
        if name in _MIXED:
            meant, why = _MIXED[name]
            wrong = (
                _converted(torque, meant, second)
                if name == first
                else _converted(torque, first, meant)
            )
            slips.append((wrong, why))
    found = asked(draw, value, second, slips, 0.01)
    return Question(
        "convert", level, "Bring a torque into the unit of the wrench.",
        f"A sheet prints {given(torque, first)}. How much is that in "
        f"{unit_text(second)}?{found.tail}",
        ("1 lbf is 4.448222 N, 1 kgf is 9.80665 N, 1 ft is 0.3048 m, 1 in is 0.0254 m.",),
        found.answer,
        (f"1 {unit_text(first)} = {_converted(1.0, first, second):.6g} {unit_text(second)}",
         f"{given(torque, first)} = {found.shown}"),
        (UNITS_SOURCE,),
    )  # fmt: skip


def _halves(torque: float, first: str, second: str) -> list[Wrong]:
    """Return what comes out where only the force or only the length is converted."""
    force = FACTORS[first.partition(".")[0]][1] / FACTORS[second.partition(".")[0]][1]
    length = FACTORS[first][1] / FACTORS[second][1] / force
    return [
        (torque * force, "only the force converted"),
        (torque * length, "only the length converted"),
    ]


def angle_units(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for an angle in degrees, turns or flats."""
    way = draw.below(4)
    if way == 0:
        turns = draw.pick(_TURNS)
        shown, wanted, value = f"{fraction_text(turns)} turn", "deg", degrees_from_turns(turns)
        wrong = [
            (turns * 180, "half a circle taken for a turn"),
            (turns * 100, "a turn of 100 degrees"),
            (turns * 400, "a quarter turn taken for 100 degrees"),
            (turns * 720, "a turn taken for two circles"),
        ]
        step = f"{shown} · 360° = {value:.0f}°"
    elif way == 1:
        flats = draw.pick(_FLATS)
        shown, value = with_unit(f"{flats:g}", "flat", many=flats > 1), degrees_from_flats(flats)
        wrong = [
            (flats * _FACE_TO_CORNER, "face to corner, which is 30°, taken for a face"),
            (flats * 45, "an octagon in mind"),
            (flats * 90, "a square in mind"),
            (flats * 120, "two faces taken for one"),
        ]
        wanted, step = "deg", f"{shown} · 60° = {value:.0f}°"
    elif way == 2:  # noqa: PLR2004 - the third of four ways
        degrees = draw.pick(_DEGREES)
        shown, value = f"{degrees}°", flats_from_degrees(degrees)
        wrong = [
            (degrees / _FACE_TO_CORNER, "face to corner, which is 30°, taken for a face"),
            (degrees / 45, "an octagon in mind"),
            (degrees / 90, "a square in mind"),
            (turns_from_degrees(degrees), "turns counted"),
        ]
        wanted, step = "flat", f"{shown} / 60° = {value:g} flats"
    else:
        return _turns(draw, level)
    found = asked(draw, value, wanted, wrong, EXACT)
    name = {"deg": "degrees", "flat": "flats of the hexagon"}[wanted]
    return _angle(
        level, f"A sheet asks for {shown}. How many {name} are that?{found.tail}", found, step
    )


def _turns(draw: Draw, level: int) -> Question:
    """Return the question for an angle in parts of a turn."""
    turns = draw.pick(_TURNS)
    degrees = degrees_from_turns(turns)
    others = [one for one in _TURNS if one != turns]
    wrong = [
        Option(f"{fraction_text(one)} turn", f"that is {one * 360:.0f}°")
        for one in draw.mixed(others)[:3]
    ]
    answer = chosen(draw, f"{fraction_text(turns)} turn", wrong)
    text = f"A sheet asks for {degrees:.0f}°. Which part of a turn is that?"
    step = f"{degrees:.0f}° / 360° = {fraction_text(turns)}"
    return _angle(level, text, Asked(answer, "", ""), step)


def _angle(level: int, text: str, found: Asked, step: str) -> Question:
    return Question(
        "angle-units", level, "Turn an angle without a gauge, by flats and parts of a turn.", text,
        ("A turn has 360°, and a hexagon has six flats.",), found.answer, (step,), (ANGLE_SOURCE,),
    )  # fmt: skip


def advance(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask how far a bolt goes along its thread in an angle."""
    size = draw.pick(sizes(book, level))
    degrees = draw.pick(_DEGREES)
    pitch = size.thread.pitch_mm
    value = advance_mm(degrees, pitch)
    slips = [
        (pitch, "the pitch of a whole turn"),
        (advance_mm(degrees, size.thread.d_mm), "the diameter taken for the pitch"),
        (pitch * flats_from_degrees(degrees), "a pitch for each flat"),
        (value * _DEPTH, "the depth of the thread taken for the pitch"),
        (value / 2, "a turn of 720°"),
        *((advance_mm(degrees, near.thread.pitch_mm), f"the pitch of {near.name}")
          for near in sizes_beside(book, level, size)),
    ]  # fmt: skip
    found = asked(draw, value, "mm", slips, 0.04)
    shown = given(round(pitch, 4), "mm")
    return Question(
        "thread-advance", level, "See how little a bolt goes in when it is turned by an angle.",
        f"A bolt {size.name} is turned by {degrees}°. How far does it go along its thread?"
        f"{found.tail}",
        (f"The pitch of {size.name} is {shown}; the nut or the part stands still.",), found.answer,
        (f"{shown} · {degrees}° / 360° = {found.shown}",), size.sources[:1],
    )  # fmt: skip


@lru_cache(maxsize=2048)
def _sheet(stages: tuple[Stage, ...]) -> str:
    return notation.write(stages)


def read_stages(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what the shorthand of a sheet says."""
    values = round_torques(unit, 8, 120)
    at = draw.below(len(values) - 2)
    first, last = values[at], values[at + 1 + draw.below(2)]
    torques = Torque(unit, "exact", (first,)), Torque(unit, "exact", (last,))
    ways = 2 if level < ANGLES_FROM else 4
    way = draw.below(ways)
    if way == 0:
        return _last(draw, level, torques, unit)
    if way == 1:
        return _limit(draw, level, draw.pick(round_torques(unit, 20, 300)), unit)
    return _turned(draw, level, torques)


def _last(draw: Draw, level: int, torques: tuple[Torque, Torque], unit: str) -> Question:
    first, last = (stage.printed[0] for stage in torques)
    slips = [
        (first + last, "the stages added up; each is a torque of its own"),
        (first, "only the first stage"),
        (last - first, "the difference of the stages"),
        (2 * last - first, "the rise from stage to stage put on once more"),
    ]
    found = asked(draw, last, unit, slips, EXACT)
    text = f"A sheet prints: {_sheet(torques)}. What does the wrench show when the work is done?"
    return _read(
        level, text, found, f"The last stage is {given(last, unit)}; stages do not add up."
    )


def _limit(draw: Draw, level: int, nominal: float, unit: str) -> Question:
    give = round(nominal * draw.pick((0.05, 0.1, 0.15)), 2)
    stage = Torque(unit, "tolerance", (nominal, give, give))
    low, high = nominal - give, nominal + give
    value, other, word = (low, high, "least") if draw.below(2) else (high, low, "greatest")
    sign = -1 if word == "least" else 1
    slips = [
        (nominal, "the tolerance forgotten"),
        (other, "the other end"),
        (nominal * (1 + sign * give / 100), "the tolerance taken for per cent"),
        (nominal + sign * give / 2, "the tolerance halved"),
        (nominal + sign * 2 * give, "the tolerance taken twice"),
        (give, "only the tolerance") if sign < 0 else (2 * nominal, "both ends added up"),
    ]
    found = asked(draw, value, unit, slips, EXACT)
    text = f"A sheet prints: {_sheet((stage,))}. What is the {word} torque that it allows?"
    joined = f"{given(nominal, unit)} {'less' if sign < 0 else 'and'} {given(give, unit)}"
    step = f"{joined} = {found.shown}"
    return _read(level, text, found, step)


def _turned(draw: Draw, level: int, torques: tuple[Torque, Torque]) -> Question:
    angles = [float(draw.pick((30, 45, 60, 90, 120)))]
    stages: list[Stage] = [*torques, Angle("deg", "exact", (angles[0],))]
    if level == FULL:
        turns = draw.pick((1 / 6, 1 / 4, 1 / 3, 1 / 2))
        stages.append(Angle("turn", "exact", (turns,)))
    else:
        stages.append(Angle("deg", "exact", (float(draw.pick((30, 60, 90))),)))
    bands = [stage.band.nominal for stage in stages[2:]]  # type: ignore[union-attr]
    value, last = sum(bands), torques[1].printed[0]
    slips = [
        (bands[-1], "only the last angle"),
        (bands[0], "only the first angle"),
        (value + last, "the torque added to the angles"),
        (value + torques[0].printed[0] + last, "both torques added to the angles"),
        (abs(bands[0] - bands[1]), "the difference of the angles"),
    ]
    found = asked(draw, value, "deg", slips, EXACT)
    shown = _sheet(tuple(stages))
    text = f"A sheet prints: {shown}. By how much is a bolt turned after the last torque?"
    shown = " + ".join(f"{band:.0f}°" for band in bands)
    return _read(level, text, found, f"{shown} = {value:.0f}°; angles after one another add up.")


def _read(level: int, text: str, found: Asked, step: str) -> Question:
    return Question(
        "read-stages", level, "Read what a service sheet says of stages, tolerances and angles.",
        f"{text}{found.tail}",
        ("Stages are done in the printed order; each torque is set by itself.",),
        found.answer, (step,), (SHEET_SOURCE,),
    )  # fmt: skip


FAMILY: Final = (
    ("convert", convert),
    ("read-stages", read_stages),
    ("angle-units", angle_units),
    ("thread-advance", advance),
)
