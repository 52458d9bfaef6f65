"""Families about torque and preload: torque for a share, share of a torque, what oil does."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.mechanics.preload import preload_from_nut_factor, torque_from_nut_factor
from torquebook.mechanics.strength import utilisation
from torquebook.quiz.answering import (
    LBF_FT,
    asked,
    figure,
    given,
    in_unit,
    sheet_value,
    to_nm,
    unit_slip,
    unit_text,
)
from torquebook.quiz.levels import ANGLES_FROM as FRICTION_FROM
from torquebook.quiz.model import Question
from torquebook.quiz.stock import (
    classes_beside,
    nm_per_kn,
    preload_per_nm,
    proof_n,
    proved,
    same_class,
    seated,
    sizes_beside,
)

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import StrengthClass
    from torquebook.quiz.answering import Wrong
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.stock import Size

_SHARES: Final = (50, 60, 65, 70, 75, 80, 85, 90)
_MUS: Final = (0.10, 0.11, 0.12, 0.13, 0.14, 0.15, 0.16)
_KS: Final = (0.14, 0.15, 0.16, 0.17, 0.18, 0.19, 0.20, 0.21, 0.22)
_DROPS: Final = (0.02, 0.03, 0.04, 0.05, 0.06)
_KN: Final = 1000.0
_POINTS: Final = 0.02
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
    slips = [
        (right_nm * 100 / share, "the whole proof load"),
        (right_nm * share / 100, "the share taken twice"),
        (right_nm * 1e4 / share**2, "divided by the share instead of multiplied"),
        (right_nm / 2, "the radius taken for the diameter"),
        *_other_sizes(book, level, size, strength, rub, share, by_factor=by_factor),
        *((right_nm * one.proof_mpa / strength.proof_mpa, f"the row of class {one.name}")
          for one in classes_beside(book, level, size.thread, strength)),
    ]  # fmt: skip
    wrong = [unit_slip(right_nm, unit), *((in_unit(nm, unit), why) for nm, why in slips)]
    found = asked(draw, in_unit(right_nm, unit), unit, wrong)
    load_kn = figure(load_n / _KN, "kN")
    return Question(
        "torque-for-share", level, "Work out the torque that gives a preload.",
        f"A bolt {size.name} of class {strength.name} is to be tightened to {share} % of its proof "
        f"load. The {_rub_name(by_factor=by_factor)} is {rub:.2f}. What torque gives that?"
        f"{found.tail}",
        (f"Proof load: {load_kn}.", *_facts(size, unit, by_factor=by_factor)), found.answer,
        (f"Preload: {share} % of {load_kn} = {figure(load_n * share / 100 / _KN, 'kN')}",
         f"Torque: {found.shown}" if unit == "N.m" else
         f"Torque: {figure(right_nm, 'N.m')} = {found.shown}"),
        (*_sources(size, by_factor=by_factor), strength.source),
    )  # fmt: skip


def _rub_name(*, by_factor: bool) -> str:
    return "nut factor K" if by_factor else "coefficient of friction µ in thread and under the head"


def _other_sizes(
    book: Book,
    level: int,
    size: Size,
    strength: StrengthClass,
    rub: float,
    share: int,
    *,
    by_factor: bool,
) -> list[Wrong]:
    """Return the torques that the rows of the sizes beside give [N·m]."""
    found = []
    for near in sizes_beside(book, level, size):
        near_n = proof_n(near, same_class(book, level, near, strength))
        torque_nm = _torque_nm(near, near_n * share / 100, rub, by_factor=by_factor)
        found.append((torque_nm, f"the row of {near.name}"))
    return found


def _torque_nm(size: Size, preload_n: float, rub: float, *, by_factor: bool) -> float:
    if by_factor:
        return torque_from_nut_factor(preload_n, size.thread.d_mm, rub)
    return nm_per_kn(size, rub) * preload_n / _KN


def _facts(size: Size, unit: str, *, by_factor: bool) -> tuple[str, ...]:
    """Return the formula, and the factor to N·m where the torque is in another unit."""
    factor = () if unit == "N.m" else (f"1 {unit_text(unit)} is {to_nm(1.0, unit):.4g} N·m.",)
    if by_factor:
        return (K_SAID, *factor)
    seat = f"P = {given(size.thread.pitch_mm, 'mm')}, d2 = {size.d2_mm:.3f} mm, "
    return (VDI_SAID, f"{seat}D_Km = {size.bearing_mm:.2f} mm.", *factor)


def _sources(size: Size, *, by_factor: bool) -> tuple[str, ...]:
    """Return what a torque rests on: with a nut factor the head does not matter."""
    return (K_SOURCE, *size.sources[:1]) if by_factor else (VDI_SOURCE, *size.sources)


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
    preload_n = _preload_n(size, torque_nm, rub, by_factor=by_factor)
    share = 100 * utilisation(preload_n, load_n)
    slips = [
        (share * to_nm(1.0, LBF_FT), "the torque taken for lbf·ft")
        if unit == "N.m" else (share / to_nm(1.0, unit), "the torque taken for N·m"),
        (100 * load_n / preload_n, "the ratio turned round"),
        (share * strength.proof_mpa / strength.tensile_mpa, "the tensile strength taken"),
        *((share * strength.proof_mpa / one.proof_mpa, f"the proof load of class {one.name}")
          for one in classes_beside(book, level, size.thread, strength)),
        *((share * load_n / proof_n(one, same_class(book, level, one, strength)),
           f"the proof load of {one.name}") for one in sizes_beside(book, level, size)),
    ]  # fmt: skip
    found = asked(draw, share, "%", slips, _POINTS)
    shown = figure(preload_n / _KN, "kN")
    return Question(
        "share-of-torque", level, "See how near to its proof load a torque takes a bolt.",
        f"A bolt {size.name} of class {strength.name} is tightened to {given(torque, unit)}. The "
        f"{_rub_name(by_factor=by_factor)} is {rub:.2f}. What share of its proof load is its "
        f"preload?{found.tail}",
        (f"Proof load: {figure(load_n / _KN, 'kN')}.", *_facts(size, unit, by_factor=by_factor)),
        found.answer,
        (f"Preload: {shown}", f"Share: {shown} / {figure(load_n / _KN, 'kN')} = {found.shown}"),
        (*_sources(size, by_factor=by_factor), strength.source),
    )  # fmt: skip


def _preload_n(size: Size, torque_nm: float, rub: float, *, by_factor: bool) -> float:
    if by_factor:
        return preload_from_nut_factor(torque_nm, size.thread.d_mm, rub)
    return torque_nm * preload_per_nm(size, rub)


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
    first, second = (_preload_n(size, 1.0, rub, by_factor=by_factor) for rub in (before, after))
    times = second / first
    slips = [
        (0.0, "the torque is the same, but more of it becomes preload"),
        (100 * drop, "the difference taken for the share"),
        (100 * drop / before, "the share of the friction that is gone, not what preload gains"),
        (100 * times, "the whole new preload, not what it gains"),
        (100 * (times**2 - 1), "counted for the thread and once more for the head"),
        (100 / times, "what the old preload is of the new one"),
    ]
    found = asked(draw, 100 * (times - 1), "%", slips, 0.01)
    name = "nut factor K" if by_factor else "friction µ of thread and head"
    same = "Torque as before, read off the wrench; nothing else changes."
    return Question(
        "oil-preload", level, "See what oil on a thread does to the preload.",
        f"A bolt {size.name} is tightened to {given(torque, unit)}. Then a like one is oiled, so "
        f"that its {name} falls from {before:.2f} to {after:.2f}, and tightened to the same "
        f"torque. By how many per cent is its preload higher?{found.tail}",
        (same, *_facts(size, "N.m", by_factor=by_factor)), found.answer,
        (f"Preload goes as 1 / K: {before:.2f} / {after:.2f} = {times:.3f}" if by_factor else
         f"1 kN takes {_per_kn(size, before, unit)} before and {_per_kn(size, after, unit)} after",
         f"{times:.3f} times as much: {found.shown} more"),
        _sources(size, by_factor=by_factor),
    )  # fmt: skip


def _per_kn(size: Size, mu: float, unit: str) -> str:
    return figure(in_unit(nm_per_kn(size, mu), unit), unit)


FAMILY: Final = (
    ("torque-for-share", torque_for_share),
    ("share-of-torque", share_of_torque),
    ("oil-preload", oil),
)
