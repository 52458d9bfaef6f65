"""Torque and preload against VDI 2230-1, Machinery's Handbook and worked examples."""

from __future__ import annotations

from statistics import fmean
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics import preload
from torquebook.mechanics.bearing import bearing_diameter_ring
from torquebook.mechanics.thread import pitch_diameter

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

NEWTON_PER_LBF = 4.4482216152605  # exact
NM_PER_LBF_IN = NEWTON_PER_LBF * 0.0254  # exact
M10 = {"pitch_mm": 1.5, "d2_mm": 9.026, "bearing_mm": 13.0}


# Sizes of the first series of ISO 262 from M4 to M36: the table is "an average of M4 to
# M36", and only these reproduce it.
MEAN_SIZES = (4, 5, 6, 8, 10, 12, 16, 20, 24, 30, 36)
# The bearing face is chamfered: 0.95 × across flats found by fit, all else is printed.
CHAMFER = 0.95


@pytest.fixture(scope="module")
def hex_faces(
    hole_medium_mm: dict[float, float],
    published: Callable[[str], list[Row]],
) -> dict[float, float]:
    """Effective diameter of the hexagon's face by size, at even pressure on the ring."""
    flats = {
        float(row["d_mm"]): float(row["value"])
        for row in published("iso_threads.csv")
        if row["quantity"] == "hex_AF_mm" and row["standard"].startswith("ISO 4014")
    }
    return {
        d_mm: bearing_diameter_ring(CHAMFER * flats[d_mm], hole_medium_mm[d_mm])
        for d_mm in MEAN_SIZES
    }


@pytest.mark.published("friction_and_scatter.csv", {"kind": "K_from_mu"}, 100)
def test_handbook_nut_factors(
    printed: Row, hex_faces: dict[float, float], coarse_pitches: dict[float, float]
) -> None:
    """Each cell of Machinery's Handbook, 31st ed., table 3, p. 1662 is met within 0.001.

    Three decimals are printed, so rounding alone takes 0.0005.
    """
    mu_thread, mu_head = (float(part.partition("=")[2]) for part in printed["item"].split())
    factors = []
    for d_mm, face_mm in hex_faces.items():
        pitch_mm = coarse_pitches[d_mm]
        d2_mm = pitch_diameter(d_mm, pitch_mm)
        factors.append(preload.nut_factor(d_mm, pitch_mm, d2_mm, mu_thread, mu_head, face_mm))
    assert fmean(factors) == pytest.approx(float(printed["value"]), abs=0.001)


@pytest.mark.parametrize(
    ("k", "printed_lbf_in"),
    [(0.30, 72.7), (0.25, 60.6), (0.20, 48.5), (0.15, 36.3), (0.10, 24.2)],
    ids=lambda value: f"Mechanical Fastening, Joining and Assembly p. 85 {value}",
)
def test_nut_factor_worked_example(k: float, printed_lbf_in: float) -> None:
    """0.190 in and 1275 lbf give each printed torque, and each torque gives the preload back.

    Torques are printed to 0.1 lbf·in, half of which is 0.2 % of the smallest.
    """
    d_mm = 0.190 * 25.4
    torque = preload.torque_from_nut_factor(1275 * NEWTON_PER_LBF, d_mm, k)
    assert torque / NM_PER_LBF_IN == pytest.approx(printed_lbf_in, abs=0.0501)
    back = preload.preload_from_nut_factor(printed_lbf_in * NM_PER_LBF_IN, d_mm, k)
    assert back / NEWTON_PER_LBF == pytest.approx(1275, rel=0.0025)


def test_torque_is_the_sum_of_three_shares() -> None:
    """Lift, friction in the thread and friction under the head add up to the torque."""
    lift = preload.thread_torque(30000, 1.5, 9.026, 0)
    thread = preload.thread_torque(30000, 1.5, 9.026, 0.12)
    whole = preload.torque_from_preload(30000, mu_thread=0.12, mu_head=0.10, **M10)
    # VDI 2230-1 prints the factors 0.159 and 0.577
    assert lift == pytest.approx(30 * 0.159 * 1.5, rel=0.002)
    assert thread - lift == pytest.approx(30 * 0.577 * 9.026 * 0.12, rel=0.001)
    assert whole - thread == pytest.approx(30 * 13.0 / 2 * 0.10)


def test_nothing_gives_nothing() -> None:
    """No torque gives no preload and the other way round."""
    friction = {"mu_thread": 0.12, "mu_head": 0.12}
    assert preload.preload_from_torque(0, **friction, **M10) == 0
    assert preload.torque_from_preload(0, **friction, **M10) == 0
    assert preload.thread_torque(0, 1.5, 9.026, 0.12) == 0
    assert preload.preload_from_nut_factor(0, 10, 0.2) == 0
    assert preload.torque_from_nut_factor(0, 10, 0.2) == 0


GOOD = {
    "preload_n": 30000.0,
    "torque_nm": 50.0,
    "d_mm": 10.0,
    "pitch_mm": 1.5,
    "d2_mm": 9.026,
    "mu_thread": 0.12,
    "mu_head": 0.12,
    "bearing_mm": 13.0,
    "k": 0.2,
}
FRICTION = ("mu_thread", "mu_head")
LOAD = ("preload_n", "torque_nm")
ARGUMENTS = {
    preload.thread_torque: ("preload_n", "pitch_mm", "d2_mm", "mu_thread"),
    preload.torque_from_preload: ("preload_n", "pitch_mm", "d2_mm", *FRICTION, "bearing_mm"),
    preload.preload_from_torque: ("torque_nm", "pitch_mm", "d2_mm", *FRICTION, "bearing_mm"),
    preload.nut_factor: ("d_mm", "pitch_mm", "d2_mm", *FRICTION, "bearing_mm"),
    preload.torque_from_nut_factor: ("preload_n", "d_mm", "k"),
    preload.preload_from_nut_factor: ("torque_nm", "d_mm", "k"),
}


@pytest.mark.parametrize(
    ("formula", "name"), [(formula, name) for formula, names in ARGUMENTS.items() for name in names]
)
def test_out_of_range(formula: Callable[..., float], name: str) -> None:
    """Each argument is held to its range by its own name: below, at and above the ends."""
    good = {each: GOOD[each] for each in ARGUMENTS[formula]}
    bad = [-1e-9, float("inf"), float("nan")]
    bad += [1.000001] if name in FRICTION else [] if name in LOAD else [0.0]
    inside = [0.0, 1.0] if name in FRICTION else [0.0] if name in LOAD else [1e-6]
    for value in bad:
        with pytest.raises(OutOfRange, match=f"^{name} = "):
            formula(**good | {name: value})
    for value in inside:
        assert formula(**good | {name: value}) >= 0


sizes = st.fixed_dictionaries(
    {"pitch_mm": st.floats(0.2, 6), "d2_mm": st.floats(1, 60), "bearing_mm": st.floats(1, 100)}
)
friction = st.floats(0, 1)


@given(sizes=sizes, mu_thread=friction, mu_head=friction, preload_n=st.floats(0, 1e6))
def test_round_trip(
    sizes: dict[str, float], mu_thread: float, mu_head: float, preload_n: float
) -> None:
    """The torque for a preload gives this preload back."""
    torque = preload.torque_from_preload(preload_n, mu_thread=mu_thread, mu_head=mu_head, **sizes)
    back = preload.preload_from_torque(torque, mu_thread=mu_thread, mu_head=mu_head, **sizes)
    assert back == pytest.approx(preload_n, rel=1e-9, abs=1e-300)


@given(d_mm=st.floats(1, 60), k=st.floats(0.01, 2), preload_n=st.floats(0, 1e6))
def test_nut_factor_round_trip(d_mm: float, k: float, preload_n: float) -> None:
    """The torque for a preload by the nut factor gives this preload back."""
    torque = preload.torque_from_nut_factor(preload_n, d_mm, k)
    back = preload.preload_from_nut_factor(torque, d_mm, k)
    assert back == pytest.approx(preload_n, rel=1e-9, abs=1e-300)


@given(sizes=sizes, mu_thread=friction, mu_head=friction, d_mm=st.floats(1, 60))
def test_nut_factor_says_the_same(
    sizes: dict[str, float], mu_thread: float, mu_head: float, d_mm: float
) -> None:
    """By way of the nut factor the torque is the same as by the friction itself."""
    k = preload.nut_factor(d_mm, mu_thread=mu_thread, mu_head=mu_head, **sizes)
    torque = preload.torque_from_preload(30000, mu_thread=mu_thread, mu_head=mu_head, **sizes)
    assert preload.torque_from_nut_factor(30000, d_mm, k) == pytest.approx(torque)


@given(
    sizes=sizes,
    mu_thread=st.floats(0, 0.99),
    mu_head=st.floats(0, 0.99),
    torque_nm=st.floats(0.1, 1000),
)
def test_monotony(
    sizes: dict[str, float], mu_thread: float, mu_head: float, torque_nm: float
) -> None:
    """Preload rises with torque and falls with either friction."""

    def at(torque: float, thread: float, head: float) -> float:
        return preload.preload_from_torque(torque, mu_thread=thread, mu_head=head, **sizes)

    here = at(torque_nm, mu_thread, mu_head)
    assert at(torque_nm * 1.01, mu_thread, mu_head) > here
    assert at(torque_nm, mu_thread + 0.01, mu_head) < here
    assert at(torque_nm, mu_thread, mu_head + 0.01) < here
    assert preload.thread_torque(here, sizes["pitch_mm"], sizes["d2_mm"], mu_thread) <= (
        torque_nm * (1 + 1e-9)
    )
