"""Family `load`: what the torque does to the bolt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.answers.turned import grips
from torquebook.catalogue.defaults import TORQUE_SCATTER
from torquebook.findings import Severity
from torquebook.mechanics.settling import settling, settling_loss
from torquebook.notation import Torque
from torquebook.rules.basis import report, say
from torquebook.rules.basis.deviation import LEAST_SHARE
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

# Settling in the thread, under head and nut together, and in one interface, on smooth and on
# rough faces [mm] (VDI 2230-1, embedding, from memory: so the rule only notes).
SMOOTH_MM = (0.003, 0.005, 0.0015)
ROUGH_MM = (0.003, 0.008, 0.003)
ISO_898_1 = "ISO 898-1:2013, tables 2 to 5; torque and preload by VDI 2230-1"


@rule(
    "over-proof",
    Severity.STOP,
    source=ISO_898_1,
    fires="M8 8.8 30 N.m friction=0.12",
    passes="M8 8.8 25 N.m friction=0.12",
    needs=("bolt", "thread", "class", "torque"),
)
def over_proof(case: Case) -> Iterator[Remark]:
    """Does the preload pass the proof load of the bolt's class?

    Why
    ---
    Below the proof load a bolt comes back to its length; above it nobody promises that,
    and it must not be used again.

    Mend
    ----
    Use the torque that the message gives, or a bolt of the next class.

    Known gaps
    ----------
    An angle after the torque is judged by angle-too-far and yields-by-angle.
    """
    for deviation, slips, _ in report.reported(case, "over-proof"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            instead=report.right(case, deviation),
            severity=report.severity(deviation),
        )


@rule(
    "past-yield",
    Severity.STOP,
    source="VDI 2230-1:2003, equivalent stress in tension and torsion; ISO 898-1:2013, table 3",
    fires="M8 8.8 40 N.m friction=oiled",
    passes="M8 8.8 22 N.m friction=oiled",
    needs=("bolt", "thread", "class", "torque"),
)
def past_yield(case: Case) -> Iterator[Remark]:
    """Does tightening by torque stretch the bolt past its yield strength, at any friction?

    Why
    ---
    While the wrench turns, the shank is pulled and twisted; past yield it necks, and by
    torque alone nobody can tell how far it went.

    Mend
    ----
    Use the torque that the message gives, or a bolt of the next class.

    Known gaps
    ----------
    A torque before an angle is the snug torque, and judged as such.
    """
    for deviation, slips, _ in report.reported(case, "past-yield"):
        shares = case.yield_shares or (0.0, 0.0, 0.0)
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation) | {"yield_share_least": min(shares)},
            instead=report.right(case, deviation),
        )


@rule(
    "clamp-too-low",
    Severity.STOP,
    source="common practice; the printed tables that the book holds lie at 45 to 95 % of proof",
    fires="M10 10.9 14 N.m friction=oiled",
    passes="M10 10.9 50 N.m friction=oiled",
    needs=("bolt", "clamp", "thread", "listed class", "torque"),
)
def clamp_too_low(case: Case) -> Iterator[Remark]:
    """Is the clamp too low to hold?

    Why
    ---
    A bolt at a fifth of its proof load slips, then works loose; what it holds comes off.

    Mend
    ----
    Look the torque up again; if it is low on purpose (a gasket, plastic, a plug), say so
    in the column kind or keep it as a question answered.

    Known gaps
    ----------
    Where no class is stated the weakest class is taken. An angle adds clamp, so only a
    snug torque of next to nothing is flagged there.
    """
    for deviation, slips, instead in report.reported(case, "clamp-too-low"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            instead=instead,
            severity=report.severity(deviation),
        )


@rule(
    "no-class-bears",
    Severity.STOP,
    source=ISO_898_1,
    fires="M6 60 N.m",
    passes="M6 12 N.m",
    needs=("bolt", "thread", "listed class", "torque"),
)
def no_class_bears(case: Case) -> Iterator[Remark]:
    """Is the torque more than any class of this thread can bear?

    Why
    ---
    Where no class is stated the strongest is taken; what breaks that one breaks all.

    Mend
    ----
    Check thread, unit and row; then state the class.

    Known gaps
    ----------
    Fasteners stronger than the listed classes exist; they carry their maker's data.
    """
    for deviation, slips, instead in report.reported(case, "no-class-bears"):
        yield Remark(
            report.compared(case, deviation) + slips,
            numbers=report.numbers(case, deviation),
            instead=instead,
            severity=report.severity(deviation),
        )


@rule(
    "class-needed",
    Severity.NOTE,
    source=ISO_898_1,
    fires="M6 15 N.m",
    passes="M6 10.9 15 N.m",
    needs=("bolt", "thread", "listed class", "torque"),
)
def class_needed(case: Case) -> Iterator[Remark]:
    """Where no class is stated, which is the weakest that bears the torque?

    Why
    ---
    The head marking on the bench then tells at a glance whether the bolt is the right one.

    Mend
    ----
    Read the marking and state the class.

    Known gaps
    ----------
    Only nominal friction is looked at.
    """
    torque, thread = case.torque, case.thread
    if case.strength or torque is None or thread is None or "class" in case.fastener.troubles:
        return
    if case.angle_deg is not None or case.deviation is not None:
        return
    per_n = case.fastener.torque_nm_per_n.nominal
    for strength in case.fastener.classes:
        most_nm = strength.proof_mpa * thread.stress_area_mm2 * per_n
        if most_nm >= torque.band.high:
            if most_nm * LEAST_SHARE < torque.band.low and strength is not case.fastener.classes[0]:
                yield Remark(
                    f"no class stated; {say.planned(torque)} on {thread.size} needs "
                    f"{strength.name} or stronger",
                    "class",
                    numbers={"proof_torque_nm": most_nm},
                    instead=f"class {strength.name} or stronger",
                )
            return


@rule(
    "settling-eats-clamp",
    Severity.NOTE,
    source="VDI 2230-1, embedding; amounts from memory",
    fires="M8 8.8 12 N.m friction=oiled clamp_length=4",
    passes="M8 8.8 22 N.m friction=oiled clamp_length=40",
    needs=("bolt", "thread", "torque", "clamp_length"),
)
def settling_eats_clamp(case: Case) -> Iterator[Remark]:
    """Does settling cost a short joint more clamp than tightening scatters?

    Why
    ---
    Faces and threads settle by about a hundredth of a millimetre after tightening. A short
    bolt is stretched by little more than that.

    Mend
    ----
    Tighten to the torque once more when the joint has settled, or take a longer bolt over a
    sleeve; no paint between the parts.

    Known gaps
    ----------
    Nothing is said of a bolt that an angle tightens: it is not tightened again. One interface
    of bare metal is taken; paint and gaskets settle far more. The amounts are
    from memory.
    """
    thread, clamp = case.thread, case.line.clamp_length_mm
    preload = case.preload_n
    if thread is None or clamp is None or preload is None or case.angle_deg is not None:
        return
    bearing_mm = case.fastener.bearing_mm
    joint = grips(thread.d_mm, thread.pitch_mm, bearing_mm, clamp)[0]
    low, high = (
        settling_loss(settling(*amounts, interfaces=1), joint.bolt_mm_per_n, joint.parts_mm_per_n)
        for amounts in (SMOOTH_MM, ROUGH_MM)
    )
    if (low + high) / 2 > TORQUE_SCATTER * preload.nominal:
        yield Remark(
            f"settling costs about {say.kilonewtons(low)} to {say.kilonewtons(high)} of "
            f"{say.kilonewtons(preload.nominal)} on {clamp.nominal:g} mm of clamp length",
            "clamp_length",
            numbers={"loss_low_n": low, "loss_high_n": high, "preload_n": preload.nominal},
        )


@rule(
    "overload-before-slackening",
    Severity.STOP,
    source="VDI 2230-1:2003, equivalent stress in tension and torsion; ISO 898-1:2013, table 3",
    fires="M10 8.8 200 N.m, slacken, 25 N.m friction=oiled kind=bolt",
    passes="M10 8.8 40 N.m, slacken, 25 N.m friction=oiled kind=bolt",
    needs=("bolt", "thread", "class", "torque"),
)
def overload_before_slackening(case: Case) -> Iterator[Remark]:
    """Does a stage before a slackening take the bolt past yield?

    Why
    ---
    The bolt is stretched or parts at that stage, however low the last one is.

    Mend
    ----
    Less torque at that stage; or, if it is a drag or a setting, say so under kind.

    Known gaps
    ----------
    An angle before the slackening is not added to the torque.
    """
    final = case.torque
    every = [stage for stage in case.line.stages if isinstance(stage, Torque)]
    before = [stage for stage in every if stage not in case.final_stages]
    highest = max(before, key=lambda stage: stage.band.nominal, default=None)
    if highest is None or final is None or highest.band.nominal <= final.band.nominal:
        return
    shares = case.yield_shares_at(highest)
    if shares is None or shares.nominal <= 1:
        return
    whole = shares.low > 1
    yield Remark(
        f"{say.planned(highest)}, before it is slackened, takes the bolt to "
        f"{say.percent(shares.nominal)} of yield",
        numbers={"yield_share_low": shares.low, "yield_share_high": shares.high},
        severity=Severity.STOP if whole else Severity.ASK,
    )


FAMILY = (
    over_proof,
    past_yield,
    overload_before_slackening,
    clamp_too_low,
    no_class_bears,
    class_needed,
    settling_eats_clamp,
)
