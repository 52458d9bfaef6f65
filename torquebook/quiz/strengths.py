"""Families about strength: the mark on a head, the stress area, the proof load."""

from __future__ import annotations

from functools import lru_cache
from math import pi
from typing import TYPE_CHECKING, Final

from torquebook.mechanics.strength import proof_load, tensile_load, yield_load
from torquebook.quiz.answering import EXACT, asked, figure, given
from torquebook.quiz.model import HeadMark, Question
from torquebook.quiz.stock import (
    classes,
    classes_beside,
    proof_n,
    proved,
    sizes,
    sizes_beside,
)

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import StrengthClass
    from torquebook.quiz.answering import Wrong
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.stock import Size

_TIGHT: Final = 0.01
_KN: Final = 1000.0
_STEEL: Final = "Every strength is the least that the standard allows, at room temperature."


#: Classes that are drawn on a socket head too; weaker ones have a hexagon: common practice.
_SOCKETS: Final = ("8.8", "10.9", "12.9", "A2-70", "A4-80")
STRESS_AREA: Final = {
    "metric": "ISO 898-1, nominal stress area",
    "inch": "ASME B1.1, tensile stress area",
}


@lru_cache(maxsize=16)
def _marked(book: Book, level: int) -> tuple[Size, ...]:
    """Return the metric sizes: inch bolts carry strokes on their heads, not their class."""
    return tuple(one for one in sizes(book, level, read=True) if one.thread.family == "metric")


def head_mark(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what the mark on a bolt's head promises."""
    size = draw.pick(_marked(book, level))
    strength = draw.pick(classes(book, level, size.thread, read=True))
    breaks, asks_load = bool(draw.below(2)), bool(draw.below(2))
    value, slips = _stresses(book, level, size, strength, breaks=breaks)
    step = f"{strength.name} for {size.name}: at least {value:.0f} MPa"
    drawn = draw.pick(("hexagon", "socket") if strength.name in _SOCKETS else ("hexagon",))
    if asks_load:
        shown, area = f"{value:.0f} MPa", figure(size.area_mm2, "mm2")
        load = tensile_load if breaks else yield_load
        wrong = [(load(size.area_mm2, one) / _KN, why) for one, why in slips]
        wrong += [(load(area_mm2, value) / _KN, why) for area_mm2, why in _areas(book, level, size)]
        found = asked(draw, load(size.area_mm2, value) / _KN, "kN", wrong, _TIGHT)
        text = f"At which load may this bolt {'break' if breaks else 'yield'} at the earliest?"
        steps: tuple[str, ...] = (f"{step}.", f"{area} · {shown} = {found.shown}")
    else:
        found = asked(draw, value, "MPa", slips, EXACT)
        wanted = "tensile strength" if breaks else "yield strength"
        text, steps = f"What is the least {wanted} of this bolt's steel?", (f"{step}.",)
    return Question(
        "head-mark", level, "Read from its head what a bolt bears.",
        f"The head of a bolt {size.name} carries the mark in the drawing. {text}{found.tail}",
        (_STEEL, _rows(book, level, size, strength), *((_area_said(size),) if asks_load else ())),
        found.answer, steps, (strength.source, *size.sources[:1]),
        drawing=HeadMark(strength.name, drawn),
    )  # fmt: skip


def _stresses(
    book: Book, level: int, size: Size, strength: StrengthClass, *, breaks: bool
) -> tuple[float, list[Wrong]]:
    """Return the tensile or the yield strength of a class, and what is taken for it [MPa]."""
    tensile, least, proof_mpa = strength.tensile_mpa, strength.yield_mpa, strength.proof_mpa
    beside = classes_beside(book, level, size.thread, strength, read=True)
    if breaks:
        return tensile, [
            (least, "the yield strength"), (proof_mpa, "the stress under proof load"),
            (tensile**2 / least, "divided by the second number of the mark"),
            *((one.tensile_mpa, f"the row of class {one.name}") for one in beside),
        ]  # fmt: skip
    return least, [
        (tensile, "the tensile strength"), (proof_mpa, "the stress under proof load"),
        (least**2 / tensile, "the second number of the mark counted twice"),
        *((one.yield_mpa, f"the row of class {one.name}") for one in beside),
    ]  # fmt: skip


def _areas(book: Book, level: int, size: Size) -> list[Wrong]:
    """Return the areas that are taken for a stress area, with the mistake [mm2]."""
    root = size.shank_mm2 * (size.d3_mm / size.thread.d_mm) ** 2
    return [
        (size.shank_mm2, "the area of the nominal diameter"),
        (root, "the area of the root alone"),
        *(
            (one.area_mm2, f"the row of {one.name}")
            for one in sizes_beside(book, level, size, read=True)
        ),
    ]


@lru_cache(maxsize=1024)
def _rows(book: Book, level: int, size: Size, strength: StrengthClass) -> str:
    """Return a class's line of the table with those beside it: a mark rounds most of them."""
    beside = classes_beside(book, level, size.thread, strength, read=True)
    rows = sorted((strength, *beside), key=lambda one: one.tensile_mpa)
    said = "; ".join(f"{one.name}: {one.tensile_mpa:.0f} and {one.yield_mpa:.0f}" for one in rows)
    return f"Tensile and yield strength in MPa by the standard: {said}."


def _area_said(size: Size) -> str:
    return f"Stress area of the thread: {figure(size.area_mm2, 'mm2')}."


def stress_area(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the area that a thread bears with."""
    size = draw.pick(sizes(book, level, read=True))
    slips = [
        *_areas(book, level, size),
        (pi / 4 * size.d2_mm**2, "the area of the pitch diameter"),
        (4 * size.area_mm2, "the diameter taken for the radius"),
        (size.area_mm2 / 4, "the diameter halved twice"),
    ]
    found = asked(draw, size.area_mm2, "mm2", slips, 0.02)
    d, pitch = size.thread.d_mm, size.thread.pitch_mm
    if size.thread.family == "inch":
        rule = "Stress area by ASME B1.1: π/4 · (d − 0.9743 P)²."
        steps: tuple[str, ...] = (f"d − 0.9743 P = {d - 0.9743 * pitch:.3f} mm",)
    else:
        rule = (
            "Stress area by ISO 898-1: π/4 · ((d2 + d3)/2)², d2 = d − 0.6495 P, d3 = d − 1.2269 P."
        )
        steps = (f"d2 = {size.d2_mm:.3f} mm, d3 = {size.d3_mm:.3f} mm",)
    return Question(
        "stress-area", level, "Know which part of a thread bears the load.",
        f"A thread {size.name} has a nominal diameter d of {given(d, 'mm')} and a pitch P of "
        f"{given(round(pitch, 4), 'mm')}. What is its stress area?{found.tail}",
        (rule,), found.answer,
        (*steps, f"A = {found.shown}"), (STRESS_AREA[size.thread.family], *size.sources[:1]),
    )  # fmt: skip


def proof(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the load that a bolt bears without staying longer."""
    size = draw.pick(sizes(book, level, read=True))
    strength = draw.pick(proved(book, level, size.thread, read=True))
    stress_mpa = strength.proof_mpa
    slips = [
        (tensile_load(size.area_mm2, strength.tensile_mpa), "the tensile strength taken"),
        *((proof_n(size, one), f"the row of class {one.name}")
          for one in classes_beside(book, level, size.thread, strength, read=True)),
        *((proof_load(area_mm2, stress_mpa), why) for area_mm2, why in _areas(book, level, size)),
    ]  # fmt: skip
    wrong = [(load_n / _KN, why) for load_n, why in slips]
    found = asked(draw, proof_n(size, strength) / _KN, "kN", wrong, 0.02)
    area = figure(size.area_mm2, "mm2")
    return Question(
        "proof-load", level, "Know the load up to which a bolt comes back to its length.",
        f"What is the proof load of a bolt {size.name} of class {strength.name}?{found.tail}",
        (f"Stress area of {size.name}: {area}.",
         f"Stress under proof load of class {strength.name}: {stress_mpa:.0f} MPa."),
        found.answer,
        (f"{area} · {stress_mpa:.0f} MPa = {found.shown}",),
        (strength.source, *size.sources[:1]),
    )  # fmt: skip


FAMILY: Final = (("head-mark", head_mark), ("stress-area", stress_area), ("proof-load", proof))
