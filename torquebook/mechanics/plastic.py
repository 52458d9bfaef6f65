"""What a screw can take beyond its yield point: strain guaranteed, used, and left.

The stress–strain curve is two straight lines: elastic to the yield strength, then rising
to the tensile strength at the uniform strain, after which the screw necks. That line is an
inference: no standard gives the curve of a class.
"""

from __future__ import annotations

from math import floor, inf
from typing import NamedTuple

from torquebook.errors import OutOfRange
from torquebook.mechanics import limits

_RULE = "inference: half of the elongation after fracture is uniform"
_COUNT = "inference: like tightenings strain a screw alike"


class Strength(NamedTuple):
    """Strength of a screw: of its class (minimum), or of a likely piece of that class.

    ``proof_load_n`` is what shares of proof refer to; ``uniform_strain`` is a pure number,
    0.045 for 4.5 %.
    """

    proof_load_n: float
    yield_mpa: float
    tensile_mpa: float
    uniform_strain: float

    def checked(self) -> Strength:
        """Return the strength, or raise OutOfRange if a value is none that a screw has."""
        limits.positive(_RULE, proof_load_n=self.proof_load_n, yield_mpa=self.yield_mpa)
        if not self.yield_mpa <= self.tensile_mpa < inf:
            raise OutOfRange("tensile_mpa", self.tensile_mpa, self.yield_mpa, inf, _RULE)
        limits.below(_RULE, 1.0, uniform_strain=self.uniform_strain)
        return self


class Hardening(NamedTuple):
    """Preload over the way that screw and parts give together, counted from the yield point.

    ``give_mm_per_n`` is δ_S + δ_P; ``yield_n`` and ``most_n`` are the preloads at the yield
    point and at the brink of necking; ``uniform_mm`` is the permanent stretch at that brink.
    """

    give_mm_per_n: float
    yield_n: float
    most_n: float
    uniform_mm: float

    def room_mm(self) -> float:
        """Way from the yield point to the brink of necking."""
        return (self.most_n - self.yield_n) * self.give_mm_per_n + self.uniform_mm

    def way_mm(self, preload_n: float) -> float:
        """Way beyond the yield point at a preload; below 0 while elastic."""
        beyond_n = preload_n - self.yield_n
        if beyond_n <= 0:
            return beyond_n * self.give_mm_per_n
        if preload_n >= self.most_n:
            return self.room_mm()
        return beyond_n / (self.most_n - self.yield_n) * self.room_mm()

    def preload_n(self, way_mm: float) -> float:
        """Preload at a way beyond the yield point, 0 or above."""
        share = min(way_mm / self.room_mm(), 1.0)
        return self.yield_n + share * (self.most_n - self.yield_n)

    def permanent_mm(self, way_mm: float) -> float:
        """Permanent stretch at a way beyond the yield point."""
        if way_mm <= 0:
            return 0.0
        room_mm = self.room_mm()
        necking_mm = max(way_mm - room_mm, 0.0)
        return min(way_mm / room_mm, 1.0) * self.uniform_mm + necking_mm


def uniform_strain(elongation: float) -> float:
    """Uniform strain that a class guarantees, from its elongation after fracture.

    Parameters
    ----------
    elongation : float
        A, least elongation after fracture, as a share: 0.09 for 9 % [1]

    Returns
    -------
    float
        A / 2

    Valid range
    -----------
    Above 0 and below 1.

    Raises
    ------
    OutOfRange
        If the value lies outside the valid range.

    Source
    ------
    Inference, no standard says it: A counts the neck too, on a gauge length of 5 diameters,
    and about half of it is taken as strained before necking. A class limits no uniform
    strain.

    Example
    -------
    Class 10.9: ISO 898-1 prints A ≥ 9 %, half of which is 4.5 %.

    >>> uniform_strain(0.09)
    0.045
    """
    limits.below(_RULE, 1.0, elongation=elongation)
    return elongation / 2


def tightenings(strain_share: float) -> float:
    """How many like tightenings the guaranteed uniform strain covers, the first included.

    Parameters
    ----------
    strain_share : float
        share of the uniform strain that one tightening uses [1]

    Returns
    -------
    float
        1 / share, rounded down; infinite for a tightening that stays elastic, 0 for one
        that uses more than there is

    Valid range
    -----------
    0 or above.

    Raises
    ------
    OutOfRange
        If the share is negative or not a number.

    Source
    ------
    Inference: every tightening to the same torque and angle is taken to strain the screw
    alike. Strain hardening makes a later one strain it less, so the count is on the safe
    side; wear, friction and fatigue are not counted.

    Example
    -------
    A quarter each time: four in all.

    >>> tightenings(0.25)
    4.0
    """
    if not strain_share >= 0:
        raise OutOfRange("strain_share", strain_share, 0.0, inf, _COUNT)
    whole = 1 / strain_share if strain_share else inf
    return float(floor(whole)) if whole < inf else inf
