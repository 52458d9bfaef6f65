"""Family `thread`: does the thread exist, and do nut and hole match the bolt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue import lookup
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.mechanics.strength import proof_load
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.shelves import NutClass, StrengthClass
    from torquebook.rules.basis.case import Case

# Under half of the engagement that a material needs, its thread strips before the bolt
# carries (inference: thread shear area is proportional to engagement).
STRIPS_SHARE = 0.5


@rule(
    "size-unlisted",
    Severity.ASK,
    source="ISO 261 and ISO 262; ASME B1.1",
    fires="M10x1.3 8.8 40 N.m",
    passes="M10x1.25 8.8 40 N.m",
)
def size_unlisted(case: Case) -> Iterator[Remark]:
    """Does a standard list this size and pitch?

    Why
    ---
    A pitch that nobody cuts is a misprint; forced into the real thread it ruins both.

    Mend
    ----
    Measure with a thread gauge; write one of the sizes that the message offers.

    Known gaps
    ----------
    Pipe threads are no bolts and are left unjudged, with that reason. What is offered is the
    nearest pitch; of another diameter nothing is.
    """
    trouble = case.fastener.troubles.get("thread")
    if trouble is not None and "pipe" not in trouble.what:
        # By number, for by its letters M8x1.3 is nearer to M8x1 than to M8, which is 1.25 mm.
        near = trouble.readings[0] if trouble.what == lookup.NO_PITCH else None
        yield Remark(str(trouble), "thread", instead=near)


@rule(
    "pitch-unsaid",
    Severity.NOTE,
    source="ASME B1.1; ISO 965-1 for metric threads, where coarse is meant if none is stated",
    fires="3/8 SAE 8 35 lbf.ft",
    passes="3/8-16 SAE 8 35 lbf.ft",
    needs=("thread",),
)
def pitch_unsaid(case: Case) -> Iterator[Remark]:
    """Is the pitch of an inch thread stated?

    Why
    ---
    Fine and coarse differ by 6 to 13 % in what they bear.

    Mend
    ----
    State it: 3/8-16 or 3/8-24.

    Known gaps
    ----------
    A metric size without pitch means coarse by the standard.
    """
    threads = case.fastener.threads
    if len(threads) > 1:
        sizes = " or ".join(thread.size for thread in threads)
        areas = [thread.stress_area_mm2 for thread in threads]
        yield Remark(
            f"the pitch is not stated: {sizes}, stress areas {min(areas):.1f} to "
            f"{max(areas):.1f} mm²",
            "thread",
            numbers={"low_mm2": min(areas), "high_mm2": max(areas)},
        )


@rule(
    "nut-weaker",
    Severity.STOP,
    source="ISO 898-2:1992, table of bolt and nut classes that pair, and proof stresses",
    fires="M10 10.9 60 N.m nut=8",
    passes="M10 10.9 60 N.m nut=10",
    needs=("bolt", "thread", "nut"),
)
def nut_weaker(case: Case) -> Iterator[Remark]:
    """Is the nut at least of the bolt's class?

    Why
    ---
    A weaker nut strips before the bolt is tight, and it strips inside, out of sight.

    Mend
    ----
    Take a nut of the class that the message names.

    Known gaps
    ----------
    Nuts outside ISO 898-2 carry their maker's marks.
    """
    nut, strength, thread = case.fastener.nut, case.strength, case.thread
    if nut is None or thread is None:
        return
    nut_n = proof_load(thread.stress_area_mm2, nut.proof_mpa)
    strips = _strips(case, nut_n)
    if strips is None and (strength is None or _serves(case, nut, strength)):
        return
    serves = f"serves bolts up to {nut.pairs_with}" if nut.pairs_with else "carries a reduced load"
    bolt = f"; the bolt is {strength.name}" if strength else ""
    load = f", and the preload passes the nut's proof load {say.kilonewtons(nut_n)}"
    yield Remark(
        f"a nut of class {nut.name} {serves}{bolt}" + (load if strips is not None else ""),
        "nut",
        numbers={"nut_proof_load_n": nut_n},
        instead=f"nut class {strength.name.split('.', maxsplit=1)[0]}" if strength else None,
        severity=Severity.ASK if strips is None else strips,
    )


def _strips(case: Case, nut_n: float) -> Severity | None:
    """Return how sure it is that the preload passes a nut's proof load."""
    preload = case.final_preload_n
    if preload is None or preload.nominal <= nut_n or case.deviation is not None:
        return None  # a torque that is wrong itself is reported as such
    return Severity.STOP if preload.low > nut_n else Severity.ASK


def _serves(case: Case, nut: NutClass, strength: StrengthClass) -> bool:
    """Return whether a nut is paired with bolts at least as strong as this one."""
    if not nut.pairs_with or case.thread is None:
        return False
    try:
        paired = case.book.strength(nut.pairs_with, case.thread.d_mm)
    except NotUnderstood:
        return False
    return paired.proof_mpa >= strength.proof_mpa


@rule(
    "engagement-short",
    Severity.STOP,
    source="TB 43-0218 section III: steel 1.0 d, aluminium 1.5 d; the material's record for others",
    fires="M8 8.8 20 N.m into=aluminium engagement=8",
    passes="M8 8.8 20 N.m into=aluminium engagement=13",
    needs=("bolt", "thread", "into", "engagement"),
)
def engagement_short(case: Case) -> Iterator[Remark]:
    """Does the bolt reach far enough into its thread for the material?

    Why
    ---
    A short thread in a soft casting strips before the bolt is tight.

    Mend
    ----
    Take a longer bolt if the hole is deep enough, or a coil insert.

    Known gaps
    ----------
    A rule of thumb by material; the strength of the very casting is not known.
    """
    material, thread, engagement = case.fastener.material, case.thread, case.line.engagement_mm
    needed = case.needed_engagement_mm
    if material is None or thread is None or engagement is None or needed is None:
        return
    if engagement.low < needed * 0.995:
        share = engagement.low / thread.d_mm
        yield Remark(
            f"{engagement.low:g} mm in {material.name} is {share:.2g} d; it needs "
            f"{material.engagement_d:g} d, {needed:g} mm",
            "engagement",
            numbers={"engagement_mm": engagement.low, "needed_mm": needed},
            instead=f"{needed:g} mm",
            source=material.engagement_source,
            severity=Severity.STOP if engagement.high < STRIPS_SHARE * needed else Severity.ASK,
        )


FAMILY = (size_unlisted, pitch_unsaid, nut_weaker, engagement_short)
