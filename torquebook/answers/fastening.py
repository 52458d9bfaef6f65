"""A fastener as the bench commands take it: what was said, and what stands in for the rest."""

from __future__ import annotations

from math import pi, sqrt
from typing import TYPE_CHECKING, NamedTuple

from torquebook.catalogue.defaults import (
    BEARING_OVER_D,
    DEVIATION,
    DEVIATION_SMALL,
    SMALL_NM,
    bearing_mm,
    deviation_at,
    friction_of,
)
from torquebook.mechanics.preload import torque_from_preload
from torquebook.mechanics.strength import proof_load

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Friction, HeadSize, StrengthClass, Thread


class Fastening(NamedTuple):
    """A fastener, its friction, and how it is turned.

    Parameters
    ----------
    thread : Thread
    strength : StrengthClass
    friction : Friction
    head : HeadSize or None
        None where no table lists the head for this thread.
    bearing_mm : float
        Effective diameter for friction under the head [mm].
    deviation : float or None
        Of the wrench that was named; without one it goes by the torque.
    assumed : tuple of str
        What the figures rest on that was not said.
    """

    thread: Thread
    strength: StrengthClass
    friction: Friction
    head: HeadSize | None
    bearing_mm: float
    deviation: float | None
    assumed: tuple[str, ...]

    @property
    def proof_n(self) -> float:
        """Proof load [N]."""
        return proof_load(self.thread.stress_area_mm2, self.strength.proof_mpa)

    @property
    def d0_mm(self) -> float:
        """Diameter of the stress cross-section [mm]."""
        return 2 * sqrt(self.thread.stress_area_mm2 / pi)

    def torque_nm(self, preload_n: float, mu_thread: float, mu_head: float) -> float:
        """Return the torque for a preload by VDI 2230-1 [N·m]."""
        thread = self.thread
        return torque_from_preload(
            preload_n, thread.pitch_mm, thread.d2_mm, mu_thread, mu_head, self.bearing_mm
        )

    def deviation_at(self, torque_nm: float) -> float:
        """Return the deviation of the wrench at a torque, as a share of it."""
        if self.deviation is not None:
            return self.deviation
        return deviation_at(torque_nm)


def fastening(
    book: Book, thread: str, strength_class: str, friction: str, head: str, wrench: str
) -> Fastening:
    """Return the fastener that a command line speaks of.

    Parameters
    ----------
    book : Book
    thread, strength_class : str
        As typed.
    friction, head, wrench : str
        As typed; empty where nothing was said.

    Raises
    ------
    NotUnderstood
        If one of them is not in the book, or the thread's pitch is left open.
    """
    size = book.thread(thread)
    strength = book.strength(strength_class, size.d_mm, size.family)
    condition = friction_of(book, friction, strength)
    seat = book.head(head, size)
    mu = condition.mu_thread
    assumed = []
    if not friction:
        assumed.append(f"friction {mu.low:g} to {mu.high:g}, nominal {mu.nominal:g}")
    elif condition.name == f"mu {mu.nominal:g}":
        spread = (mu.high - mu.nominal) / mu.nominal * 100
        assumed.append(f"friction {mu.nominal:g} give or take {spread:.0f} %")
    bearing = bearing_mm(book, size, seat)
    if bearing is not None:
        if not head:
            assumed.append("a hexagon head")
    else:
        bearing = BEARING_OVER_D * size.d_mm
        assumed.append(f"a bearing face as under a hexagon head, {BEARING_OVER_D:g} d in mean")
    if not wrench:
        assumed.append(
            f"a wrench within {DEVIATION:.0%}, or {DEVIATION_SMALL:.0%} up to {SMALL_NM:g} N·m "
            "(ISO 6789:2003)".replace("%", " %")
        )
    deviation = book.wrench(wrench).deviation if wrench else None
    return Fastening(size, strength, condition, seat, bearing, deviation, tuple(assumed))
