"""Families about strength: the mark on a head, the stress area, the proof load."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from torquebook.mechanics.strength import proof_load, tensile_load, yield_load
from torquebook.quiz.answering import asked, figure, given
from torquebook.quiz.model import HeadMark, Question
from torquebook.quiz.stock import (
    classes,
    next_size,
    other_class,
    proof_n,
    proved,
    same_class,
    sizes,
)

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import StrengthClass
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.stock import Size

_TIGHT: Final = 0.01
_KN: Final = 1000.0
_STEEL: Final = "Every strength is the least that the standard allows, at room temperature."


@lru_cache(maxsize=16)
def _marked(book: Book, level: int) -> tuple[Size, ...]:
    """Return the metric sizes: inch bolts carry strokes on their heads, not their class."""
    return tuple(size for size in sizes(book, level) if size.thread.family == "metric")


def head_mark(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what the mark on a bolt's head promises."""
    size = draw.pick(_marked(book, level))
    strength = draw.pick(classes(book, level, size.thread))
    other = other_class(book, level, size.thread, strength)
    asks_load = draw.below(2)
    tensile, least, proof = strength.tensile_mpa, strength.yield_mpa, strength.proof_mpa
    wanted, value, slips = ("tensile strength", tensile, [(least, "the yield strength")])
    if draw.below(2):
        wanted, value, slips = ("yield strength", least, [(tensile, "the tensile strength")])
    slips.append((proof, "the stress under proof load"))
    if other:
        row = other.tensile_mpa if value == tensile else other.yield_mpa
        slips.append((row, f"the row of class {other.name}"))
    slips.append((value / 10, "a digit lost"))
    steps: tuple[str, ...] = (f"{strength.name} for {size.name}: at least {value:.0f} MPa.",)
    text = f"What is the least {wanted} of this bolt's steel?"
    unit_asked = "MPa"
    if asks_load:
        wanted = "break" if value == tensile else "yield"
        load = tensile_load if value == tensile else yield_load
        text = f"At which load may this bolt {wanted} at the earliest?"
        slips = [(load(size.area_mm2, wrong) / _KN, why) for wrong, why in slips]
        slips.append((load(size.shank_mm2, value) / _KN, "the area of the nominal diameter"))
        shown = f"{value:.0f} MPa"
        value = load(size.area_mm2, value) / _KN
        area = figure(size.area_mm2, "mm2")
        steps += (f"{area} · {shown} = {figure(value, 'kN')}.",)
        unit_asked = "kN"
    answer, tail = asked(draw, value, unit_asked, slips, _TIGHT)
    return Question(
        "head-mark", level, "Read from its head what a bolt bears.",
        f"The head of a bolt {size.name} carries the mark in the drawing. {text}{tail}",
        (_STEEL, _area_said(size)) if asks_load else (_STEEL,),
        answer, steps, (strength.source, *size.sources[:1]),
        drawing=HeadMark(strength.name, draw.pick(("hexagon", "socket"))),
    )  # fmt: skip


def _area_said(size: Size) -> str:
    return f"Stress area of the thread: {figure(size.area_mm2, 'mm2')}."


def stress_area(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the area that a thread bears with."""
    size = draw.pick(sizes(book, level))
    near = next_size(book, level, size)
    core = size.shank_mm2 * (size.d3_mm / size.thread.d_mm) ** 2
    slips = [
        (size.shank_mm2, "the area of the nominal diameter"),
        (core, "the area of the root alone"),
        (near.area_mm2, f"the row of {near.name}"),
        (4 * size.area_mm2, "the diameter taken for the radius"),
    ]
    answer, tail = asked(draw, size.area_mm2, "mm2", slips, 0.02)
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
        f"{given(round(pitch, 4), 'mm')}. What is its stress area?{tail}",
        (rule,), answer,
        (*steps, f"A = {figure(size.area_mm2, 'mm2')}"), size.sources[:1],
    )  # fmt: skip


def proof(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the load that a bolt bears without staying longer."""
    size = draw.pick(sizes(book, level))
    strength = draw.pick(proved(book, level, size.thread))
    load = proof_n(size, strength) / _KN
    near = next_size(book, level, size)
    slips = [
        (tensile_load(size.area_mm2, strength.tensile_mpa) / _KN, "the tensile strength taken"),
        *_class_slip(book, level, size, strength),
        (proof_load(size.shank_mm2, strength.proof_mpa) / _KN, "the nominal diameter's area"),
        (proof_n(near, same_class(book, level, near, strength)) / _KN, f"the row of {near.name}"),
        (load / 10, "a digit lost"),
    ]
    answer, tail = asked(draw, load, "kN", slips, 0.02)
    stress = f"Stress under proof load of class {strength.name}: {strength.proof_mpa:.0f} MPa."
    area = figure(size.area_mm2, "mm2")
    return Question(
        "proof-load", level, "Know the load up to which a bolt comes back to its length.",
        f"What is the proof load of a bolt {size.name} of class {strength.name}?{tail}",
        (f"Stress area of {size.name}: {area}.", stress), answer,
        (f"{area} · {strength.proof_mpa:.0f} MPa = {figure(load, 'kN')}",),
        (strength.source, *size.sources[:1]),
    )  # fmt: skip


def _class_slip(
    book: Book, level: int, size: Size, strength: StrengthClass
) -> list[tuple[float, str]]:
    """Return the proof load that the row of the class beside gives [kN]."""
    other = other_class(book, level, size.thread, strength)
    return [(proof_n(size, other) / _KN, f"the row of class {other.name}")] if other else []


FAMILY: Final = (("head-mark", head_mark), ("stress-area", stress_area), ("proof-load", proof))
