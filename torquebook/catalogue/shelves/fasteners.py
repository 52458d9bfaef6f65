"""Shelves of fasteners: threads, strength classes, heads, holes and drills.

Annotations are not postponed here: a named tuple would compile each of them from its text,
at every start.
"""

from typing import NamedTuple

from torquebook.mechanics import thread as geometry


class Thread(NamedTuple):
    """One size and pitch.

    Parameters
    ----------
    size : str
        As written in the book: ``M10`` (coarse), ``M10x1.25``, ``3/8-16``.
    family : str
        ``metric`` or ``inch``.
    d_mm, pitch_mm : float
        Nominal diameter and pitch [mm].
    series : str
        ``coarse``, ``fine``, ``UNC``, ``UNF``, ``UNS``.
    source : str
    """

    size: str
    family: str
    d_mm: float
    pitch_mm: float
    series: str
    source: str

    @property
    def d2_mm(self) -> float:
        """Basic pitch diameter [mm]."""
        return geometry.pitch_diameter(self.d_mm, self.pitch_mm)

    @property
    def d3_mm(self) -> float:
        """Root diameter of the bolt's thread [mm]."""
        if self.family == "inch":
            return geometry.root_diameter_unified(self.d_mm, self.pitch_mm)
        return geometry.root_diameter(self.d_mm, self.pitch_mm)

    @property
    def minor_mm(self) -> float:
        """Basic minor diameter, D1 [mm]."""
        return geometry.minor_diameter(self.d_mm, self.pitch_mm)

    @property
    def stress_area_mm2(self) -> float:
        """Stress area by the standard of the thread's family [mm²]."""
        if self.family == "inch":
            return geometry.stress_area_unified(self.d_mm, self.pitch_mm)
        return geometry.stress_area(self.d_mm, self.pitch_mm)


class StrengthClass(NamedTuple):
    """Strength of a bolt's class over one range of sizes.

    Parameters
    ----------
    name : str
        ``8.8``, ``A2-70``, ``SAE 5``.
    family : str
        The family of the threads it is listed for.
    standard, edition : str
    tensile_mpa, yield_mpa, proof_mpa : float
        Least tensile strength, least yield strength, stress under proof load [MPa].
    elongation_pct : float or None
        Least elongation after fracture of a machined test piece [%].
    d_over_mm, d_to_mm : float
        The range of diameters: above the first, up to and with the second [mm].
    source : str
    """

    name: str
    family: str
    standard: str
    edition: str
    tensile_mpa: float
    yield_mpa: float
    proof_mpa: float
    elongation_pct: float | None
    d_over_mm: float
    d_to_mm: float
    source: str


class HeadSize(NamedTuple):
    """One size of a head or nut.

    Parameters
    ----------
    head : str
        ``hexagon``, ``hexagon old DIN``, ``socket``, ``flange``, ``small flange``, ``nut``,
        ``flange nut``.
    standard, size : str
        The standard, and the thread's size.
    d_mm : float
        Nominal diameter [mm].
    across_flats_mm, key_mm, bearing_mm : float or None
        Spanner, hexagon key, and the least diameter of the bearing face, d_w [mm].
    source : str
    """

    head: str
    standard: str
    size: str
    d_mm: float
    across_flats_mm: float | None
    key_mm: float | None
    bearing_mm: float | None
    source: str


class Hole(NamedTuple):
    """Clearance holes for one diameter, fine, medium and coarse series [mm]."""

    d_mm: float
    fine_mm: float
    medium_mm: float
    coarse_mm: float
    source: str


class Drill(NamedTuple):
    """The drill for a cut thread [mm]."""

    size: str
    drill_mm: float
    source: str
