"""Family `wrench`: can the named wrench do it; and the friction that decides the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.notation import Torque
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

ISO_6789 = "ISO 6789:2003, type II class A: 4 % above 10 N·m, 6 % at or below"


@rule(
    "off-scale",
    Severity.ASK,
    source=ISO_6789,
    fires="M10 10.9 15 N.m, 60 N.m wrench='40-200 N.m'",
    passes="M10 10.9 45 N.m, 60 N.m wrench='40-200 N.m'",
    needs=("wrench", "torque"),
)
def off_scale(case: Case) -> Iterator[Remark]:
    """Does every torque stage lie in the range of the wrench?

    Why
    ---
    Below its lowest mark a wrench clicks late or never, and the bolt is past its torque
    before anyone notices.

    Mend
    ----
    Use a smaller or a larger wrench for that stage.

    Known gaps
    ----------
    An adapter changes the setting; work it out with the command wrench.
    """
    wrench = case.wrench
    if not wrench.named:
        return
    for stage in case.line.stages:
        if isinstance(stage, Torque) and not (
            wrench.low_nm <= stage.band.nominal <= wrench.high_nm
        ):
            scale = say.torque_band(wrench.low_nm, wrench.high_nm, stage.unit)
            yield Remark(
                f"{say.planned(stage)} is off the scale of {wrench.name} ({scale})",
                "wrench",
                numbers={
                    "stage_nm": stage.band.nominal,
                    "low_nm": wrench.low_nm,
                    "high_nm": wrench.high_nm,
                },
            )


@rule(
    "tolerance-too-tight",
    Severity.ASK,
    source=ISO_6789,
    fires="M10 10.9 60 ±1 N.m wrench='20-100 N.m'",
    passes="M10 10.9 60 ±3 N.m wrench='20-100 N.m'",
    needs=("wrench", "torque"),
)
def tolerance_too_tight(case: Case) -> Iterator[Remark]:
    """Is the tolerance of the torque wider than that of the wrench?

    Why
    ---
    A wrench that is right to 4 % cannot keep a torque to 2 %.

    Mend
    ----
    Use a better wrench, or ask whether the tolerance is meant.

    Known gaps
    ----------
    A single value without tolerance is taken as the wrench gives it.
    """
    wrench = case.wrench
    if not wrench.named:
        return
    for stage in case.line.stages:
        if not isinstance(stage, Torque) or stage.form not in ("tolerance", "range"):
            continue
        band = stage.band
        half = (band.high - band.low) / 2 / ((band.high + band.low) / 2)
        deviation = wrench.deviation(band.nominal)
        if half < deviation * 0.999:
            yield Remark(
                f"{case.line.text('tighten')} allows ±{100 * half:.2g} %, {wrench.name} "
                f"holds ±{say.percent(deviation)}",
                numbers={"allowed": half, "wrench": deviation},
            )


@rule(
    "friction-unsaid",
    Severity.NOTE,
    source="VDI 2230-1, friction classes B and C: 0.08 to 0.24",
    fires="M8 8.8 20 N.m",
    passes="M8 8.8 20 N.m friction=oiled",
    needs=("bolt", "thread", "torque"),
)
def friction_unsaid(case: Case) -> Iterator[Remark]:
    """Is the friction of thread and head stated, and how far does the answer move if not?

    Why
    ---
    Nine tenths of a torque go into friction; dry or oiled is a third more or less preload.

    Mend
    ----
    State dry, oiled, or what is on the threads.

    Known gaps
    ----------
    None.
    """
    preload = case.final_preload_n
    if case.line.text("friction") or preload is None:
        return
    mu = case.friction.mu_thread
    share = case.turned.proof_share if case.turned else case.utilisation
    answer = (
        f"{say.share_band(share)} of proof"
        if share
        else f"{say.kilonewtons(preload.low)} to {say.kilonewtons(preload.high)}"
    )
    yield Remark(
        f"friction not stated; between {mu.low:.2f} and {mu.high:.2f} the preload is {answer}",
        "friction",
        numbers={"preload_low_n": preload.low, "preload_high_n": preload.high},
    )


FAMILY = (off_scale, tolerance_too_tight, friction_unsaid)
