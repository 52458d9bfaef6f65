"""Measurements that cannot be right: they are asked back and never decide."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.defaults import BEARING_OVER_D
from torquebook.mechanics.preload import torque_from_preload
from torquebook.units import Quantity, write

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.shelves import Thread
    from torquebook.reuse.model import Measured, Used

#: A calliper is read to about this [mm] (common practice).
READING_MM: Final = 0.05
#: No bolt comes out that much longer: its uniform strain is used up before (inference).
MOST_GROWTH: Final = 0.05
#: What is that much shorter than a maker's limit is another bolt, or another length (inference).
LEAST_OF_LIMIT: Final = 0.9
#: A thread that is thinner than this share of its nominal diameter was read wrongly (inference).
LEAST_OF_NOMINAL: Final = 0.5
#: Friction and stress that stand for a tightened joint: 0.12, the proof stress of class 8.8 from
#: 16 mm down (ISO 898-1). No drag reaches the torque for them.
TIGHT_MU: Final = 0.12
TIGHT_MPA: Final = 580.0

_SLACK: Final = 1e-9


def sound(used: Used) -> tuple[Measured, tuple[str, ...]]:
    """Return what was measured without what cannot be right, and what to ask back.

    Parameters
    ----------
    used : Used
    """
    measured, doubts = used.measured, []
    for check in (_limit, _length, _stretched, _diameters, _drag, _uses):
        for field, doubt in check(measured, used.thread):
            nothing: dict[str, Any] = {field: None}
            measured = replace(measured, **nothing)
            doubts.append(doubt)
    return measured, tuple(doubts)


def millimetres(value: float) -> str:
    """Return a length with its unit."""
    return write(Quantity(round(value, 4), "mm"))


def _limit(measured: Measured, _thread: Thread | None) -> Iterator[tuple[str, str]]:
    new, limit = measured.new_length_mm, measured.limit_length_mm
    if new is not None and limit is not None and limit <= new:
        told = f"the limit {millimetres(limit)} is not above the new length {millimetres(new)}"
        yield "limit_length_mm", f"{told}; look both up again"


def _length(measured: Measured, _thread: Thread | None) -> Iterator[tuple[str, str]]:
    length, new, limit = measured.length_mm, measured.new_length_mm, measured.limit_length_mm
    if length is None:
        return
    again = "measure it again, and the new one beside it"
    if new is not None:
        if length < new - READING_MM - _SLACK:
            told = f"{millimetres(length)} is shorter than {millimetres(new)} new"
            yield "length_mm", f"{told}, and no bolt shrinks; {again}"
        elif length >= new * (1 + MOST_GROWTH) - _SLACK:
            share = 100 * (length / new - 1)
            told = f"from {millimetres(new)} to {millimetres(length)} it grew {share:.2g} %"
            told += ", which hardly any bolt bears (inference)"
            yield "length_mm", f"{told}; {again}, and renew it if it stays so"
    elif limit is not None and not LEAST_OF_LIMIT < length / limit < 1 + MOST_GROWTH:
        told = f"{millimetres(length)} is far from the limit {millimetres(limit)}"
        yield "length_mm", f"{told}: another bolt, or another length; measure it again"


def _stretched(measured: Measured, _thread: Thread | None) -> Iterator[tuple[str, str]]:
    stretched = measured.stretched_mm
    whole = measured.new_length_mm or measured.length_mm
    if stretched is not None and whole is not None and stretched > whole + READING_MM:
        told = f"{millimetres(stretched)} that stretch are more than the whole {millimetres(whole)}"
        yield "stretched_mm", f"{told}; look it up again"


def _diameters(measured: Measured, thread: Thread | None) -> Iterator[tuple[str, str]]:
    if measured.diameters_mm is None or thread is None:
        return
    for diameter in measured.diameters_mm:
        told = f"a diameter of {millimetres(diameter)} on {thread.size}"
        if diameter > thread.d_mm + READING_MM + _SLACK:
            yield "diameters_mm", f"{told}, {millimetres(thread.d_mm)} nominal; measure it again"
            return
        if diameter < LEAST_OF_NOMINAL * thread.d_mm:
            yield "diameters_mm", f"{told} is less than half; measure it again"
            return


def _drag(measured: Measured, thread: Thread | None) -> Iterator[tuple[str, str]]:
    drag = measured.drag_nm
    if drag is None:
        return
    again = "measure it again, unseated, with two pitches through the nut"
    if drag <= 0:
        yield "drag_nm", f"a drag of 0: what runs on by fingers is scrap; else {again}"
    elif thread is not None and drag >= (most := _tight_nm(thread)):
        told = f"a drag of {write(Quantity(drag, 'N.m'))} is in the region where {thread.size} "
        yield (
            "drag_nm",
            f"{told}is tight, from about {write(Quantity(round(most), 'N.m'))}; {again}",
        )


def _tight_nm(thread: Thread) -> float:
    """Return the torque that loads a bolt of class 8.8 to its proof stress [N·m]."""
    force_n = TIGHT_MPA * thread.stress_area_mm2
    face_mm = BEARING_OVER_D * thread.d_mm
    return torque_from_preload(force_n, thread.pitch_mm, thread.d2_mm, TIGHT_MU, TIGHT_MU, face_mm)


def _uses(measured: Measured, _thread: Thread | None) -> Iterator[tuple[str, str]]:
    if measured.uses == 0:
        yield "uses", "0 uses: what comes out was tightened at least once; count the marks again"
