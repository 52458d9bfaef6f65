"""Strain beyond yield: the hardening line, the share used, and how many tightenings."""

from __future__ import annotations

from math import inf, nextafter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics.plastic import Hardening, Strength, tightenings, uniform_strain

Row = dict[str, str]

PATH = Hardening(give_mm_per_n=5e-6, yield_n=40000, most_n=50000, uniform_mm=0.5)
FLAT = PATH._replace(most_n=40000)


@pytest.mark.published(
    "iso898_1_properties.csv",
    {"quantity": "A_min_pct", "class": ("8.8 d<=16", "8.8 d>16", "9.8", "10.9", "12.9")},
    5,
)
def test_uniform_strain_of_a_class(printed: Row) -> None:
    """Of the printed elongation after fracture, half counts as uniform: less, never more."""
    elongation = float(printed["value"]) / 100
    assert uniform_strain(elongation) * 2 == pytest.approx(elongation)
    assert 0.03 < uniform_strain(elongation) < elongation


@pytest.mark.parametrize("value", [-0.1, 0.0, 1.0, inf, float("nan")])
def test_elongation_out_of_range(value: float) -> None:
    """An elongation of nothing, or of the whole length, is refused."""
    with pytest.raises(OutOfRange, match=r"^elongation = "):
        uniform_strain(value)


@pytest.mark.parametrize(
    ("share", "count"),
    [
        (0.0, inf),
        (5e-324, inf),
        (0.24, 4),
        (0.25, 4),
        (0.26, 3),
        (1 / 3, 3),
        (1.0, 1),
        (nextafter(1.0, 2.0), 0),
        (7.0, 0),
        (inf, 0),
    ],
)
def test_tightenings(share: float, count: float) -> None:
    """As many tightenings as fit whole into the strain; no end of elastic ones."""
    assert tightenings(share) == count


@given(share=st.floats(1e-6, 10))
def test_tightenings_fit(share: float) -> None:
    """The count fits into the strain, and one more does not."""
    count = tightenings(share)
    assert count * share <= 1 + 1e-9
    assert (count + 1) * share > 1 - 1e-9


@pytest.mark.parametrize("value", [-1e-9, -inf, float("nan")])
def test_share_out_of_range(value: float) -> None:
    """A share below 0 or no number is refused."""
    with pytest.raises(OutOfRange, match=r"^strain_share = "):
        tightenings(value)


GOOD = Strength(48100, 940, 1040, 0.045)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("proof_load_n", 0.0),
        ("yield_mpa", 0.0),
        ("yield_mpa", float("nan")),
        ("tensile_mpa", 939.999),
        ("tensile_mpa", inf),
        ("tensile_mpa", float("nan")),
        ("uniform_strain", 0.0),
        ("uniform_strain", 1.0),
    ],
)
def test_strength_out_of_range(name: str, value: float) -> None:
    """Each figure of a strength is held to its range by its own name."""
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        GOOD._replace(**{name: value}).checked()


def test_strength_at_its_limits() -> None:
    """A steel without hardening is valid, and a checked strength is the same."""
    flat = GOOD._replace(tensile_mpa=940)
    assert flat.checked() is flat


def test_the_line() -> None:
    """Up to the brink the parts give 0.05 mm and the screw stretches 0.5 mm for good."""
    assert PATH.room_mm() == pytest.approx(0.55)
    assert PATH.preload_n(0.55 / 2) == pytest.approx(45000)
    assert PATH.permanent_mm(0.55 / 2) == pytest.approx(0.25)
    assert PATH.way_mm(45000) == pytest.approx(0.55 / 2)
    assert PATH.way_mm(30000) == pytest.approx(-0.05)


@pytest.mark.parametrize("path", [PATH, FLAT])
def test_continuity(path: Hardening) -> None:
    """At the yield point and at the brink the line has no step."""
    for at_mm, preload_n, permanent_mm in [
        (0.0, path.yield_n, 0.0),
        (path.room_mm(), path.most_n, path.uniform_mm),
    ]:
        for way_mm in (at_mm - 1e-9, at_mm, at_mm + 1e-9):
            assert path.preload_n(max(way_mm, 0.0)) == pytest.approx(preload_n)
            assert path.permanent_mm(way_mm) == pytest.approx(permanent_mm, abs=1e-8)
        assert path.way_mm(preload_n) == pytest.approx(0.0 if path is FLAT else at_mm)


def test_beyond_the_brink() -> None:
    """Beyond the brink the preload stays, and the whole way is stretch."""
    assert PATH.preload_n(0.55 + 0.3) == PATH.most_n
    assert PATH.permanent_mm(0.55 + 0.3) == pytest.approx(0.5 + 0.3)
    assert PATH.way_mm(60000) == PATH.room_mm()
    assert FLAT.way_mm(40001) == FLAT.room_mm()


@given(way=st.floats(0, 2), more=st.floats(1e-3, 1))
def test_permanent_and_elastic_make_the_way(way: float, more: float) -> None:
    """What is not permanent is elastic, at the give of screw and parts; both only rise."""
    elastic = (PATH.preload_n(way) - PATH.yield_n) * PATH.give_mm_per_n
    assert elastic + PATH.permanent_mm(way) == pytest.approx(way)
    assert PATH.preload_n(way + more) >= PATH.preload_n(way)
    assert PATH.permanent_mm(way + more) > PATH.permanent_mm(way)


@given(preload=st.floats(0, 50000))
def test_there_and_back(preload: float) -> None:
    """The preload at the way of a preload beyond yield is that preload."""
    way = PATH.way_mm(preload)
    assert (way > 0) == (preload > PATH.yield_n)
    if way > 0:
        assert PATH.preload_n(way) == pytest.approx(preload)
