"""Assembly preload and torque against the printed tables of VDI 2230-1."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood, OutOfRange
from torquebook.mechanics.bearing import bearing_diameter
from torquebook.mechanics.preload import torque_from_preload
from torquebook.mechanics.stress import Edition, assembly_preload, combined_stress
from torquebook.mechanics.thread import pitch_diameter, stress_diameter

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]
Properties = dict[tuple[str, str], float]

QUANTITY = "quantity(FM_kN|MA_Nm)"
FINE = ("M8", "M10", "M12", "M16", "M18", "M22")
M8 = {"pitch_mm": 1.0, "d2_mm": 7.350, "d0_mm": 7.062}


@pytest.fixture(scope="module")
def faces(published: Callable[[str], list[Row]]) -> dict[str, float]:
    """ISO 4014 and ISO 8765 grade A, least d_w by size, in mm."""
    return {
        row["thread"].partition("x")[0]: float(row["value"])
        for row in published("flange_heads.csv")
        if row["quantity"] == "washer_face_dw_min_mm"
        and row["standard"] in {"ISO 4014 grade A", "ISO 8765 grade A (fine)"}
    }


def _preload(row: Row, properties: Properties, edition: Edition = "2003") -> float:
    d_mm, pitch_mm = float(row["thread"].lstrip("M")), float(row["pitch"])
    group = row["class"]
    if group == "8.8":
        group += " d<=16" if d_mm <= 16 else " d>16"
    return assembly_preload(
        properties["Rp02_min_MPa", group],
        pitch_mm,
        pitch_diameter(d_mm, pitch_mm),
        stress_diameter(d_mm, pitch_mm),
        float(row["mu"]),
        edition=edition,
    )


@pytest.mark.published("vdi2230_fine.csv", {QUANTITY: "FM_kN", "thread": FINE}, 55)
def test_vdi_2230_assembly_preload(printed: Row, properties: Properties) -> None:
    """Each printed preload is met within 0.5 %, which rounding to three figures allows.

    One of the rows is the coarse M12, 8.8 of a supplier's worked example, 41.9 kN.
    """
    computed = _preload(printed, properties) / 1000
    assert computed == pytest.approx(float(printed["value"]), rel=0.005)


@pytest.mark.published("vdi2230_fine.csv", {QUANTITY: "MA_Nm", "thread": FINE}, 54)
def test_vdi_2230_assembly_torque(
    printed: Row,
    properties: Properties,
    faces: dict[str, float],
    hole_medium_mm: dict[float, float],
) -> None:
    """Each printed torque is met within 1.2 %: two figures, and d_w and d_h of the head."""
    d_mm, pitch_mm, mu = (float(printed[key].lstrip("M")) for key in ("thread", "pitch", "mu"))
    bearing_mm = bearing_diameter(faces[printed["thread"]], hole_medium_mm[d_mm])
    d2_mm = pitch_diameter(d_mm, pitch_mm)
    preload_n = _preload(printed, properties)
    computed = torque_from_preload(preload_n, pitch_mm, d2_mm, mu, mu, bearing_mm)
    assert computed == pytest.approx(float(printed["value"]), rel=0.012)


@pytest.mark.published("vdi2230_fine.csv", {QUANTITY: "FM_kN", "thread": FINE}, 55)
def test_vdi_2230_old_edition_is_another_table(printed: Row, properties: Properties) -> None:
    """The edition of 1986 allows 4 to 9 % less preload, and meets no cell of the new table."""
    old = _preload(printed, properties, edition="1986") / 1000
    assert 0.91 < old / float(printed["value"]) < 0.965


@pytest.mark.published(
    "vdi2230_fine.csv",
    {QUANTITY: "FM_kN", "thread": "M1.6", "class": ("8.8", "10.9", "12.9")},
    9,
)
def test_m1_6_rests_on_other_data(printed: Row, properties: Properties) -> None:
    """The printed M1.6 table is 2 to 8 % below the formula, so it gates nothing.

    Its classes stand to each other as the nominal, not the least yield strengths, and even
    with these the formula is 2 to 3 % above it.
    """
    computed = _preload(printed, {**properties, ("Rp02_min_MPa", "8.8 d<=16"): 640.0}) / 1000
    assert 1.02 < computed / float(printed["value"]) < 1.08


@pytest.mark.parametrize(("edition", "modulus"), [("1986", 16), ("2003", 12)])
def test_stresses_by_hand(edition: Edition, modulus: int) -> None:
    """Tension is F / A, torsion M_G / W with W = π d0³ / 16 or / 12, and both add as von Mises."""
    pi = 3.141592653589793
    stress = combined_stress(20700, mu_thread=0.10, edition=edition, **M8)
    area = pi / 4 * 7.062**2
    thread_nmm = 20700 * (1 / (2 * pi) + 7.350 / 2 * 0.10 / (3**0.5 / 2))
    assert stress.tension_mpa == pytest.approx(20700 / area)
    assert stress.torsion_mpa == pytest.approx(thread_nmm / (pi * 7.062**3 / modulus))
    assert stress.combined_mpa**2 == pytest.approx(
        stress.tension_mpa**2 + 3 * stress.torsion_mpa**2
    )


def test_no_preload_no_stress() -> None:
    """Without preload there is no stress."""
    assert combined_stress(0, mu_thread=0.10, **M8) == (0, 0, 0)


@given(
    yield_mpa=st.floats(100, 2000),
    share=st.floats(0.01, 1),
    mu_thread=st.floats(0, 1),
    edition=st.sampled_from(["1986", "2003"]),
)
def test_stress_at_the_assembly_preload(
    yield_mpa: float, share: float, mu_thread: float, edition: Edition
) -> None:
    """At the assembly preload the combined stress is the asked share of the yield strength."""
    force = assembly_preload(yield_mpa, mu_thread=mu_thread, share=share, edition=edition, **M8)
    stress = combined_stress(force, mu_thread=mu_thread, edition=edition, **M8)
    assert stress.combined_mpa == pytest.approx(share * yield_mpa)


@given(mu_thread=st.floats(0, 0.99), share=st.floats(0.01, 0.99))
def test_assembly_preload_is_monotone(mu_thread: float, share: float) -> None:
    """More friction allows less preload, a larger share allows more."""
    here = assembly_preload(640, mu_thread=mu_thread, share=share, **M8)
    assert assembly_preload(640, mu_thread=mu_thread + 0.01, share=share, **M8) < here
    assert assembly_preload(640, mu_thread=mu_thread, share=share + 0.01, **M8) > here


def test_edition_is_one_of_two() -> None:
    """An edition that is none of the two is refused, and both are named."""
    with pytest.raises(NotUnderstood, match=r'"1999".*write 1986 or 2003'):
        assembly_preload(640, mu_thread=0.1, edition="1999", **M8)  # type: ignore[arg-type]
    with pytest.raises(NotUnderstood, match=r'"".*1986'):
        combined_stress(20700, mu_thread=0.1, edition="", **M8)  # type: ignore[arg-type]


@pytest.mark.parametrize("share", [-0.1, 0.0, 1.000001, float("inf"), float("nan")])
def test_share_out_of_range(share: float) -> None:
    """A share that is not above 0 and up to 1 is refused."""
    with pytest.raises(OutOfRange, match=r"^share = "):
        assembly_preload(640, mu_thread=0.1, share=share, **M8)


def test_share_at_its_ends() -> None:
    """The whole yield strength may be used, and the least share above 0."""
    whole = assembly_preload(640, mu_thread=0.1, share=1, **M8)
    assert whole == pytest.approx(assembly_preload(640, mu_thread=0.1, **M8) / 0.9)
    assert assembly_preload(640, mu_thread=0.1, share=1e-9, **M8) > 0


@pytest.mark.parametrize("name", ["yield_mpa", "pitch_mm", "d2_mm", "d0_mm", "mu_thread"])
@pytest.mark.parametrize("value", [-1e-9, float("inf"), float("nan")])
def test_out_of_range(name: str, value: float) -> None:
    """Each argument is held to its range by its own name."""
    good = {"yield_mpa": 640.0, "mu_thread": 0.1, **M8}
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        assembly_preload(**good | {name: value})
    if name != "mu_thread":
        with pytest.raises(OutOfRange, match=f"^{name} = "):
            assembly_preload(**good | {name: 0.0})
    with pytest.raises(OutOfRange, match=r"^preload_n = "):
        combined_stress(value, mu_thread=0.1, **M8)
