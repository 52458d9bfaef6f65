"""What the book hands out: small frozen records without any model behind them.

They are named tuples because eleven dataclasses cost every start some milliseconds.

The order of the fields is the order of the columns in ``index.json``. ``source`` is always
one line that names the document, its edition and the table; ``kind`` in front of it says
where a value is from memory, common practice or invented.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from torquebook.mechanics import thread as geometry

if TYPE_CHECKING:
    from collections.abc import Mapping

    from torquebook.bands import Band


class Entry(NamedTuple):
    """A record's entry in the book: its id (path without ending), kind, title and source."""

    id: str
    kind: str
    title: str
    source: str


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


class NutClass(NamedTuple):
    """Proof stress of a nut's class over one range of sizes.

    Parameters
    ----------
    name : str
        ``8``, ``10``, ``04``.
    style : str
        ``1``, ``2``, ``thin``, or ``not stated``.
    edition, standard : str
        Editions differ, and are never mixed.
    proof_mpa : float
        Stress under proof load [MPa].
    d_over_mm, d_to_mm : float
        The range of diameters: above the first, up to and with the second [mm].
    pairs_with : str
        The strongest bolt class that it serves; empty where it carries a reduced load.
    source : str
    """

    name: str
    style: str
    edition: str
    standard: str
    proof_mpa: float
    d_over_mm: float
    d_to_mm: float
    pairs_with: str
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


class Friction(NamedTuple):
    """Friction of one condition of thread and bearing face.

    Parameters
    ----------
    name : str
    aliases : tuple of str
    mu_thread, mu_head : Band
        Coefficients of friction in the thread and under the head.
    lubricated : bool
        True where a lubricant is on the thread.
    source : str
    """

    name: str
    aliases: tuple[str, ...]
    mu_thread: Band
    mu_head: Band
    lubricated: bool
    source: str


class Material(NamedTuple):
    """What a thread is cut into, or a head presses on.

    Parameters
    ----------
    name : str
    aliases : tuple of str
    engagement_d : float
        Least length of engagement as a multiple of d.
    engagement_source : str
    tensile_mpa, pressure_mpa : Band or None
        Tensile strength and limiting surface pressure under the head, from the weakest to
        the strongest listed grade [MPa].
    source : str
        Where the last two come from.
    """

    name: str
    aliases: tuple[str, ...]
    engagement_d: float
    engagement_source: str
    tensile_mpa: Band | None
    pressure_mpa: Band | None
    source: str


class Wrench(NamedTuple):
    """A torque wrench.

    Parameters
    ----------
    name : str
    aliases : tuple of str
    low_nm, high_nm : float
        The ends of its scale [N·m].
    unit : str
        The unit on its scale.
    deviation : float
        Greatest deviation from the set value, as a share of it.
    drive : str
        The square drive.
    source : str
    """

    name: str
    aliases: tuple[str, ...]
    low_nm: float
    high_nm: float
    unit: str
    deviation: float
    drive: str
    source: str


class PrintedRow(NamedTuple):
    """One line of a printed table.

    Parameters
    ----------
    thread : str
        A size of the book, or a bare diameter where the table prints fine and coarse
        together.
    strength_class : str
        As printed: ``SAE 5``, ``SAE 1 or 2``; empty where the table names none.
    nut : str
        ``tension``, ``shear``, or empty.
    low, high : float
        The recommended torque, in ``unit``; alike where one value is printed.
    most : float or None
        The largest torque allowed, in ``unit``.
    unit : str
    low_nm, high_nm : float
    max_nm : float or None
        The same in newton metres, by the exact factor.
    printed : str
        The line as the table prints it.
    """

    thread: str
    strength_class: str
    nut: str
    low: float
    high: float
    most: float | None
    unit: str
    low_nm: float
    high_nm: float
    max_nm: float | None
    printed: str

    @property
    def strength_classes(self) -> tuple[str, ...]:
        """The classes that the line speaks of: ``SAE 1 or 2`` gives both."""
        first, *others = self.strength_class.split(" or ")
        system = first.rpartition(" ")[0]
        return (first, *(f"{system} {other}".strip() for other in others))


class PrintedTable(NamedTuple):
    """A handbook's table of torques with the conditions that it was printed for.

    Parameters
    ----------
    id, title, edition, where : str
    friction : str
        The condition that the values hold for, by its name in the book.
    factors : mapping of str to float
        Printed corrections for other conditions of friction, by their names in the book.
    into_factors : mapping of str to float
        Printed corrections for threads in other materials.
    tolerance : float or None
        The printed tolerance as a share of the value.
    rows : tuple of PrintedRow
    note : str
    source : str
    """

    id: str
    title: str
    edition: str
    where: str
    friction: str
    factors: Mapping[str, float]
    into_factors: Mapping[str, float]
    tolerance: float | None
    rows: tuple[PrintedRow, ...]
    note: str
    source: str
