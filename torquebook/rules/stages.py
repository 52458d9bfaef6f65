"""Family `stages`: the order of torque, angle and slackening within one line."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from torquebook import units
from torquebook.findings import Severity
from torquebook.notation import Angle, Slacken, Torque
from torquebook.rules.basis import say
from torquebook.rules.basis.slips import ANGLES_DEG
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case


# Swapped stages are mostly closer than this; a stage in another unit is further off.
FAR_BELOW = 5.0


def _meant(case: Case, stage: Torque, before: Torque) -> str:
    """Return what a stage that falls may have been, the safest reading first."""
    number, before_nm = stage.printed[0], before.band.nominal
    readings = [f"{say.planned(stage)}, {say.planned(before)}", "slacken between them"]
    if number in ANGLES_DEG:
        readings.append(f"+{number:g}°")
    most_nm = case.proof_torque_nm.high if case.fastener.classes else before_nm * FAR_BELOW
    if before_nm > FAR_BELOW * stage.band.nominal:
        value = units.Quantity(number, before.unit)
        if before_nm < value.si <= most_nm:
            readings.insert(0, say.as_typed(number, before.unit))
    return ", or ".join(readings)


@rule(
    "stage-falls",
    Severity.ASK,
    source="common practice",
    fires="M10 10.9 60 N.m, 30 N.m",
    passes="M10 10.9 60 N.m, slacken, 50 N.m",
)
def stage_falls(case: Case) -> Iterator[Remark]:
    """Does any torque stage fall below the one before it?

    Why
    ---
    A wrench set lower clicks at once and turns nothing: the stages are swapped, or a
    slackening between them was lost.

    Mend
    ----
    Put the stages in order, or write the slackening between them.

    Known gaps
    ----------
    The same torque twice is a deliberate second pass and passes.
    """
    for before, after in pairwise(case.line.stages):
        if isinstance(before, Torque) and isinstance(after, Torque):
            low, high = after.band.nominal, before.band.nominal
            if low < high * 0.999:
                yield Remark(
                    f"stage {say.planned(after)} comes after {say.planned(before)}",
                    numbers={"before_nm": high, "after_nm": low},
                    instead=_meant(case, after, before),
                )


@rule(
    "angle-before-snug",
    Severity.ASK,
    source="common practice",
    fires="M10 10.9 tighten='+ 90 deg'",
    passes="M10 10.9 30 N.m + 90 deg",
)
def angle_before_snug(case: Case) -> Iterator[Remark]:
    """Is there a snug torque before the first angle?

    Why
    ---
    An angle counts from snug; from a loose start it only takes up slack, and nobody
    knows how much.

    Mend
    ----
    Write the snug torque first. If the number was a torque, write its unit.

    Known gaps
    ----------
    None.
    """
    snug = False
    for stage in case.line.stages:
        if isinstance(stage, Torque):
            snug = True
        elif isinstance(stage, Slacken):
            snug = snug and stage.by_deg is not None
        elif isinstance(stage, Angle) and not snug:
            number = stage.printed[0]
            yield Remark(
                f"{stage.band.nominal:g}° without a snug torque before it",
                numbers={"angle_deg": stage.band.nominal},
                instead=f"a snug torque first; or {number:g} N·m, if {number:g} is a torque",
            )
            return


@rule(
    "torque-after-angle",
    Severity.ASK,
    source="common practice",
    fires="M10 10.9 30 N.m + 90 deg, 60 N.m",
    passes="M10 10.9 30 N.m + 90 deg, slacken, 60 N.m",
)
def torque_after_angle(case: Case) -> Iterator[Remark]:
    """Does a torque stage follow an angle without slackening?

    Why
    ---
    After the angle the bolt already carries more than the torque would give, so the
    wrench clicks at once and the stage does nothing; mostly a "+" or an order was lost.

    Mend
    ----
    Look the order up again; if the torque is a check of the finished bolt, say so in
    the note and take it out of tighten.

    Known gaps
    ----------
    None.
    """
    for before, after in pairwise(case.line.stages):
        if isinstance(before, Angle) and isinstance(after, Torque):
            yield Remark(
                f"{say.planned(after)} comes after an angle of {before.band.nominal:g}°",
                numbers={"angle_deg": before.band.nominal, "after_nm": after.band.nominal},
            )


FAMILY = (stage_falls, angle_before_snug, torque_after_angle)
