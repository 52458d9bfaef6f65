"""What strips first, against printed lengths of engagement and the standard's nuts.

Ratios τ_B / R_m: steel 0.6 and aluminium 0.7 (the latter printed beside the M8 example),
grey iron 1.0, the middle of 0.9 to 1.1. Chamfers take 0.8 P. Bolts have their class's least
strength and threads the least overlap that 6g/6H allow, unless a test says otherwise.
"""

from __future__ import annotations

from math import inf, nan
from statistics import mean
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics.mating import Pair, basic_pair, coil_hole_diameter, least_pair
from torquebook.mechanics.strength import proof_load, tensile_load
from torquebook.mechanics.stripping import failure_loads, needed_engagement
from torquebook.mechanics.thread import stress_area
from torquebook.mechanics.thread_factors import dilation_factor, effective_engagement

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]
Rows = list[Row]
Properties = dict[tuple[str, str], float]

STEEL, IRON, ALUMINIUM = 0.6, 1.0, 0.7
RATIO = {"S": STEEL, "E": STEEL, "C": STEEL, "G": IRON, "A": ALUMINIUM}
LOST = 0.8
THREADS = {
    "coarse": ((6, 1), (8, 1.25), (10, 1.5), (12, 1.75), (16, 2)),
    "fine": ((8, 1), (10, 1.25), (12, 1.25), (14, 1.5), (16, 1.5)),
}
# computed over printed, in %, mean of M6 to M16: the model is never 15 % off the trials
OFF = {
    ("S235", "coarse"): (11, 8, 12),
    ("S235", "fine"): (-7, 3),
    ("E285", "coarse"): (-1, 6, -2),
    ("E285", "fine"): (-7, -8),
    ("C45", "coarse"): (-11, -10, -13),
    ("C45", "fine"): (-9, -8),
    ("GJL-250", "coarse"): (9, 7, 10),
    ("GJL-250", "fine"): (-9, 1),
    ("Al 99.5", "coarse"): (-8, -6),
}


def _times_d(d_mm: float, pitch_mm: float, bolt_mpa: float, hole_mpa: float) -> float:
    """Return the engagement that lasts until the bolt breaks, chamfers included, in d."""
    load = tensile_load(stress_area(d_mm, pitch_mm), bolt_mpa)
    pair = least_pair(d_mm, pitch_mm)
    needed = needed_engagement(pair, load, STEEL * bolt_mpa, hole_mpa).needed_mm
    return (needed + LOST * pitch_mm) / d_mm


def _least(properties: Properties, group: str) -> float:
    return properties["Rm_min_MPa", "8.8 d<=16" if group == "8.8" else group]


@pytest.mark.published("engagement.csv", {"kind": "trial"}, 22)
def test_engagement_of_trials(printed: Row, properties: Properties) -> None:
    """Each printed length of engagement comes out within 15 %, by as much as ``OFF`` shows."""
    bolt, hole = _least(properties, printed["class"]), float(printed["tensile_mpa"])
    shear = RATIO[printed["material"][0]] * hole
    computed = [_times_d(*thread, bolt, shear) for thread in THREADS[printed["thread"]]]
    value = float(printed["value"])
    assert computed == pytest.approx([value] * 5, rel=0.15)
    row = OFF[printed["material"].partition(",")[0], printed["thread"]]
    off = row[("8.8", "10.9", "12.9").index(printed["class"])]
    assert 100 * (mean(computed) / value - 1) == pytest.approx(off, abs=0.75)


@pytest.mark.published("engagement.csv", {"kind": "worked example"}, 1)
def test_handbook_example(printed: Row) -> None:
    """M10 in soft aluminium: the printed 21.6 mm, with the printed diameters and strengths.

    They include the largest d of 6g where the smallest is meant, by which the hole needs
    24.9 mm. The bolt is so much stronger that bending changes nothing.
    """
    slip = Pair(1.5, 9.968, 8.862, 9.206, 8.676)
    load = 1200 * 58
    assert load == 69600
    assert needed_engagement(slip, load, STEEL * 1200, 130).internal_mm == pytest.approx(
        float(printed["value"]), abs=0.0501
    )
    right = needed_engagement(slip._replace(d_mm=9.732), load, STEEL * 1200, 130)
    assert right.internal_mm == pytest.approx(24.9, abs=0.05)


@pytest.mark.published("engagement.csv", {"kind": ("plain", "coil insert")}, 2)
def test_m8_in_aluminium(printed: Row, properties: Properties) -> None:
    """M8, 10.9, in the weakest of the named aluminium, plain and with a coil insert.

    Printed 2 d and 1.5 d. From the least 10.9 (1040 MPa) to the strongest that the handbook
    of the example above allows for (1200 MPa): 1.73 to 1.98 d plain, 13 to 1 % less than
    printed, and 1.46 to 1.66 d with the insert, 3 % less to 11 % more.
    """
    insert = printed["kind"] == "coil insert"
    pair = least_pair(coil_hole_diameter(8, 1.25) if insert else 8, 1.25)
    area = stress_area(8, 1.25)
    low, high = (
        needed_engagement(pair, area * bolt, STEEL * bolt, ALUMINIUM * 250).needed_mm / 8 + 0.125
        for bolt in (_least(properties, printed["class"]), 1200)
    )
    expected = (1.46, 1.66) if insert else (1.73, 1.98)
    assert (low, high) == pytest.approx(expected, abs=0.006)
    assert high == pytest.approx(float(printed["value"]), rel=0.12)


RULES = {  # least tensile strength of the material, VDI 2230-1:2003 table of pressures
    "steel": ("St 52-3 (S355JO)", STEEL, 4),
    "aluminium": ("AlMgSi1 F28", ALUMINIUM, 5),
    "cast iron": ("GJL-250", IRON, -4),
}


@pytest.mark.published(
    "engagement.csv",
    {
        "kind": "rule",
        "value": ("1.0", "1.25", "1.5"),
        "confidence": ("one-source", "common practice"),
    },
    3,
)
def test_rules_of_the_trade(
    printed: Row, properties: Properties, published: Callable[[str], Rows]
) -> None:
    """Steel 1 d, iron 1.25 d, aluminium 1.5 d: enough for 8.8, and even for about 10.9.

    For M8 to M12, 10.9, the model wants 4 % more, 4 % less and 5 % more than the rules.
    """
    name, ratio, off = RULES[printed["material"]]
    row = next(row for row in published("friction_and_scatter.csv") if row["item"] == name)
    hole = ratio * float(row["detail"].split()[2])
    rule = float(printed["value"])
    for group, holds in (("8.8", True), ("12.9", False)):
        wanted = [
            _times_d(*thread, _least(properties, group), hole) for thread in THREADS["coarse"]
        ]
        assert all((times < rule) is holds for times in wanted), group
    wanted = [_times_d(*thread, _least(properties, "10.9"), hole) for thread in THREADS["coarse"]]
    assert 100 * (mean(wanted[1:4]) / rule - 1) == pytest.approx(off, abs=0.75)


@pytest.mark.published("engagement.csv", {"kind": "rule", "value": "2.0"}, 1)
def test_rule_with_less_torque(
    printed: Row, properties: Properties, published: Callable[[str], Rows]
) -> None:
    """2 d with the torque cut by 30 %: in the weakest casting 2 d needs that cut at 10.9."""
    row = next(row for row in published("friction_and_scatter.csv") if "GK-AlSi9Cu3" in row["item"])
    hole, bolt = ALUMINIUM * float(row["detail"].split()[2]), _least(properties, "10.9")
    for d_mm, pitch_mm in THREADS["coarse"]:
        full = _times_d(d_mm, pitch_mm, bolt, hole)
        carried = (full - LOST * pitch_mm / d_mm) * 0.7 + LOST * pitch_mm / d_mm
        assert carried < float(printed["value"]) < full


PAIRS = (("5", "5.8"), ("6", "6.8"), ("8", "8.8"), ("10", "10.9"), ("12", "12.9"))


@pytest.mark.parametrize(("nut", "bolt"), PAIRS)
def test_iso_898_2_pairs(
    nut: str,
    bolt: str,
    published: Callable[[str], Rows],
    properties: Properties,
    coarse_pitches: dict[float, float],
) -> None:
    """A nut of the paired class holds more than the bolt's proof load, in every printed size."""
    rows = [
        row
        for row in published("iso898_2_nuts.csv")
        if (row["quantity"], row["nut_class"], row["style"]) == ("proof_load_N", nut, "1")
    ]
    assert len(rows) >= 10
    for row in rows:
        d_mm = float(row["thread"].lstrip("M"))
        group = bolt if bolt != "8.8" else "8.8 d<=16" if d_mm <= 16 else "8.8 d>16"
        load = proof_load(stress_area(d_mm, coarse_pitches[d_mm]), properties["Sp_nom_MPa", group])
        assert float(row["value"]) > load, row["thread"]


MANDREL_MPA = 1440  # about 45 HRC: the test mandrel of ISO 898-2 must be hardened
# M14 is left out: its width across flats is printed two ways
SMALL = ("M3", "M3.5", "M4")
LARGE = ("M5", "M6", "M8", "M10", "M12", "M16", "M18", "M20", "M22", "M24", "M27", "M30", "M36")


def _nut(thread: str, published: Callable[[str], Rows]) -> tuple[float, float, float, float]:
    """Return d, P, height and width across flats of an ISO 4032 nut."""
    rows = [row for row in published("iso_threads.csv") if row["thread"] == thread]
    values = {
        row["quantity"]: row for row in rows if row["standard"].startswith(("ISO 4032", "ISO 262"))
    }
    height, across = values["nut_height_max_mm"], values["nut_AF_mm"]
    pitch = float(height["pitch_mm"])
    return float(height["d_mm"]), pitch, float(height["value"]), float(across["value"])


def _least_shear(pair: Pair, length: float, load: float, dilation: float) -> float:
    """Return the shear strength at which a nut just holds a load on the test mandrel."""
    low, high = 10.0, 2000.0
    for _ in range(50):
        middle = (low + high) / 2
        held = failure_loads(pair, length, load, STEEL * MANDREL_MPA, middle, dilation).internal_n
        low, high = (low, middle) if held > load else (middle, high)
    return high


@pytest.mark.parametrize(("nut", "bolt"), [("8", "8.8"), ("10", "10.9")])
def test_iso_4032_heights_match_iso_898_2_loads(
    nut: str, bolt: str, published: Callable[[str], Rows], properties: Properties
) -> None:
    """Printed nut heights and proof loads fit one strength, and the bolt breaks about as soon.

    By the model, the material that just holds the printed proof load is alike within 8 %
    from M5 to M36, though heights run from 0.84 to 0.94 d: they were set by it. With such
    a nut, the weakest that passes, and threads of the basic profile, the bolt breaks first
    in all sizes, by 8 to 30 %. With the least overlap of 6g/6H as well, a thread strips
    first in all: at 90 to 97 % of the bolt's breaking load, M3 to M4 at 83 to 89 %.
    """
    loads = {
        row["thread"]: float(row["value"])
        for row in published("iso898_2_nuts.csv")
        if (row["quantity"], row["nut_class"], row["edition"]) == ("proof_load_N", nut, "1992")
    }
    strengths = []
    for thread in SMALL + LARGE:
        d_mm, pitch_mm, height, across = _nut(thread, published)
        least, dilation = least_pair(d_mm, pitch_mm), dilation_factor(across, d_mm)
        length = effective_engagement(height, pitch_mm, LOST)
        shear = _least_shear(least, length, loads[thread], dilation)
        if thread in LARGE:
            strengths.append(shear)
        group = bolt if bolt != "8.8" else "8.8 d<=16" if d_mm <= 16 else "8.8 d>16"
        rm = properties["Rm_min_MPa", group]
        breaking = tensile_load(stress_area(d_mm, pitch_mm), rm)
        basic = basic_pair(d_mm, pitch_mm)
        usual = failure_loads(basic, length, breaking, STEEL * rm, shear, dilation)
        assert usual.first == "bolt"
        assert 1.08 < min(usual.external_n, usual.internal_n) / breaking < 1.30, thread
        worst = failure_loads(least, length, breaking, STEEL * rm, shear, dilation)
        assert worst.first != "bolt"
        low, high = (0.90, 0.97) if thread in LARGE else (0.83, 0.89)
        assert low < min(worst.external_n, worst.internal_n) / breaking < high, thread
    assert strengths == pytest.approx([mean(strengths)] * len(LARGE), rel=0.08)


def test_first_to_fail() -> None:
    """Whichever of the three is least is named, and the bolt where it is even."""
    pair = basic_pair(10, 1.5)

    def first(length: float, load: float, bolt: float, hole: float) -> str:
        return failure_loads(pair, length, load, bolt, hole).first

    assert first(10, 1000, 480, 480) == "bolt"
    assert first(10, 1e6, 480, 100) == "internal thread"
    assert first(10, 1e6, 100, 480) == "external thread"
    even = failure_loads(pair, 10, 1e6, 480, 480)
    assert first(10, min(even.external_n, even.internal_n), 480, 480) == "bolt"
    assert first(0, 1000, 480, 480) == "internal thread"


@given(d_mm=st.sampled_from([6, 8, 10, 12, 16]), hole=st.floats(50, 900), bolt=st.floats(240, 750))
def test_needed_engagement_is_where_the_thread_is_even(d_mm: int, hole: float, bolt: float) -> None:
    """At the needed length each thread strips at just the load, in a thick wall and a thin."""
    pitch_mm = dict(THREADS["coarse"])[d_mm]
    pair, load = least_pair(d_mm, pitch_mm), 1000.0 * d_mm
    for dilation in (1.0, 0.8):
        needed = needed_engagement(pair, load, bolt, hole, dilation)
        at = failure_loads(pair, needed.external_mm, load, bolt, hole, dilation)
        assert at.external_n == pytest.approx(load)
        at = failure_loads(pair, needed.internal_mm, load, bolt, hole, dilation)
        assert at.internal_n == pytest.approx(load)
        assert needed.needed_mm == max(needed.external_mm, needed.internal_mm)
    thick = needed_engagement(pair, load, bolt, hole)
    assert needed.needed_mm == pytest.approx(thick.needed_mm / 0.8)


@pytest.mark.parametrize("dilation", [0.0, -0.5, 1.001, inf, nan])
def test_no_dilation(dilation: float) -> None:
    """A factor of dilation that is not above 0 and at most 1 is refused."""
    with pytest.raises(OutOfRange, match=r"^dilation = "):
        needed_engagement(basic_pair(10, 1.5), 1000, 480, 300, dilation)


def test_loads_out_of_range() -> None:
    """Loads and lengths outside their range are refused by name; no load needs no length."""
    pair = basic_pair(10, 1.5)
    assert needed_engagement(pair, 0, 480, 300).needed_mm == 0
    with pytest.raises(OutOfRange, match=r"^load_n = "):
        needed_engagement(pair, -1, 480, 300)
    with pytest.raises(OutOfRange, match=r"^breaking_load_n = "):
        failure_loads(pair, 10, 0, 480, 300)
    with pytest.raises(OutOfRange, match=r"^engagement_mm = "):
        failure_loads(pair, -1, 1000, 480, 300)
