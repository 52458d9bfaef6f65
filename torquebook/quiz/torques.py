"""Families about torque and preload: torque for a share, share of a torque, what oil does."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.mechanics.preload import preload_from_nut_factor, torque_from_nut_factor
from torquebook.mechanics.strength import utilisation
from torquebook.quiz.answering import (
    LBF_FT,
    asked,
    decimals_of,
    figure,
    given,
    in_unit,
    sheet_value,
    to_nm,
    unit_slip,
)
from torquebook.quiz.levels import ANGLES_FROM as FRICTION_FROM
from torquebook.quiz.model import Question
from torquebook.quiz.stock import (
    next_size,
    nm_per_kn,
    other_class,
    preload_per_nm,
    proof_n,
    proved,
    same_class,
    seated,
)

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import StrengthClass
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.stock import Size

_SHARES: Final = (50, 60, 65, 70, 75, 80, 85, 90)
_MUS: Final = (0.10, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16)
_KS: Final = (0.14, 0.15, 0.16, 0.17, 0.18, 0.19, 0.20, 0.21, 0.22)
_DROPS: Final = (0.02, 0.03, 0.04, 0.05, 0.06)
_KN: Final = 1000.0
K_SOURCE: Final = "Mechanical Fastening, Joining and Assembly, p. 85"
VDI_SOURCE: Final = "VDI 2230-1:2003, tightening torque"
K_SAID: Final = "M = K · d · F, with the nut factor K."
VDI_SAID: Final = "M = F (0.159 P + 0.577 d2 µ + D_Km/2 · µ), hexagon head in a medium hole."


def torque_for_share(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the torque that gives a share of the proof load."""
    size = draw.pick(seated(book, level))
    strength = draw.pick(proved(book, level, size.thread))
    share = draw.pick(_SHARES)
    by_factor = level < FRICTION_FROM
    rub = draw.pick(_KS if by_factor else _MUS)
    load_n = proof_n(size, strength)
    right_nm = _torque_nm(size, load_n * share / 100, rub, by_factor=by_factor)
    near = next_size(book, level, size)
    near_n = proof_n(near, same_class(book, level, near, strength))
    slips = [
        (in_unit(_torque_nm(size, load_n, rub, by_factor=by_factor), unit), "the whole proof load"),
        (in_unit(_torque_nm(near, near_n * share / 100, rub, by_factor=by_factor), unit),
         f"the row of {near.name}"),
        unit_slip(right_nm, unit),
        *_other_class(book, level, size, strength, in_unit(right_nm, unit)),
        (in_unit(right_nm, unit) * 10, "a decimal slip"),
    ]  # fmt: skip
    value = in_unit(right_nm, unit)
    answer, tail = asked(draw, value, unit, slips)
    name = "nut factor K" if by_factor else "coefficient of friction µ in thread and under the head"
    load_kn = figure(load_n / _KN, "kN")
    return Question(
        "torque-for-share", level, "Work out the torque that gives a preload.",
        f"A bolt {size.name} of class {strength.name} is to be tightened to {share} % of its proof "
        f"load. The {name} is {rub:.2f}. What torque gives that?{tail}",
        (f"Proof load: {load_kn}.", *_facts(size, by_factor=by_factor)), answer,
        (f"Preload: {share} % of {load_kn} = {figure(load_n * share / 100 / _KN, 'kN')}",
         f"Torque: {figure(right_nm, 'N.m')}" + _also(right_nm, unit)),
        (*_sources(size, by_factor=by_factor), strength.source),
    )  # fmt: skip


def _torque_nm(size: Size, preload_n: float, rub: float, *, by_factor: bool) -> float:
    if by_factor:
        return torque_from_nut_factor(preload_n, size.thread.d_mm, rub)
    return nm_per_kn(size, rub) * preload_n / _KN


def _facts(size: Size, *, by_factor: bool) -> tuple[str, ...]:
    if by_factor:
        return (K_SAID,)
    seat = f"P = {given(size.thread.pitch_mm, 'mm')}, d2 = {size.d2_mm:.3f} mm, "
    return (VDI_SAID, f"{seat}D_Km = {size.bearing_mm:.2f} mm.")


def _sources(size: Size, *, by_factor: bool) -> tuple[str, ...]:
    """Return what a torque rests on: with a nut factor the head does not matter."""
    return (K_SOURCE, *size.sources[:1]) if by_factor else (VDI_SOURCE, *size.sources)


def _also(torque_nm: float, unit: str) -> str:
    return "" if unit == "N.m" else f" = {figure(in_unit(torque_nm, unit), unit)}"


def _other_class(
    book: Book, level: int, size: Size, strength: StrengthClass, value: float
) -> list[tuple[float, str]]:
    """Return what a torque would be in the row of the class beside."""
    other = other_class(book, level, size.thread, strength)
    if other is None:
        return []
    return [(value * other.proof_mpa / strength.proof_mpa, f"the row of class {other.name}")]


def share_of_torque(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask how much of its proof load a torque takes from a bolt."""
    size = draw.pick(seated(book, level))
    strength = draw.pick(proved(book, level, size.thread))
    by_factor = level < FRICTION_FROM
    rub = draw.pick(_KS if by_factor else _MUS)
    load_n = proof_n(size, strength)
    aim = draw.pick(_SHARES) / 100
    torque = sheet_value(_torque_nm(size, load_n * aim, rub, by_factor=by_factor), unit)
    torque_nm = to_nm(torque, unit)
    if by_factor:
        preload_n = preload_from_nut_factor(torque_nm, size.thread.d_mm, rub)
    else:
        preload_n = torque_nm * preload_per_nm(size, rub)
    share = 100 * utilisation(preload_n, load_n)
    near = next_size(book, level, size)
    near_n = proof_n(near, same_class(book, level, near, strength))
    slips = [
        (share * to_nm(1.0, LBF_FT), "the torque taken for lbf·ft")
        if unit == "N.m" else (share / to_nm(1.0, unit), "the torque taken for N·m"),
        (100 * load_n / preload_n, "the ratio turned round"),
        *_shares_of_other(book, level, size, strength, share),
        (share * load_n / near_n, f"the proof load of {near.name}"),
        (share / 10, "a decimal slip"),
    ]  # fmt: skip
    answer, tail = asked(draw, share, "%", slips, 0.04)
    name = "nut factor K" if by_factor else "coefficient of friction µ in thread and under the head"
    return Question(
        "share-of-torque", level, "See how near to its proof load a torque takes a bolt.",
        f"A bolt {size.name} of class {strength.name} is tightened to {given(torque, unit)}. The "
        f"{name} is {rub:.2f}. What share of its proof load is its preload?{tail}",
        (f"Proof load: {figure(load_n / _KN, 'kN')}.", *_facts(size, by_factor=by_factor)), answer,
        (f"Preload: {figure(preload_n / _KN, 'kN')}",
         f"Share: {figure(preload_n / _KN, 'kN')} / {figure(load_n / _KN, 'kN')} = {share:.0f} %"),
        (*_sources(size, by_factor=by_factor), strength.source),
    )  # fmt: skip


def _shares_of_other(
    book: Book, level: int, size: Size, strength: StrengthClass, share: float
) -> list[tuple[float, str]]:
    other = other_class(book, level, size.thread, strength)
    if other is None:
        return []
    return [(share * strength.proof_mpa / other.proof_mpa, f"the proof load of class {other.name}")]


def oil(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what a lubricant does to the preload at the same torque."""
    size = draw.pick(seated(book, level))
    strength = draw.pick(proved(book, level, size.thread))
    by_factor = level < FRICTION_FROM
    drop = draw.pick(_DROPS)
    before = draw.pick(_KS[3:] if by_factor else _MUS[3:])
    after = round(before - drop, 2)
    torque = sheet_value(
        _torque_nm(size, 0.6 * proof_n(size, strength), before, by_factor=by_factor), unit
    )
    if by_factor:
        first, second = (preload_from_nut_factor(1.0, size.thread.d_mm, k) for k in (before, after))
    else:
        first, second = preload_per_nm(size, before), preload_per_nm(size, after)
    more = 100 * (second / first - 1)
    slips = [
        (0.0, "the torque is the same, but more of it becomes preload"),
        (100 * drop, "the difference taken for the share"),
        (100 * drop / before, "the share of the friction that is gone, not what preload gains"),
        (100 * second / first, "the whole new preload, not what it gains"),
    ]
    answer, tail = asked(draw, more, "%", slips, 0.06)
    name = "nut factor K" if by_factor else "friction µ of thread and head"
    same = "Torque as before, read off the wrench; nothing else changes."
    return Question(
        "oil-preload", level, "See what oil on a thread does to the preload.",
        f"A bolt {size.name} is tightened to {given(torque, unit)}. Then a like one is oiled, so "
        f"that its {name} falls from {before:.2f} to {after:.2f}, and tightened to the same "
        f"torque. By how many per cent is its preload higher?{tail}",
        (same, *_facts(size, by_factor=by_factor)), answer,
        (f"Preload goes as 1 / K: {before:.2f} / {after:.2f}" if by_factor else
         f"1 kN takes {_per_kn(size, before)} before and {_per_kn(size, after)} after",
         f"{second / first:.2f} times as much: {more:.{decimals_of(more)}f} % more"),
        _sources(size, by_factor=by_factor),
    )  # fmt: skip


def _per_kn(size: Size, mu: float) -> str:
    return figure(nm_per_kn(size, mu), "N.m")


FAMILY: Final = (
    ("torque-for-share", torque_for_share),
    ("share-of-torque", share_of_torque),
    ("oil-preload", oil),
)
