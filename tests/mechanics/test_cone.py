"""Clamped parts: cones and sleeves against VDI 2230-1, Shigley and plain integration."""

from __future__ import annotations

from math import log, pi, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood, OutOfRange
from torquebook.mechanics.cone import Layer, cone_slope, parts_resilience

STEEL = 205000.0
MPA_PER_PSI = 4.4482216152605 / 25.4**2  # exact
N_MM_PER_LBF_IN = 4.4482216152605 / 25.4  # exact
SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed., table 8-12, p. 437"


@pytest.mark.parametrize(
    ("grip_in", "printed"),
    [(2, 12.69), (3, 11.33), (4, 10.63)],
    ids=lambda value: f"{SHIGLEY} {value}",
)
def test_handbook_frusta(grip_in: float, printed: float) -> None:
    """1/2-13 in steel: frusta of 30° give the printed k_m, in Mlbf/in, to half its last digit.

    The table takes a washer face of 1.5 d, a hole of d and plates without end.
    """
    plate = Layer(grip_in * 25.4, 30e6 * MPA_PER_PSI, 1e4)
    delta = parts_resilience((plate,), 0.75 * 25.4, 12.7, tan(pi / 6))
    assert 1 / delta / N_MM_PER_LBF_IN / 1e6 == pytest.approx(printed, abs=0.00501)


def _vdi_closed_form(
    length: float, bearing: float, hole: float, parts: float, slope: float, cones: int
) -> float:
    """δ_P as VDI 2230-1:2003 writes it for cone and sleeve, from memory; w = 2 / cones."""
    w = 2 / cones
    limit = bearing + w * length * slope
    reach = min(parts, limit)
    ratio = (bearing + hole) * (reach - hole) / ((bearing - hole) * (reach + hole))
    cone = 2 / (w * hole * slope) * log(ratio)
    rest = length - (reach - bearing) / (w * slope)
    return (cone + 4 / (parts**2 - hole**2) * rest) / (STEEL * pi)


@pytest.mark.parametrize("parts_outer_mm", [16.001, 20.0, 30.0, 37.0, 60.0, 1e5])
@pytest.mark.parametrize(("joint", "cones"), [("through", 2), ("tapped", 1)])
def test_cone_and_sleeve(joint: str, cones: int, parts_outer_mm: float) -> None:
    """One layer gives the closed form of VDI 2230-1, whether or not the cone meets the edge."""
    delta = parts_resilience((Layer(40, STEEL, parts_outer_mm),), 16, 11, 0.53, joint)
    expected = _vdi_closed_form(40, 16, 11, parts_outer_mm, 0.53, cones)
    assert delta == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("slope", [0.0, 1e-18, 0.5])
def test_sleeve(slope: float) -> None:
    """Parts no wider than the bearing area are a hollow cylinder by Hooke, at any slope."""
    hooke = 40 / STEEL / (pi / 4 * (14**2 - 11**2))
    assert parts_resilience((Layer(40, STEEL, 14),), 16, 11, slope) == pytest.approx(hooke)
    assert parts_resilience((Layer(40, STEEL, 14),), 14, 11, slope) == pytest.approx(hooke)


def test_no_slope_is_a_cylinder() -> None:
    """Without a slope the wide plate carries on the bearing area alone."""
    hooke = 40 / STEEL / (pi / 4 * (16**2 - 11**2))
    assert parts_resilience((Layer(40, STEEL, 99),), 16, 11, 0) == pytest.approx(hooke)
    assert parts_resilience((Layer(40, STEEL, 99),), 16, 11, 1e-18) == pytest.approx(hooke)


layers = st.lists(
    st.builds(Layer, st.floats(0.5, 40), st.floats(4e4, 2.1e5), st.floats(12, 80)),
    min_size=1,
    max_size=4,
).map(tuple)
joints = st.sampled_from(["through", "tapped"])


def _integrated(layers: tuple[Layer, ...], slope: float, joint: str, steps: int = 800) -> float:
    """δ_P by the midpoint rule from its definition, for d_W = 16 mm and d_h = 11 mm."""
    whole = sum(layer.thickness_mm for layer in layers)
    total, start = 0.0, 0.0
    for layer in layers:
        step = layer.thickness_mm / steps
        for count in range(steps):
            way = start + (count + 0.5) * step
            near = min(way, whole - way) if joint == "through" else way
            wide = min(16 + 2 * near * slope, layer.outer_mm)
            total += step / layer.modulus_mpa / (pi / 4 * (wide**2 - 11**2))
        start += layer.thickness_mm
    return total


@settings(max_examples=40, deadline=None)
@given(layers=layers, slope=st.floats(0, 1), joint=joints)
def test_layers_are_integrated(layers: tuple[Layer, ...], slope: float, joint: str) -> None:
    """Layers of any material and width give the integral of the definition."""
    delta = parts_resilience(layers, 16, 11, slope, joint)
    assert delta == pytest.approx(_integrated(layers, slope, joint), rel=2e-3)


@given(layers=layers, slope=st.floats(0, 1))
def test_a_nut_takes_the_stack_either_way(layers: tuple[Layer, ...], slope: float) -> None:
    """With a nut the stack gives alike from either side; with a tapped hole never less."""
    through = parts_resilience(layers, 16, 11, slope)
    assert parts_resilience(layers[::-1], 16, 11, slope) == pytest.approx(through, rel=1e-9)


@given(layer=layers.map(lambda several: several[0]), slope=st.floats(0, 1), joint=joints)
def test_cutting_a_part_changes_nothing(layer: Layer, slope: float, joint: str) -> None:
    """One part and the same part cut in three give alike."""
    third = layer._replace(thickness_mm=layer.thickness_mm / 3)
    whole = parts_resilience((layer,), 16, 11, slope, joint)
    assert parts_resilience((third,) * 3, 16, 11, slope, joint) == pytest.approx(whole, rel=1e-9)


@given(
    length=st.floats(1, 200),
    outer=st.floats(12, 60),
    wider=st.floats(1.1, 3),
    slope=st.floats(0.05, 1),
    joint=joints,
)
def test_monotony(length: float, outer: float, wider: float, slope: float, joint: str) -> None:
    """Parts give more when longer, and no more when wider, steeper or stiffer."""

    def at(length: float, modulus: float, outer: float, slope: float) -> float:
        return parts_resilience((Layer(length, modulus, outer),), 16, 11, slope, joint)

    here = at(length, STEEL, outer, slope)
    assert at(length * 1.1, STEEL, outer, slope) > here
    assert at(length, STEEL * 2, outer, slope) == pytest.approx(here / 2)
    assert at(length, STEEL, outer * wider, slope) <= here * (1 + 1e-12)
    assert at(length, STEEL, outer, slope * 1.1) <= here * (1 + 1e-12)


def test_slope_where_the_logarithms_vanish() -> None:
    """The printed constants stand where β_L is 2 (nut) or 1 (tapped) and y is 1."""
    assert cone_slope(40, 20, 20, "through") == pytest.approx(0.362)
    assert cone_slope(20, 20, 20, "tapped") == pytest.approx(0.348)


def test_slope_by_factors_of_e() -> None:
    """Each logarithm counts with its printed factor; the factors are from memory."""
    e = 2.718281828459045
    assert cone_slope(40 * e, 20, 20) - cone_slope(40, 20, 20) == pytest.approx(0.032)
    assert cone_slope(40, 20, 20 * e) - cone_slope(40, 20, 20) == pytest.approx(0.153)
    tapped = cone_slope(20, 20, 20, "tapped")
    assert cone_slope(20 * e, 20, 20, "tapped") - tapped == pytest.approx(0.013)
    assert cone_slope(20, 20, 20 * e, "tapped") - tapped == pytest.approx(0.193)


@given(length=st.floats(10, 100), outer=st.floats(9, 40), wide=st.floats(1, 4), joint=joints)
def test_slope_is_near_thirty_degrees(length: float, outer: float, wide: float, joint: str) -> None:
    """For joints as vehicles have them the cone stays between 15° and 35°."""
    assert tan(pi / 12) < cone_slope(length, outer, outer * wide, joint) < 0.7


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("clamp_length_mm", 0.0),
        ("clamp_length_mm", float("nan")),
        ("outer_mm", -1.0),
        ("parts_outer_mm", 19.999),
        ("parts_outer_mm", float("inf")),
        ("parts_outer_mm", float("nan")),
    ],
)
def test_slope_out_of_range(name: str, value: float) -> None:
    """Each length is held to its range by its own name."""
    good = {"clamp_length_mm": 40.0, "outer_mm": 20.0, "parts_outer_mm": 40.0}
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        cone_slope(**good | {name: value})


def test_slope_that_vanishes() -> None:
    """Parts so thin that the formula gives no slope are refused."""
    with pytest.raises(OutOfRange, match=r"^slope = -"):
        cone_slope(1e-4, 20, 20)


def test_joint_unknown() -> None:
    """A joint of neither kind is refused with the two that there are."""
    with pytest.raises(NotUnderstood, match="no such joint; write through or tapped"):
        cone_slope(40, 20, 40, "glued")
    with pytest.raises(NotUnderstood, match="no such joint; write through or tapped"):
        parts_resilience((Layer(40, STEEL, 40),), 16, 11, 0.5, "glued")


PLATE = Layer(40.0, STEEL, 60.0)


@pytest.mark.parametrize(
    ("name", "changed"),
    [
        ("outer_mm", {"outer_mm": 0.0}),
        ("inner_mm", {"inner_mm": 0.0}),
        ("inner_mm", {"inner_mm": 16.0}),
        ("inner_mm", {"layers": (PLATE._replace(outer_mm=11.0),)}),
        ("parts_outer_mm", {"layers": (PLATE._replace(outer_mm=-1.0),)}),
        ("parts_outer_mm", {"layers": (PLATE._replace(outer_mm=float("inf")),)}),
        ("thickness_mm", {"layers": (PLATE, PLATE._replace(thickness_mm=0.0))}),
        ("modulus_mpa", {"layers": (PLATE, PLATE._replace(modulus_mpa=0.0))}),
        ("slope", {"slope": -0.1}),
        ("slope", {"slope": float("nan")}),
        ("layers", {"layers": ()}),
    ],
)
def test_parts_out_of_range(name: str, changed: dict[str, object]) -> None:
    """Each argument and each figure of a layer is held to its range by its own name."""
    good = {"layers": (PLATE,), "outer_mm": 16.0, "inner_mm": 11.0, "slope": 0.5}
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        parts_resilience(**good | changed)


def test_parts_at_their_limits() -> None:
    """A hole just below the bearing area and a part just above the hole still count."""
    just = parts_resilience((PLATE,), 16, 15.999, 1 / sqrt(3))
    assert just > parts_resilience((PLATE,), 16, 11, 1 / sqrt(3))
    thin = parts_resilience((PLATE._replace(outer_mm=11.01),), 16, 11, 0.5)
    assert thin == pytest.approx(40 / STEEL / (pi / 4 * (11.01**2 - 121)))
