"""Which rule reports a line's deviation, and the words that all of them share.

One wrong torque is reported once, by the rule that explains it best.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.bands import Band
from torquebook.findings import Severity
from torquebook.rules.basis import say
from torquebook.rules.basis.deviation import Measure
from torquebook.rules.basis.tables import dry_row

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case
    from torquebook.rules.basis.deviation import Deviation
    from torquebook.rules.basis.tables import TableRow

# Below this share of proof even a dry value on oil is harmless, and may be meant.
HIGH_SHARE = 0.9
# What is offered instead goes up to these shares of proof and of yield with torsion, and down
# to two thirds of that (common practice: 60 to 90 % of proof).
YIELD_SHARE = 0.95
LOW_OVER_HIGH = 2 / 3


def speaker(case: Case, deviation: Deviation) -> str:
    """Return the slug of the rule that reports a deviation, so that only one does."""
    if deviation.over and dry_value(case) is not None:
        return "oiled-but-dry-value"
    kind = case.slips[0].kind if case.slips else ""
    if kind in ("diameter", "angle"):
        return f"{kind}-as-torque"
    if kind in ("unit", "decimal") and deviation.gross:
        return "unit-doubtful"
    if deviation.measure is Measure.LOAD:
        return _load_speaker(case, deviation)
    if kind == "row":
        return "wrong-row"
    return "table-disagrees" if deviation.measure is Measure.TABLE else "odd-one-out"


def _load_speaker(case: Case, deviation: Deviation) -> str:
    if not deviation.over:
        return "clamp-too-low"
    shares = case.yield_shares
    if shares is None:
        return "no-class-bears"
    return "past-yield" if min(shares) > 1 else "over-proof"


def dry_value(case: Case) -> TableRow | None:
    """Return the dry row that a lubricated line takes over, where that pulls too hard.

    Where neither the list nor the line's source follows that table, an equal number may be
    chance.
    """
    row, share = dry_row(case), case.utilisation
    if row is None or share is None:
        return None
    meant = share.nominal < HIGH_SHARE and row.table.id not in case.peers.followed(case)
    return None if meant else row


def reported(case: Case, slug: str) -> Iterator[tuple[Deviation, str, str | None]]:
    """Yield the line's deviation, if the rule of this slug is the one to report it."""
    deviation = case.deviation
    if deviation is not None and case.speaker == slug:
        yield deviation, *say.explained(case)


def severity(deviation: Deviation) -> Severity:
    """Return ``stop`` where the whole band is wrong, or a table is missed by far."""
    return Severity.STOP if deviation.whole or deviation.far else Severity.ASK


def compared(case: Case, deviation: Deviation) -> str:
    """Return the numbers that a deviation rests on, for a message."""
    if deviation.measure is Measure.LOAD:
        return _against_load(case, deviation)
    torque = case.torque
    if torque is None:
        raise LookupError("a deviation without torque")
    expected = say.torque_band(deviation.low_nm, deviation.high_nm, torque.unit)
    if deviation.rows:
        names = ", ".join(sorted({row.table.source for row in deviation.rows}))
        what = f"{expected} in {names}"
    else:
        level = case.peers.level(case)
        lines = level.lines if level else 0
        what = f"{expected} by the level of {lines} other lines of this list"
    return f"{say.planned(torque)} against {what}, {deviation.ratio:.2f} times"


def _against_load(case: Case, deviation: Deviation) -> str:
    """State torque, preload and proof load of a line, for a message."""
    torque, preload, thread = case.torque, case.preload_n, case.thread
    if torque is None or preload is None or thread is None:
        raise LookupError("a deviation without torque, preload or thread")
    proof = case.fastener.proof_n
    if case.strength is not None:
        load, of = proof.nominal, f"{thread.size} {case.strength.name}"
    elif deviation.over:
        load, of = (
            proof.high,
            f"{thread.size} {case.fastener.classes[-1].name}, the strongest class",
        )
    else:
        load, of = proof.low, f"{thread.size} {case.fastener.classes[0].name}, the weakest class"
    end = torque.band.high if deviation.over else torque.band.low
    share = preload.nominal * end / torque.band.nominal / load
    ends = {torque.band.low: "down to ", torque.band.high: "up to "}
    upto = ends[end] if end != torque.band.nominal else ""
    shares = case.yield_shares if deviation.over else None
    strained = shares[1] * end / torque.band.nominal if shares else 0.0
    torsion = f"; with torsion {say.share(strained)} yield" if strained > 1 else ""
    return (
        f"{say.planned(torque)} gives {say.kilonewtons(preload.low)} to "
        f"{say.kilonewtons(preload.high)}, {upto}{say.share(share)} the proof load "
        f"{say.kilonewtons(load)} of {of}{torsion}"
    )


def numbers(case: Case, deviation: Deviation) -> dict[str, float]:
    """Return the numbers of :func:`compared`, for programs."""
    found = {
        "ratio": deviation.ratio,
        "expected_low_nm": deviation.low_nm,
        "expected_high_nm": deviation.high_nm,
    }
    if case.preload_n is not None:
        low, nominal, high = case.preload_n
        found |= {"preload_low_n": low, "preload_nominal_n": nominal, "preload_high_n": high}
    if case.strength is not None:
        found["proof_load_n"] = case.fastener.proof_n.nominal
    return found


def right(case: Case, deviation: Deviation) -> str | None:
    """Return the torque that would be right, in the line's unit, None without a class."""
    unit = case.torque.unit if case.torque else "N.m"
    if deviation.measure is not Measure.LOAD:
        return say.torque_band(deviation.low_nm, deviation.high_nm, unit)
    if case.strength is None or not deviation.over:
        return None  # a low torque may be meant; what would be right is for the sheet to say
    if case.angle_deg is not None:
        return None  # what is snug is for the sheet to say
    proof_nm = case.proof_torque_nm.nominal
    yield_n = 1 / case.fastener.yield_share(1.0, case.friction.mu_thread.nominal)
    most = min(HIGH_SHARE, YIELD_SHARE * yield_n / case.fastener.proof_n.nominal)
    least = most * LOW_OVER_HIGH
    band = say.torque_band(least * proof_nm, most * proof_nm, unit)
    return f"{band} ({say.share_band(Band.between(least, most))} of proof)"
