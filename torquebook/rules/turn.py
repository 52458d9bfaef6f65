"""Family `turn`: what an angle after the snug torque makes of the bolt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.bands import Band
from torquebook.findings import Severity
from torquebook.rules.basis import say
from torquebook.rules.basis.slips import ANGLES_DEG
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.mechanics.yield_bands import TightenedBand
    from torquebook.rules.basis.case import Case

YIELDING = (
    "VDI 2230-1, tightening past yield; ISO 898-1:2013, table 3; typical strength, clamp length "
    "and uniform strain: inference"
)
# No procedure among the 30 in tests/published/real/C_angle_and_stretch_procedures.csv turns
# further than 210°.
MOST_ANGLE_DEG = 360.0
# The guaranteed uniform strain is half of the elongation after fracture, by inference
# (plastic.uniform_strain). Bolts that FHWA's test turns past that half come back whole
# (tests/mechanics/test_yielding_structural.py); past all of it the class promises nothing.
PARTS_SHARE = 2.0
# A tightening that uses less of the strain than this is not counted.
MANY = 0.05
MAY_PART = ", and it may neck or part before the end"


@rule(
    "angle-too-far",
    Severity.STOP,
    source=YIELDING,
    fires="M10x1.25 10.9 30 N.m + 900 deg",
    passes="M10x1.25 10.9 30 N.m + 90 deg",
)
def angle_too_far(case: Case) -> Iterator[Remark]:
    """Is the angle more than the bolt can stretch?

    Why
    ---
    Once snug, every turn stretches the bolt by its pitch; past the uniform strain that its
    class guarantees it may neck, past the whole elongation after fracture it parts.

    Mend
    ----
    Look the angle up again. A degree sign read as a zero makes 900 of 90°.

    Known gaps
    ----------
    Uniform strain is taken as half of the elongation after fracture; twice of it is a stop,
    less is asked about. A reduced shank is
    not known and stretches further than a plain one. Where no class or no elongation is
    stated only more than a whole turn is asked about.
    """
    angle, turned, severity = case.angle_deg, case.turned, _too_far(case)
    if angle is None or severity is None:
        return
    degrees = angle.nominal
    told = f", {degrees / 360:.2g} turns" if degrees > MOST_ANGLE_DEG else ""
    if turned is not None:
        used = turned.strain_share
        told += (
            f", uses {say.percent(used.nominal)} ({100 * used.low:.0f} to "
            f"{say.percent(used.high)}) of the strain that its class guarantees"
        )
    zero = degrees / 10 in ANGLES_DEG and _bears(case, degrees / 10)
    hint = f"; {degrees:g} may be {degrees / 10:g}° with its sign read as a zero"
    yield Remark(
        f"{degrees:g}° after snug{told}{hint if zero else ''}",
        numbers={"angle_deg": degrees, **_numbers(turned)},
        instead=f"+ {degrees / 10:g}°" if zero else None,
        severity=severity,
    )


def _bears(case: Case, degrees: float) -> bool:
    """Return whether the bolt stretches by another angle without using up its strain."""
    turned = case.turned_by(Band.exact(degrees))
    return turned is None or turned.strain_share.nominal <= 1


def _too_far(case: Case) -> Severity | None:
    """Return how sure it is that the angle is more than the bolt can stretch.

    A snug torque that is too high itself is reported as such, not blamed on the angle.
    """
    angle, turned = case.angle_deg, case.turned
    if angle is None:
        return None
    if turned is not None and not (case.deviation and case.deviation.over):
        if turned.strain_share.low > PARTS_SHARE:
            return Severity.STOP
        if turned.strain_share.nominal > 1:
            return Severity.ASK
    return Severity.ASK if angle.nominal > MOST_ANGLE_DEG else None


@rule(
    "yields-by-angle",
    Severity.ASK,
    source=YIELDING,
    fires="M10x1.25 10.9 60 N.m + 120 deg friction=oiled clamp_length=30",
    passes="M10x1.25 10.9 60 N.m + 120 deg friction=oiled clamp_length=30 kind=stretch",
    needs=("bolt", "thread", "class", "torque", "elongation"),
)
def yields_by_angle(case: Case) -> Iterator[Remark]:
    """Does an angle take a bolt past yield that is not said to be made for it?

    Why
    ---
    Past yield a bolt stays longer. A stretch bolt is made for that, and counted; a plain
    one is used up.

    Mend
    ----
    Write stretch in the column kind if it is one; renew it next time. Else look up the
    angle again.

    Known gaps
    ----------
    Speaks only where the whole band of friction, clamp length and strength is past yield,
    and where neither the snug torque nor the angle is wrong itself.
    """
    turned = case.turned
    if turned is None or case.is_stretch_bolt or turned.yield_share.low <= 1:
        return
    if _too_far(case) is not None or (case.deviation and case.deviation.over):
        return
    yield Remark(
        f"past yield over the whole band: {say.percent(turned.yield_share.low)} of it or more; "
        f"the bolt stays {say.hundredths(turned.permanent_mm)} mm longer",
        numbers=_numbers(turned),
        instead=None if turned.strain_share.high > 1 else "kind: stretch, if it is made for this",
    )


@rule(
    "stretch-used",
    Severity.NOTE,
    source=YIELDING,
    fires="M10x1.25 10.9 60 N.m + 120 deg friction=oiled clamp_length=30 kind=stretch",
    passes="M10x1.25 10.9 20 N.m + 30 deg friction=oiled clamp_length=60 kind=stretch",
    needs=("bolt", "thread", "class", "torque", "elongation"),
)
def stretch_used(case: Case) -> Iterator[Remark]:
    """How much of a stretch bolt does one tightening use up?

    Why
    ---
    Measured against its free length when new, the bolt tells what it has been through.

    Mend
    ----
    Measure the free length before fitting and note it; renew as the maker says.

    Known gaps
    ----------
    The maker's limit comes first; this one is computed from the class.
    """
    turned = case.turned
    if turned is None or not case.is_stretch_bolt or turned.permanent_mm.high <= 0:
        return
    used = turned.strain_share
    least = int(1 / used.high)
    most = f"{int(1 / used.low)}" if used.low > MANY else "many"
    bears = f"bears {least} of them" if f"{least}" == most else f"bears {least} to {most} of them"
    parts = MAY_PART if used.high > 1 else ""
    yield Remark(
        f"one such tightening leaves it {say.hundredths(turned.permanent_mm)} mm longer and uses "
        f"{100 * used.low:.0f} to {say.percent(used.high)} of its uniform strain; new, it "
        f"{bears}{parts}",
        numbers=_numbers(turned),
    )


@rule(
    "finish-off-scale",
    Severity.ASK,
    source=YIELDING,
    fires="M14x1.5 10.9 80 N.m + 60 deg friction=oiled clamp_length=40 wrench='20-100 N.m'",
    passes="M14x1.5 10.9 80 N.m + 60 deg friction=oiled clamp_length=40 wrench='40-400 N.m'",
    needs=("bolt", "thread", "class", "torque", "wrench", "elongation"),
)
def finish_off_scale(case: Case) -> Iterator[Remark]:
    """Will the torque at the end of the angle pass the range of the wrench?

    Why
    ---
    A wrench turned past its range is damaged, and its reading at the end of the angle is
    the only sign of a stripping or a dry bolt.

    Mend
    ----
    Turn the angle with a larger wrench, or with a bar and a gauge.

    Known gaps
    ----------
    The torque is a band; the rule speaks where its likely value is off the scale.
    """
    turned, wrench = case.turned, case.wrench
    if turned is None or not wrench.named or turned.torque_nm.nominal <= wrench.high_nm:
        return
    unit = case.torque.unit if case.torque else "N.m"
    shows = say.torque_band(turned.torque_nm.low, turned.torque_nm.high, unit)
    yield Remark(
        f"at the end of the angle the wrench will show {shows}, "
        f"{wrench.name} ends at {say.torque(wrench.high_nm, unit)}",
        "wrench",
        numbers=_numbers(turned) | {"high_nm": wrench.high_nm},
    )


def _numbers(turned: TightenedBand | None) -> dict[str, float]:
    if turned is None:
        return {}
    return {
        "strain_share_low": turned.strain_share.low,
        "strain_share_nominal": turned.strain_share.nominal,
        "strain_share_high": turned.strain_share.high,
        "finishing_torque_low_nm": turned.torque_nm.low,
        "finishing_torque_high_nm": turned.torque_nm.high,
    }


FAMILY = (angle_too_far, yields_by_angle, stretch_used, finish_off_scale)
