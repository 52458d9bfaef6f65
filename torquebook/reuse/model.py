"""What is asked of the rulebook, and what it answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from torquebook.catalogue.library import Held
    from torquebook.catalogue.shelves import Thread
    from torquebook.records.reuse import Check, Feature, History, ReuseRule, Verdict

#: From the strictest to the most lenient.
VERDICTS: Final[tuple[Verdict, ...]] = ("renew", "measure", "clean", "reuse")
#: What a load did to a fastener, as said or as computed.
STRAIN: Final[frozenset[History]] = frozenset({"elastic", "past yield", "may be past yield"})


@dataclass(frozen=True)
class Measured:
    """What was measured on a fastener that was taken out; None where it was not.

    Parameters
    ----------
    length_mm, new_length_mm, limit_length_mm : float or None
        Length now, of a new one, and the maker's limit [mm].
    stretched_mm : float or None
        The length that stretches: clamp length, or the length under the head [mm].
    diameters_mm : tuple of float or None
        The thread's or shank's diameter at two places: where it is whole, where it is least [mm].
    drag_nm : float or None
        Prevailing torque, unseated, no load [N·m].
    uses, uses_allowed : int or None
        How often it was tightened, and how often the maker allows.
    least_diameter_mm, most_difference_mm : float or None
        The maker's limits for the diameters [mm].
    always_new : bool
        Whether the maker says: new ones, always.
    table : str
        The table of prevailing torques to compare with; empty for those that the rules name.
    """

    length_mm: float | None = None
    new_length_mm: float | None = None
    limit_length_mm: float | None = None
    stretched_mm: float | None = None
    diameters_mm: tuple[float, float] | None = None
    drag_nm: float | None = None
    uses: int | None = None
    uses_allowed: int | None = None
    least_diameter_mm: float | None = None
    most_difference_mm: float | None = None
    always_new: bool = False
    table: str = ""

    @property
    def has_limits(self) -> bool:
        """Whether any limit of the maker's is known."""
        limits = (self.limit_length_mm, self.uses_allowed)
        return any((*limits, self.least_diameter_mm, self.most_difference_mm, self.always_new))


@dataclass(frozen=True)
class Used:
    """A fastener that was taken out.

    Parameters
    ----------
    thread : Thread or None
    strength_class : str
        Empty where it is not known.
    features : frozenset of str
    history : frozenset of str
    measured : Measured
    notes : tuple of str
        What was worked out of it, or could not be.
    computed : bool
        Whether its strain was worked out by the program, not assumed or told.
    """

    thread: Thread | None
    strength_class: str
    features: frozenset[Feature]
    history: frozenset[History]
    measured: Measured
    notes: tuple[str, ...] = ()
    computed: bool = False


@dataclass(frozen=True)
class Comparison:
    """One check with its numbers.

    Parameters
    ----------
    check : Check
    said : str
        The comparison in words and numbers: ``grew 0.3 mm of 126 mm, 0.24 %; limit 0.2 %``.
    passed : bool or None
        None where it was not measured or is for the eye.
    listed : bool
        False where the tables of the check do not list the thread.
    """

    check: Check
    said: str
    passed: bool | None
    listed: bool = True


@dataclass(frozen=True)
class Ruling:
    """What one rule of the book says of a fastener, after what was measured on it."""

    rule: Held[ReuseRule]
    verdict: Verdict
    comparisons: tuple[Comparison, ...]

    @property
    def is_makers(self) -> bool:
        """Whether this is what the fastener's maker says."""
        record = self.rule.record
        return record.source.kind == "maker" or bool(set(record.given) - {"growth"})


@dataclass(frozen=True)
class ReuseAnswer:
    """What becomes of a fastener.

    Parameters
    ----------
    used : Used
    verdict : str
        That of the first ruling.
    rulings : tuple of Ruling
        The one that counts first: the maker's, then the preferred source's, then the strictest.
    preferred : str
        The source that the user's book prefers, where it decided; empty otherwise.
    doubts : tuple of str
        Measurements that cannot be right, with what to measure again.
    remarks : tuple of str
        What was assumed, and what no rule speaks of.
    """

    used: Used
    verdict: Verdict
    rulings: tuple[Ruling, ...]
    preferred: str = ""
    doubts: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
