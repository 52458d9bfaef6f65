"""Family `finishing-torque`: what the wrench shows at the end of an angle."""

from __future__ import annotations

from functools import lru_cache
from math import pi, sqrt
from typing import TYPE_CHECKING, Final

from torquebook.mechanics.plastic import Strength, uniform_strain
from torquebook.mechanics.turning import advance_mm
from torquebook.mechanics.yielding import Grip, ScrewThread, tighten
from torquebook.quiz.answering import asked, figure, given, in_unit, sheet_value, to_nm
from torquebook.quiz.model import Question
from torquebook.quiz.stock import Unfounded, nm_per_kn, proof_n, proved, seated

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import StrengthClass
    from torquebook.mechanics.yielding import Tightened
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.stock import Size

_ANGLES: Final = (30, 45, 60, 75, 90, 120)
_SNUG: Final = 0.15  # of the proof load
_AIMS: Final = (0.5, 0.6, 0.7)  # of the proof load, at the end
_ELASTIC: Final = 0.95
_MUS: Final = (0.10, 0.12, 0.14)
_KN: Final = 1000.0
_FLAT: Final = 60  # degrees
SOURCE: Final = (
    "VDI 2230-1:2003, torque and resilience; angle and way by the definition of the pitch"
)


@lru_cache(maxsize=64)
def _bolts(book: Book, level: int) -> tuple[tuple[Size, StrengthClass], ...]:
    """Return what can be asked of: a size, and a class whose elongation is listed."""
    found = tuple(
        (size, strength)
        for size in seated(book, level)
        for strength in proved(book, level, size.thread)
        if strength.elongation_pct
    )
    if not found:
        raise Unfounded("no class of this level has an elongation that bears a key in this book")
    return found


@lru_cache(maxsize=8192)
def _end(
    size: Size, strength: StrengthClass, snug_nm: float, angle: int, mu: float, give: float
) -> Tightened:
    """Return the state at the end of an angle; bolt and parts give so many µm for a kN."""
    thread = size.thread
    d0_mm = 2 * sqrt(size.area_mm2 / pi)
    screw = ScrewThread(thread.pitch_mm, size.d2_mm, d0_mm, size.bearing_mm or 0.0)
    stretch = uniform_strain((strength.elongation_pct or 0.0) / 100)
    holds = Strength(proof_n(size, strength), strength.yield_mpa, strength.tensile_mpa, stretch)
    grip = Grip(give * 1e-6, 0.0, thread.d_mm)
    return tighten(snug_nm, float(angle), mu, mu, screw, grip, holds)


def finishing_torque(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what the wrench shows at the end of an angle."""
    size, strength = draw.pick(_bolts(book, level))
    mu, angle, aim = draw.pick(_MUS), draw.pick(_ANGLES), draw.pick(_AIMS)
    load_n, per_kn = proof_n(size, strength), nm_per_kn(size, mu)
    snug = sheet_value(_SNUG * load_n / _KN * per_kn, unit)
    way_um = 1000 * advance_mm(angle, size.thread.pitch_mm)
    give = float(f"{way_um / ((aim - _SNUG) * load_n / _KN):.2g}")
    end = _end(size, strength, to_nm(snug, unit), angle, mu, give)
    if end.yield_share > _ELASTIC:
        raise Unfounded(f"{size.name} {strength.name} does not stay elastic in this book")
    value, rise = in_unit(end.torque_nm, unit), in_unit(end.torque_nm, unit) - snug
    slips = [
        (rise, "the snug torque left out"),
        (snug, "an angle adds no torque, it seems"),
        (snug + angle, "the degrees added to the torque"),
        (snug + rise / 2, "half of the way taken"),
        (value + snug, "the snug torque added twice"),
        (snug + rise * 360 / angle, "the pitch of a whole turn"),
    ]
    if angle <= _FLAT:
        slips.append((snug + 6 * rise, "a flat and a whole turn mixed up"))
    found = asked(draw, value, unit, slips, 0.04)
    gain = way_um / give
    shown = figure(in_unit(per_kn, unit), unit)
    return Question(
        "finishing-torque", level, "Know what a wrench will show at the end of an angle.",
        f"A bolt {size.name} of class {strength.name} is tightened to {given(snug, unit)} and then "
        f"turned by {angle}°. What torque would a wrench show at the end?{found.tail}",
        (f"Bolt and parts together give {give:g} µm for each kN of preload.",
         f"Each kN of preload takes {shown} (friction {mu:.2f} in thread and under the head).",
         f"Pitch {given(size.thread.pitch_mm, 'mm')}; the bolt stays below yield."),
        found.answer,
        (f"Way: {given(size.thread.pitch_mm, 'mm')} · {angle}° / 360° = {way_um:.0f} µm",
         f"Gain of preload: {way_um:.0f} µm / {give:g} µm/kN = {figure(gain, 'kN')}",
         f"{given(snug, unit)} + {figure(gain, 'kN')} · {shown}/kN = {found.shown}"),
        (SOURCE, strength.source, *size.sources),
    )  # fmt: skip


FAMILY: Final = (("finishing-torque", finishing_torque),)
