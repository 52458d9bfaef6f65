"""Which rule reports a line's deviation, and the words that all of them share.

One wrong torque is reported once, by the rule that explains it best.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.basis import say
from torquebook.rules.basis.deviation import Measure, find_deviation
from torquebook.rules.basis.slips import find_slips

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case
    from torquebook.rules.basis.deviation import Deviation


def _slip_is(case: Case, deviation: Deviation, kinds: tuple[str, ...]) -> bool:
    slips = find_slips(case, deviation)
    return bool(slips) and slips[0].kind in kinds


def speaker(case: Case, deviation: Deviation) -> str:
    """Return the slug of the rule that reports a deviation, so that only one does."""
    if _slip_is(case, deviation, ("diameter",)):
        return "diameter-as-torque"
    if _slip_is(case, deviation, ("angle",)):
        return "angle-as-torque"
    if deviation.gross and _slip_is(case, deviation, ("unit", "decimal")):
        return "unit-doubtful"
    if deviation.measure is not Measure.LOAD:
        if _slip_is(case, deviation, ("row",)):
            return "wrong-row"
        return "table-disagrees" if deviation.measure is Measure.TABLE else "odd-one-out"
    if case.strength is None and deviation.over:
        return "no-class-bears"
    if not deviation.over:
        return "clamp-too-low"
    return "past-yield" if past_yield(case) else "over-proof"


def past_yield(case: Case) -> bool:
    if case.preload_n is None or case.strength is None:
        return False
    return case.fastener.yield_share(case.preload_n.nominal, case.friction.mu_thread.nominal) > 1


def reported(case: Case, slug: str) -> Iterator[tuple[Deviation, str, str | None]]:
    """Yield the line's deviation, if the rule of this slug is the one to report it."""
    deviation = find_deviation(case)
    if deviation is not None and speaker(case, deviation) == slug:
        yield deviation, *say.explained(case, deviation)


def severity(deviation: Deviation) -> Severity:
    return Severity.STOP if deviation.whole else Severity.ASK


def against_load(case: Case, deviation: Deviation) -> str:
    """State torque, preload and proof load of a line, for a message."""
    torque, preload, thread = case.torque, case.preload_n, case.thread
    if torque is None or preload is None or thread is None:
        raise LookupError("a deviation without torque, preload or thread")
    proof = case.fastener.proof_n
    if case.strength is not None:
        load, of = proof.nominal, f"{thread.size} {case.strength.name}"
    elif deviation.over:
        load, of = proof.high, f"{thread.size} {case.fastener.classes[-1].name}, the strongest class"
    else:
        load, of = proof.low, f"{thread.size} {case.fastener.classes[0].name}, the weakest class"
    return (
        f"{say.planned(torque)} gives {say.kilonewtons(preload.low)} to "
        f"{say.kilonewtons(preload.high)}, {say.share(preload.nominal / load)} of the proof load "
        f"{say.kilonewtons(load)} of {of}"
    )


def numbers(case: Case) -> dict[str, float]:
    preload, proof = case.preload_n, case.fastener.proof_n
    if preload is None:
        return {}
    return {
        "preload_low_n": preload.low,
        "preload_nominal_n": preload.nominal,
        "preload_high_n": preload.high,
        "proof_load_n": proof.nominal if case.strength else proof.high,
    }


def right(case: Case, deviation: Deviation) -> str:
    unit = case.torque.unit if case.torque else "N.m"
    if deviation.measure is not Measure.LOAD:
        return say.torque_band(deviation.low_nm, deviation.high_nm, unit)
    nominal = case.proof_torque_nm.nominal
    return f"{say.torque_band(0.6 * nominal, 0.9 * nominal, unit)} (60 to 90 % of proof)"
