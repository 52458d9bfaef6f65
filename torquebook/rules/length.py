"""Family `length`: whether the bolt is as long as the parts, the thread and the hole ask."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

# Steel in steel needs one diameter (TB 43-0218, section III), and nothing needs less.
LEAST_ENGAGEMENT_D = 1.0
TOO_SHALLOW = "a deeper hole or an insert: no length fits this one"


def _needed_mm(case: Case) -> float:
    """Return the engagement that the material needs, a diameter where it is not stated."""
    least_mm = LEAST_ENGAGEMENT_D * case.thread.d_mm if case.thread else 0.0
    return least_mm if case.needed_engagement_mm is None else case.needed_engagement_mm


@rule(
    "bolt-bottoms",
    Severity.STOP,
    source="TB 43-0218 section III: one to two pitches free below the tip",
    fires="M8 8.8 20 N.m length=40 clamp_length=22 hole_depth=16",
    passes="M8 8.8 20 N.m length=35 clamp_length=22 hole_depth=18",
    needs=("bolt", "thread", "reach", "hole_depth"),
)
def bolt_bottoms(case: Case) -> Iterator[Remark]:
    """Does the bolt reach the bottom of its hole before it clamps?

    Why
    ---
    The torque is right, and nothing is clamped; the bottom of the casting may be pushed out.

    Mend
    ----
    A shorter bolt; measure the hole before fitting.

    Known gaps
    ----------
    A washer that is not in the clamp length makes the bolt look longer than it is. Where
    only the engagement is stated, one as long as the hole is deep passes: the hole may go
    through.
    """
    line, thread, depth = case.line, case.thread, case.line.hole_depth_mm
    if thread is None or depth is None:
        return
    if line.length_mm is None or line.clamp_length_mm is None:
        yield from _engaged_beyond(case, depth)
        return
    clamp = line.clamp_length_mm
    sure, reach = line.length_mm - clamp.high, line.length_mm - clamp.low
    free = depth - reach
    if free < thread.pitch_mm:
        longest = clamp.low + depth - 2 * thread.pitch_mm
        shortest = clamp.high + _needed_mm(case)
        yield Remark(
            f"the bolt reaches {reach:g} mm into a hole of {depth:g} mm",
            "length",
            numbers={"reach_mm": reach, "hole_depth_mm": depth},
            instead=f"no longer than {longest:.1f} mm" if longest > shortest else TOO_SHALLOW,
            severity=Severity.STOP if sure > depth else Severity.ASK,
        )
    else:
        yield from _engaged_beyond(case, depth)


def _engaged_beyond(case: Case, depth_mm: float) -> Iterator[Remark]:
    """Ask about an engagement longer than its hole is deep: one of the two is wrong."""
    engaged = case.line.engagement_mm
    if engaged is not None and engaged.low > depth_mm:
        yield Remark(
            f"{engaged.low:g} mm of thread cannot engage in a hole of {depth_mm:g} mm: one of the "
            "two is wrong, or the bolt bottoms",
            "engagement",
            numbers={"engagement_mm": engaged.low, "hole_depth_mm": depth_mm},
            severity=Severity.ASK,
        )


@rule(
    "bolt-too-short",
    Severity.STOP,
    source="TB 43-0218 section III; the material's record for others",
    fires="M8 8.8 20 N.m length=28 clamp_length=20 into=aluminium",
    passes="M8 8.8 20 N.m length=35 clamp_length=20 into=aluminium",
    needs=("bolt", "thread", "length", "clamp_length"),
)
def bolt_too_short(case: Case) -> Iterator[Remark]:
    """Is the bolt long enough for what it clamps and for the engagement that it needs?

    Why
    ---
    What is left of the bolt below the parts is all that holds.

    Mend
    ----
    A longer bolt, if the hole is deep enough.

    Known gaps
    ----------
    Without the material that it screws into, only a bolt that ends within the parts is
    seen. Where the engagement itself is stated, engagement-short judges it.
    """
    line, thread, material = case.line, case.thread, case.fastener.material
    clamp = line.clamp_length_mm
    if thread is None or line.length_mm is None or clamp is None:
        return
    reach = line.length_mm - clamp.high
    needed = _needed_mm(case)
    right = f"{clamp.high + needed:g} mm long" if material else None
    depth = line.hole_depth_mm
    spread = clamp.high - clamp.low
    if depth is not None and needed + spread + 2 * thread.pitch_mm > depth:
        right = TOO_SHALLOW
    if reach <= 0:
        yield Remark(
            f"the bolt is {line.length_mm:g} mm long and clamps {clamp.high:g} mm",
            "length",
            numbers={"reach_mm": reach, "needed_mm": needed},
            instead=right,
            severity=Severity.STOP if line.length_mm <= clamp.low else Severity.ASK,
        )
    elif material and line.engagement_mm is None and reach < needed * 0.995:
        yield Remark(
            f"{reach:g} mm reach into {material.name}; it needs {needed:g} mm",
            "length",
            numbers={"reach_mm": reach, "needed_mm": needed},
            instead=right,
            source=material.engagement_source,
            severity=Severity.ASK,
        )


FAMILY = (bolt_bottoms, bolt_too_short)
