"""Shelves of what fasteners meet: nuts, friction, materials, wrenches and printed tables."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping

    from torquebook.bands import Band


class Entry(NamedTuple):
    """A record's entry in the book: its id (path without ending), kind, title and source."""

    id: str
    kind: str
    title: str
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
    doubtful : tuple of str
        Words that may mean this condition or another one: they are asked back.
    """

    name: str
    aliases: tuple[str, ...]
    mu_thread: Band
    mu_head: Band
    lubricated: bool
    source: str
    doubtful: tuple[str, ...] = ()


class Grade(NamedTuple):
    """One printed grade of a material: tensile strength and limiting pressure [MPa]."""

    name: str
    tensile_mpa: float
    pressure_mpa: float


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
        Tensile strength, R_m, and limiting surface pressure under the head, p_G, from the
        weakest to the strongest listed grade [MPa].
    source : str
        Where these two come from.
    grades : tuple of Grade
        The grades that the bands run over, as printed.
    shear_ratio : float or None
        τ_B / R_m, shear strength over tensile strength; None where nobody is sure.
    shear_source : str
        Where the ratio comes from; it begins with ``memory`` where no print was at hand.
    doubtful : tuple of str
        Words that may mean this material or another one: they are asked back.
    """

    name: str
    aliases: tuple[str, ...]
    engagement_d: float
    engagement_source: str
    tensile_mpa: Band | None
    pressure_mpa: Band | None
    source: str
    grades: tuple[Grade, ...] = ()
    shear_ratio: float | None = None
    shear_source: str = ""
    doubtful: tuple[str, ...] = ()


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

    @property
    def doubtful(self) -> tuple[str, ...]:
        """No word for a wrench is in doubt."""
        return ()

    @property
    def invented(self) -> bool:
        """True for the wrenches of the demo book."""
        return self.source.startswith("invented")


@cache
def _each_class(printed: str) -> tuple[str, ...]:
    """Return the classes of a table's line; tables print few."""
    first, *others = printed.split(" or ")
    system = first.rpartition(" ")[0]
    return (first, *(f"{system} {other}".strip() for other in others))


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
        return _each_class(self.strength_class)


class Pattern(NamedTuple):
    """A published order over the positions of a circle or of rows, from 1 up."""

    name: str
    shape: str
    order: tuple[int, ...]
    source: str


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
