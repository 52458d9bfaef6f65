"""What stands in where nothing was said: friction, bearing face, deviation, scatter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.bands import Band
from torquebook.mechanics.bearing import bearing_diameter

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Friction, HeadSize, StrengthClass, Thread

#: Mean bearing diameter of a hexagon head over d, by ISO 4014 (d_w, least) and ISO 273
#: (medium): 1.25 to 1.29 from M6 to M20. Stands in where no table has the head.
BEARING_OVER_D: Final = 1.27
#: The standard of stainless fasteners.
STAINLESS: Final = "ISO 3506-1"
#: ISO 6789:2003, type II class A: permissible deviation above 10 N·m, and up to it.
DEVIATION: Final = 0.04
DEVIATION_SMALL: Final = 0.06
SMALL_NM: Final = 10.0
#: Scatter of the preload about its nominal value, ± share: a torque wrench with estimated
#: friction, and an angle (VDI 2230:1986, scatter of tightening methods, the wider end of 23
#: to 28 % and of 5 to 12 %). A friction that a list states as exact makes no exact preload.
TORQUE_SCATTER: Final = 0.28
ANGLE_SCATTER: Final = 0.12
#: The same for tools that a person can name: the wider end of 17 to 23 %, where the torque was
#: found on the real joint; of 26 to 43 % for a power driver; of 5 to 12 % to yield.
METHODS: Final = {
    "torque wrench": TORQUE_SCATTER,
    "tried on the joint": 0.23,
    "power driver": 0.43,
    "to yield": ANGLE_SCATTER,
}


def bearing_mm(book: Book, thread: Thread, head: HeadSize | None) -> float | None:
    """Return the effective diameter for friction under a head in a medium hole [mm].

    None where no table has the head or the hole; ``BEARING_OVER_D`` stands in then.
    """
    hole = book.hole(thread.d_mm)
    if head is None or not head.bearing_mm or hole is None:
        return None
    return bearing_diameter(head.bearing_mm, hole.medium_mm)


def friction_of(book: Book, text: str, strength: StrengthClass | None) -> Friction:
    """Return the friction that was said, or the band that stands in where none was.

    Stainless threads gall: of them "dry", "oiled" and nothing mean other values than of
    steel.

    Raises
    ------
    NotUnderstood
        If there is no such friction.
    """
    friction = book.friction(text) if text else book.default_friction()
    if strength is None or strength.standard != STAINLESS:
        return friction
    dry, oiled = book.friction("stainless dry"), book.friction("stainless oiled")
    if not text:
        band = Band.between(oiled.mu_thread.low, dry.mu_thread.high)
        return friction._replace(mu_thread=band, mu_head=band, source=dry.source)
    return {"dry": dry, "oiled": oiled, "greased": oiled}.get(friction.name, friction)


def deviation_at(torque_nm: float) -> float:
    """Return the permissible deviation of a wrench at a torque, as a share of it."""
    return DEVIATION if torque_nm > SMALL_NM else DEVIATION_SMALL
