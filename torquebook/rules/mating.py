"""Family `mating`: what the bolt screws into, presses on and rubs against."""

from __future__ import annotations

import re
from functools import lru_cache
from math import ceil
from typing import TYPE_CHECKING

from torquebook.bands import Band
from torquebook.catalogue.defaults import STAINLESS
from torquebook.findings import Severity
from torquebook.mechanics.mating import basic_pair, least_pair
from torquebook.mechanics.pressure import bearing_pressure, needed_outer_diameter
from torquebook.mechanics.strength import tensile_load
from torquebook.mechanics.stripping import failure_loads, needed_engagement
from torquebook.mechanics.thread_factors import effective_engagement, shear_strength
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule
from torquebook.rules.thread import STRIPS_SHARE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.shelves import Thread
    from torquebook.mechanics.mating import Pair
    from torquebook.rules.basis.case import Case

# Shear over tensile strength of a steel bolt (from memory of VDI 2230-1; errs to the safe side).
BOLT_SHEAR_RATIO = 0.6
# Threads lost at chamfer and run-out, in pitches; fits the printed engagements in
# tests/published/engagement.csv.
LOST_PITCHES = 0.8
WHEEL = re.compile(r"\b(road )?wheel (bolt|nut|stud|screw)s?\b|\bwheels?$", re.IGNORECASE)
ELECTROPLATED = frozenset({"zinc plated", "cadmium plated"})


@rule(
    "threads-strip-first",
    Severity.STOP,
    source="Alexander (1977) as in VDI 2230-1, clause 5.5.5; shear ratio: the material's record",
    fires="M10 12.9 76 N.m friction=oiled into=GK-AlSi9Cu3 engagement=10",
    passes="M10 10.9 60 N.m friction=oiled into=aluminium engagement=20",
    needs=("bolt", "thread", "class", "torque", "into", "engagement"),
)
def threads_strip_first(case: Case) -> Iterator[Remark]:
    """Does the thread in the part strip before the bolt carries its preload?

    Why
    ---
    A stripped thread in a casting is found when the torque stops rising; then the casting
    needs an insert.

    Mend
    ----
    More engagement, a coil insert, or less torque.

    Known gaps
    ----------
    Where the grade is not stated, the band of its kind is taken. A coil insert is
    not seen.
    """
    thread, strength, material = case.thread, case.strength, case.fastener.material
    preload, engaged = case.final_preload_n, case.line.engagement_mm
    if thread is None or strength is None or material is None or engaged is None:
        return
    if preload is None or material.tensile_mpa is None or material.shear_ratio is None:
        return
    strips = _strips_n(
        thread, strength.tensile_mpa, engaged, material.tensile_mpa, material.shear_ratio
    )
    low, nominal, high = strips
    severity = Severity.STOP if high < preload.low else Severity.ASK
    if nominal >= preload.nominal and low >= preload.low:
        return
    needed = case.needed_engagement_mm or 0.0
    if engaged.high < STRIPS_SHARE * needed or (severity is Severity.ASK and engaged.low < needed):
        return  # engagement-short says so
    basic, least = _pairs(thread.d_mm, thread.pitch_mm)
    bolt_mpa = shear_strength(strength.tensile_mpa, BOLT_SHEAR_RATIO)
    part = material.tensile_mpa.scaled(material.shear_ratio)
    holds = max(
        needed_engagement(basic, preload.nominal, bolt_mpa, part.nominal).needed_mm,
        needed_engagement(least, preload.low, bolt_mpa, part.low).needed_mm,
    )
    yield Remark(
        f"{engaged.nominal:g} mm in {material.name} strips at {say.kilonewtons(low)} to "
        f"{say.kilonewtons(high)}; the preload is {say.kilonewtons(preload.low)} to "
        f"{say.kilonewtons(preload.high)}",
        "engagement",
        numbers={"strips_low_n": low, "strips_nominal_n": nominal, "strips_high_n": high},
        instead=_longer(case, max(holds + LOST_PITCHES * thread.pitch_mm, needed)),
        severity=severity,
    )


def _longer(case: Case, needed_mm: float) -> str:
    """Return the engagement that would do, or what else would where the hole is too shallow."""
    depth = case.line.hole_depth_mm
    needed_mm = ceil(10 * needed_mm) / 10
    if depth is not None and needed_mm > depth:
        return f"a coil insert or less torque: {needed_mm:g} mm of thread do not fit the hole"
    return f"{needed_mm:g} mm or more"


@lru_cache(maxsize=1024)
def _strips_n(
    thread: Thread, bolt_mpa: float, engaged_mm: Band, tensile_mpa: Band, ratio: float
) -> Band:
    """Return the load at which the internal thread strips [N].

    Parameters
    ----------
    thread : Thread
    bolt_mpa : float
        Tensile strength of the bolt's class [MPa].
    engaged_mm : Band
        Stated engagement [mm].
    tensile_mpa : Band
        Tensile strength of what the thread is cut into [MPa].
    ratio : float
        Its shear strength as a share of that.
    """
    basic, least = _pairs(thread.d_mm, thread.pitch_mm)
    bolt_n = tensile_load(thread.stress_area_mm2, bolt_mpa)
    bolt_shear = shear_strength(bolt_mpa, BOLT_SHEAR_RATIO)

    def strips_n(pair: Pair, engaged: float, tensile: float) -> float:
        length = effective_engagement(engaged, thread.pitch_mm, LOST_PITCHES)
        shear = shear_strength(tensile, ratio)
        return failure_loads(pair, length, bolt_n, bolt_shear, shear).internal_n

    pairs = (least, basic, basic)
    return Band(*map(strips_n, pairs, engaged_mm, tensile_mpa))


@lru_cache(maxsize=256)
def _pairs(d_mm: float, pitch_mm: float) -> tuple[Pair, Pair]:
    """Return bolt and nut thread with basic and with least material."""
    return basic_pair(d_mm, pitch_mm), least_pair(d_mm, pitch_mm)


@rule(
    "seat-crushed",
    Severity.ASK,
    source="VDI 2230-1:2003, limiting surface pressures; the material's record",
    fires="M10 10.9 68 N.m friction=oiled head=socket under=magnesium",
    passes="M10 8.8 30 N.m friction=oiled head=flange under=aluminium",
    needs=("bolt", "thread", "torque", "head", "under"),
)
def seat_crushed(case: Case) -> Iterator[Remark]:
    """Does the head press harder than the part under it bears?

    Why
    ---
    A seat that is crushed goes on settling, and the clamp goes with it.

    Mend
    ----
    A hardened washer of the diameter that the message gives, or a flange head.

    Known gaps
    ----------
    A wheel's bolts and nuts sit in cones or balls and get no washer, so nothing is said of
    them. For a part whose grade is not stated, the middle of its kind's band is taken. Needs a
    metric head that a table has.
    """
    under, seat, preload = case.fastener.under, case.fastener.seat_mm, case.final_preload_n
    if under is None or seat is None or preload is None or under.pressure_mpa is None:
        return
    if WHEEL.search(case.line.text("joint")):
        return
    outer, inner = seat
    pressure, limit = bearing_pressure(preload.nominal, outer, inner), under.pressure_mpa
    if pressure > limit.nominal:
        washer = needed_outer_diameter(preload.nominal, inner, limit.nominal)
        bears = " to ".join(dict.fromkeys((f"{limit.low:.0f}", f"{limit.high:.0f}")))
        yield Remark(
            f"{pressure:.0f} MPa under the head; {under.name} bears {bears} MPa",
            "under",
            numbers={"pressure_mpa": pressure, "limit_mpa": limit.nominal},
            instead=f"a hard washer of {washer:.1f} mm or more, for {limit.nominal:.0f} MPa",
            severity=Severity.ASK if pressure > limit.high else Severity.NOTE,
        )


@rule(
    "pair-galls",
    Severity.ASK,
    source="common practice",
    fires="M10 A2-70 45 N.m friction=dry nut=A2-70",
    passes="M10 A2-70 25 N.m friction='stainless with paste' nut=A2-70",
    needs=("thread", "class"),
)
def pair_galls(case: Case) -> Iterator[Remark]:
    """Does stainless run dry on stainless?

    Why
    ---
    The threads weld to each other under load, the torque rises and the clamp does not.

    Mend
    ----
    A paste made for it, and a slow hand.

    Known gaps
    ----------
    The nut must be named by its steel, such as A2-70, or the part as stainless steel.
    """
    nut, material = case.line.text("nut").casefold(), case.fastener.material
    mate = nut[:2] in {"a1", "a2", "a4"} or (material and material.name == "stainless steel")
    said = case.line.text("friction")
    stainless = case.strength is not None and case.strength.standard == STAINLESS
    if stainless and mate and not case.friction.lubricated:
        yield Remark(
            "stainless on stainless without a paste galls" + ("" if said else "; none is stated"),
            "friction",
            instead="a paste, and the torque for it, which is far less",
            severity=Severity.ASK if said else Severity.NOTE,
        )


@rule(
    "brittle-plating",
    Severity.ASK,
    source="ISO 4042:1999, clause 6",
    fires="M10 12.9 60 N.m friction='zinc plated'",
    passes="M10 10.9 60 N.m friction='zinc plated'",
    needs=("thread", "class", "friction"),
)
def brittle_plating(case: Case) -> Iterator[Remark]:
    """Is a bolt of class 12.9 electroplated?

    Why
    ---
    Hydrogen from the bath makes hard steel brittle; it parts hours after tightening.

    Mend
    ----
    A bolt with a zinc-flake coat or plain black, as the maker has it.

    Known gaps
    ----------
    How the coat was put on is not known; a bolt baked after plating may be meant.
    """
    if case.strength and case.strength.name == "12.9" and case.friction.name in ELECTROPLATED:
        yield Remark("class 12.9 and electroplated: it may part long after tightening", "class")


@rule(
    "steel-in-magnesium",
    Severity.ASK,
    source="common practice",
    fires="M8 8.8 15 N.m into=magnesium engagement=20",
    passes="M8 8.8 15 N.m into=aluminium engagement=20",
    needs=("bolt", "thread", "into"),
)
def steel_in_magnesium(case: Case) -> Iterator[Remark]:
    """Does a steel bolt go into magnesium?

    Why
    ---
    The two corrode each other wherever it is damp; aluminium bolts are made for it, and
    are used once.

    Mend
    ----
    The maker's bolt, mostly of aluminium, torque and angle by the maker.

    Known gaps
    ----------
    Coated steel bolts for magnesium exist; their maker says so.
    """
    material = case.fastener.material
    if material is not None and material.name == "magnesium":
        yield Remark("a steel bolt corrodes in magnesium, and the magnesium with it", "into")


FAMILY = (
    threads_strip_first,
    seat_crushed,
    pair_galls,
    brittle_plating,
    steel_in_magnesium,
)
