"""Torque for a share of the proof load, preload of a torque, and what tables print."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook import units
from torquebook.bands import Band
from torquebook.catalogue.defaults import METHODS
from torquebook.errors import NotUnderstood
from torquebook.mechanics.preload import preload_from_torque
from torquebook.mechanics.quadrature import both_ways
from torquebook.mechanics.scatter import with_method, with_tool
from torquebook.mechanics.stress import assembly_preload

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.answers.fastening import Fastening
    from torquebook.answers.turned import Turn
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import PrintedRow, PrintedTable

USUAL_SHARES: Final = (0.75, 0.9)
LARGEST_SHARE: Final = 1.5
ASSEMBLY_SHARE: Final = 0.9
ASSEMBLY_SOURCE: Final = "VDI 2230-1:2003"
USUAL_METHOD: Final = "torque wrench"
TO_YIELD: Final = "to yield"
_NUTS: Final = ("", "tension", "shear")


class Tightening(NamedTuple):
    """One torque and what it does.

    Parameters
    ----------
    torque_nm : Band
        As it is set, without the wrench's deviation.
    preload_n : Band
        Worst case of friction and wrench, and no narrower than the method is known to scatter.
    likely_preload_n : Band
        The same, with the scatter of friction and wrench as root-sum-square.
    utilisation : Band
        ``preload_n`` as a share of the proof load.
    """

    torque_nm: Band
    preload_n: Band
    likely_preload_n: Band
    utilisation: Band


class ByFriction(NamedTuple):
    """Torques for one aim, at the low, nominal and high end of the friction [N, N·m]."""

    share: float
    preload_n: tuple[float, float, float]
    torque_nm: tuple[float, float, float]


class Printed(NamedTuple):
    """A printed value, with the table's own correction for the friction that was said.

    Parameters
    ----------
    table : PrintedTable
    row : PrintedRow
    factor : float or None
        1 where the table is printed for this friction; None where it says nothing of it.
    """

    table: PrintedTable
    row: PrintedRow
    factor: float | None


class Torques(NamedTuple):
    """The answer.

    Parameters
    ----------
    fastening : Fastening
    tightenings : tuple of Tightening
    for_shares : tuple of ByFriction
        For the shares of proof that were asked for.
    assembly : ByFriction
        For 90 % of yield with tension and torsion together.
    printed : tuple of Printed
    method : str
        How it is tightened: one of ``METHODS``.
    turn : Turn or None
        What an angle makes of the fastener, where one was asked for.
    """

    fastening: Fastening
    tightenings: tuple[Tightening, ...]
    for_shares: tuple[ByFriction, ...]
    assembly: ByFriction
    printed: tuple[Printed, ...]
    method: str = USUAL_METHOD
    turn: Turn | None = None


def read_share(text: str) -> float:
    """Return a share of the proof load: ``75%``, ``75 %`` or ``0.75``.

    Raises
    ------
    NotUnderstood
        If it is none, or not between 0 and 150 %.
    """
    number, sign, rest = text.strip().partition("%")
    try:
        value = float(number.replace(",", "."))
    except ValueError:
        raise NotUnderstood(text, "no share of the proof load", ("75%", "0.75")) from None
    share = value / 100 if sign else value
    if rest or not 0 < share <= LARGEST_SHARE:
        percent = 0 < value <= LARGEST_SHARE * 100 and not sign
        readings = (f"{value:g}%",) if percent else ("75%", "0.75")
        raise NotUnderstood(text, "a share goes from 0 to 150 %", readings)
    return share


def read_torque(text: str) -> Band:
    """Return a torque in N·m, with its tolerance where it has one: ``60 N.m``, ``80 ±8 N.m``.

    Raises
    ------
    NotUnderstood
        If it cannot be read, or is more than one torque.
    """
    from torquebook import notation  # noqa: PLC0415 - only where a torque is given

    stages = notation.read(text)
    if len(stages) != 1 or not isinstance(stages[0], notation.Torque) or stages[0].band.low <= 0:
        raise NotUnderstood(text, "one torque belongs here", ("60 N.m", "80 +/-8 N.m"))
    return stages[0].band


def torques(
    book: Book,
    what: Fastening,
    shares: Sequence[float],
    given: Sequence[Band],
    method: str = USUAL_METHOD,
) -> Torques:
    """Return what a fastener's torques do.

    Parameters
    ----------
    book : Book
        For the printed tables.
    what : Fastening
    shares : sequence of float
        Shares of the proof load to aim at; 75 % and 90 % where neither shares nor torques
        are given.
    given : sequence of Band
        Torques [N·m] whose preload is asked for.
    method : str
        One of ``METHODS``; ``to yield`` aims at no torque: it stops where the bolt yields.
    """
    aims = tuple(shares) or (() if given else USUAL_SHARES)
    for_shares = tuple(_for_share(what, share) for share in aims)
    aimed = [Band.exact(aim.torque_nm[1]) for aim in for_shares]
    aimed = [*given, *aimed]
    found = [_tightening(what, torque, METHODS[method]) for torque in aimed]
    return Torques(
        what,
        (_to_yield(what),) if method == TO_YIELD else tuple(found),
        for_shares,
        _assembly(what, ASSEMBLY_SHARE),
        _printed(book, what),
        method,
    )


def _to_yield(what: Fastening) -> Tightening:
    """Return where a tool ends that stops as soon as the bolt yields."""
    end = _assembly(what, 1.0)
    low, high = min(end.preload_n), max(end.preload_n)
    preload = with_method(Band.checked(low, end.preload_n[1], high), METHODS[TO_YIELD])
    torque = Band.checked(min(end.torque_nm), end.torque_nm[1], max(end.torque_nm))
    return Tightening(torque, preload, preload, preload.scaled(1 / what.proof_n))


def _tightening(what: Fastening, torque: Band, scatter: float) -> Tightening:
    thread, friction = what.thread, what.friction
    formula = partial(
        preload_from_torque,
        pitch_mm=thread.pitch_mm,
        d2_mm=thread.d2_mm,
        bearing_mm=what.bearing_mm,
    )
    combined = both_ways(
        formula,
        torque_nm=with_tool(torque, what.deviation_at(torque.nominal)),
        mu_thread=friction.mu_thread,
        mu_head=friction.mu_head,
    )
    worst, likely = (with_method(preload, scatter) for preload in combined)
    return Tightening(torque, worst, likely, worst.scaled(1 / what.proof_n))


def _for_share(what: Fastening, share: float) -> ByFriction:
    preload = share * what.proof_n
    return _by_friction(what, share, (preload, preload, preload))


def _assembly(what: Fastening, share: float) -> ByFriction:
    """Return preload and torque at a share of yield, with torsion."""
    thread = what.thread
    low, nominal, high = (
        assembly_preload(
            what.strength.yield_mpa, thread.pitch_mm, thread.d2_mm, what.d0_mm, mu, share
        )
        for mu in what.friction.mu_thread
    )
    return _by_friction(what, share, (low, nominal, high))


def _by_friction(
    what: Fastening, share: float, preload_n: tuple[float, float, float]
) -> ByFriction:
    low, nominal, high = (
        what.torque_nm(force, mu_thread, mu_head)
        for force, mu_thread, mu_head in zip(
            preload_n, what.friction.mu_thread, what.friction.mu_head, strict=True
        )
    )
    return ByFriction(share, preload_n, (low, nominal, high))


def _printed(book: Book, what: Fastening) -> tuple[Printed, ...]:
    """Return the lines of printed tables, those that name the class first.

    A line without a class counts only where it names the kind of nut: it is printed for
    fasteners of its own. One that names neither says nothing of this class.
    """
    name = what.friction.name
    found = []
    for strength_class in (what.strength.name, ""):
        for nut in _NUTS if strength_class else _NUTS[1:]:
            for table, row in book.table_rows(what.thread, strength_class, nut):
                factor = 1.0 if table.friction == name else table.factors.get(name)
                found.append(Printed(table, row, factor))
    return tuple(found)


def in_unit(torque_nm: float, unit: str) -> float:
    """Return a torque in another unit."""
    return units.convert(units.Quantity(torque_nm, "N.m"), unit).value
