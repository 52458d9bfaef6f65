"""What a line's words mean: thread, class, friction and head, and the loads they bear.

Lines of one list share few fasteners, so each is worked out once and kept.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache, partial
from math import pi, sqrt
from typing import TYPE_CHECKING, TypeVar

from torquebook.answers.turned import turned
from torquebook.bands import Band
from torquebook.catalogue.defaults import BEARING_OVER_D, bearing_mm, friction_of
from torquebook.catalogue.lookup import plain
from torquebook.errors import NotUnderstood
from torquebook.mechanics.preload import torque_from_preload
from torquebook.mechanics.strength import proof_load
from torquebook.mechanics.stress import combined_stress
from torquebook.rules.basis.wrenches import read_wrench

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Library
    from torquebook.catalogue.shelves import (
        Friction,
        HeadSize,
        Material,
        NutClass,
        StrengthClass,
        Thread,
    )
    from torquebook.mechanics.yield_bands import TightenedBand
    from torquebook.plans.model import PlanLine
    from torquebook.rules.basis.specs import Spec
    from torquebook.rules.basis.wrenches import LineWrench

T = TypeVar("T")

# A list of any length is judged in flat memory: of each kind so many are kept.
MOST_KEPT = 4096

# Nuts that lock by drag, as a plan may name them where the class belongs (terms of the trade).
LOCKING_NUTS = frozenset({"self locking", "locking", "prevailing", "nylon insert", "all metal"})
WORDS = ("thread", "class", "friction", "head", "nut", "into", "under")


def is_locking_nut(text: str) -> bool:
    """Return whether a word for a nut names one that locks by drag."""
    return plain(text) in LOCKING_NUTS


@dataclass(frozen=True)
class Fastener:
    """A line's fastener as far as the book knows it.

    Parameters
    ----------
    threads : tuple of Thread
        What the thread may be: none if it is not stated, several if its pitch is not.
    strength : StrengthClass or None
        The stated class.
    classes : tuple of StrengthClass
        All classes that the bolt may have, weakest first: one if it is stated.
    friction : Friction
        The stated condition, or the book's band for a line that states none.
    bearing_mm : float
        Mean diameter of the bearing face under the head.
    head_assumed : bool
        True if the head is taken as a hexagon's because the line does not say.
    nut : NutClass or None
    material, under : Material or None
        What the thread is cut into, and what the head presses on.
    seat_mm : tuple of float, or None
        Outer and inner diameter of the bearing face, where a table has the head.
    troubles : mapping of str to NotUnderstood
        By column, the words that the book does not know.
    """

    threads: tuple[Thread, ...] = ()
    strength: StrengthClass | None = None
    classes: tuple[StrengthClass, ...] = ()
    friction: Friction | None = None
    bearing_mm: float = 0.0
    head_assumed: bool = True
    nut: NutClass | None = None
    material: Material | None = None
    under: Material | None = None
    seat_mm: tuple[float, float] | None = None
    troubles: Mapping[str, NotUnderstood] = field(default_factory=dict)

    @property
    def thread(self) -> Thread | None:
        """The thread, the coarser one where the pitch is not stated."""
        return self.threads[0] if self.threads else None

    @cached_property
    def torque_nm_per_n(self) -> Band:
        """Tightening torque per newton of preload, over the friction band [N·m/N].

        Source: VDI 2230-1, assembly torque with separate thread and head friction.
        """
        friction = self.friction
        if friction is None or not self.threads:
            raise LookupError("a line without thread has no torque per newton")
        low = [
            self._nm_per_n(t, friction.mu_thread.low, friction.mu_head.low) for t in self.threads
        ]
        high = [
            self._nm_per_n(t, friction.mu_thread.high, friction.mu_head.high) for t in self.threads
        ]
        nominal = self._nm_per_n(
            self.threads[0], friction.mu_thread.nominal, friction.mu_head.nominal
        )
        return Band(min(low), nominal, max(high))

    def _nm_per_n(self, thread: Thread, mu_thread: float, mu_head: float) -> float:
        return torque_from_preload(
            1.0, thread.pitch_mm, thread.d2_mm, mu_thread, mu_head, self.bearing_mm
        )

    @cached_property
    def proof_n(self) -> Band:
        """Proof load: of the stated class, or from the weakest to the strongest [N]."""
        areas = [thread.stress_area_mm2 for thread in self.threads]
        low = proof_load(min(areas), self.classes[0].proof_mpa)
        high = proof_load(max(areas), self.classes[-1].proof_mpa)
        middle = (low * high) ** 0.5
        nominal = proof_load(areas[0], self.strength.proof_mpa) if self.strength else middle
        return Band.checked(low, nominal, high)

    def yield_share(self, preload_n: float, mu_thread: float) -> float:
        """Return combined tension and torsion as a share of the yield strength.

        Source: VDI 2230-1:2003, equation for the equivalent stress while tightening.
        """
        thread, strength = self.thread, self.strength
        if thread is None or strength is None:
            raise LookupError("yield needs a thread and a class")
        core_mm = 2 * sqrt(thread.stress_area_mm2 / pi)
        stress = combined_stress(preload_n, thread.pitch_mm, thread.d2_mm, core_mm, mu_thread)
        return stress.combined_mpa / strength.yield_mpa


class Fitter:
    """Reads lines' words against one book, and keeps what it has read."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self._nut_kinds = {row.nut for table in book.tables() for row in table.rows}
        kept = lru_cache(maxsize=MOST_KEPT)
        self._fastener: Callable[[tuple[str, ...]], Fastener] = kept(self._read)
        self._friction: Callable[[str, StrengthClass | None], Friction]
        self._friction = kept(partial(friction_of, book))
        self._material: Callable[[str], Material | None] = kept(self._read_material)
        self._head: Callable[[str, Thread], HeadSize | None] = kept(book.head)
        self._turned: Callable[..., TightenedBand] = kept(turned)
        self._wrench: Callable[[str], LineWrench] = kept(partial(read_wrench, book=book))
        self._spec: Callable[[str], Spec] = kept(self._read_spec)

    def fit(self, line: PlanLine) -> Fastener:
        """Return the fastener that a line speaks of."""
        return self._fastener(tuple(line.text(column) for column in WORDS))

    def wrench(self, line: PlanLine) -> LineWrench:
        """Return the wrench that a line names, or the tolerance of one that it does not."""
        return self._wrench(line.text("wrench"))

    def spec(self, text: str) -> Spec:
        """Return the record of a joint by its id, name or file; read when it is first named."""
        return self._spec(text)

    def _read_spec(self, text: str) -> Spec:
        from torquebook.rules.basis.specs import read_spec  # noqa: PLC0415 - brings the models

        return read_spec(text, self._library)

    @cached_property
    def _library(self) -> Library:
        from torquebook.catalogue.library import Library  # noqa: PLC0415 - brings the models

        return Library(self.book.folders)

    def turn(
        self, fastener: Fastener, torque: Band, angle: Band, clamp: Band | None
    ) -> TightenedBand | None:
        """Return what an angle makes of a fastener; None where its stretch is not known."""
        thread, strength, friction = fastener.thread, fastener.strength, fastener.friction
        if thread is None or strength is None or friction is None:
            return None
        if strength.elongation_pct is None:
            return None
        return self._turned(thread, strength, friction, fastener.bearing_mm, torque, angle, clamp)

    def _read(self, said: tuple[str, ...]) -> Fastener:
        book, words = self.book, dict(zip(WORDS, said, strict=True))
        troubles: dict[str, NotUnderstood] = {}

        def look(column: str, find: Callable[[str], T], absent: T) -> T:
            try:
                return find(words[column]) if words[column] else absent
            except NotUnderstood as trouble:
                troubles[column] = trouble
                return absent

        unstated: tuple[Thread, ...] = ()
        threads = look("thread", book.candidates, unstated)
        unsaid = self._friction("", None)
        friction = look("friction", lambda text: self._friction(text, None), unsaid)
        material = look("into", self._material, None)
        under = look("under", self._material, None)
        if not threads:
            if words["class"]:
                look("class", book.class_named, None)
            return Fastener(friction=friction, material=material, troubles=troubles)
        thread = threads[0]
        strength = look("class", lambda text: book.strength(text, thread.d_mm, thread.family), None)
        friction = look("friction", lambda text: self._friction(text, strength), friction)
        if not words["friction"] or "friction" in troubles:
            friction = self._friction("", strength)
        head = look("head", lambda text: self._head(text, thread), None)
        seat = head or self._head("", thread)
        return Fastener(
            threads=threads,
            strength=strength,
            classes=(strength,) if strength else book.strengths(thread.family, thread.d_mm),
            friction=friction,
            bearing_mm=bearing_mm(book, thread, seat) or BEARING_OVER_D * thread.d_mm,
            head_assumed=head is None,
            nut=look("nut", lambda text: self._nut(text, thread), None),
            material=material,
            under=under,
            seat_mm=self._seat_mm(seat, thread),
            troubles=troubles,
        )

    def _seat_mm(self, seat: HeadSize | None, thread: Thread) -> tuple[float, float] | None:
        hole = self.book.hole(thread.d_mm)
        if seat is None or seat.bearing_mm is None or hole is None:
            return None
        return seat.bearing_mm, hole.medium_mm

    def _nut(self, text: str, thread: Thread) -> NutClass | None:
        """Return a class of nut by ISO 898-2.

        A kind that printed tables tell apart, and a nut that is marked as a bolt is (A2-70,
        SAE 8), have none.
        """
        if text.casefold() in self._nut_kinds or is_locking_nut(text):
            return None
        try:
            return self.book.nut(text, thread.d_mm, fine=thread.series == "fine")
        except NotUnderstood:
            try:
                self.book.class_named(text)
            except NotUnderstood as trouble:
                readings = ("8", "10", "A2-70", "self-locking")
                raise NotUnderstood(text, "no class or kind of nut", readings) from trouble
            return None

    def _read_material(self, text: str) -> Material | None:
        return None if text.casefold() == "nut" else self.book.material(text)
