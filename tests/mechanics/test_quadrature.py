"""Root-sum-square beside the corners, and both beside a seeded draw."""

from __future__ import annotations

from functools import partial
from random import Random
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.bands import Band
from torquebook.errors import OutOfRange, TorquebookError
from torquebook.mechanics import quadrature
from torquebook.mechanics.preload import preload_from_torque, torque_from_nut_factor
from torquebook.mechanics.scatter import spread

if TYPE_CHECKING:
    from collections.abc import Callable

DRAWS = 20000
CAUSES = {
    "torque_nm": Band.around(45.0, 0.04),
    "mu_thread": Band.between(0.10, 0.14),
    "mu_head": Band.between(0.10, 0.14),
}
PRELOAD = partial(preload_from_torque, pitch_mm=1.5, d2_mm=9.026, bearing_mm=13.0)


def test_half_widths_in_quadrature() -> None:
    """Independent terms add as the sides of a right angle, also where one of them falls."""
    band = quadrature.root_sum_square(
        lambda plus, minus: plus - minus, plus=Band(7, 10, 13), minus=Band(1, 5, 9)
    )
    assert band == Band(0, 5, 10)


def test_each_side_on_its_own() -> None:
    """A lopsided band stays lopsided: 3 and 4 down, 6 and 8 up."""
    band = quadrature.root_sum_square(
        lambda one, other: one + other, one=Band(7, 10, 16), other=Band(6, 10, 18)
    )
    assert band == Band(15, 20, 30)


def test_without_scatter_and_with_one_cause() -> None:
    """Nothing uncertain is exact; with one cause the two ways agree."""
    assert quadrature.both_ways(lambda: 7.0) == (Band.exact(7.0), Band.exact(7.0))
    one = quadrature.both_ways(lambda mu: 1 / mu, mu=Band(0.1, 0.125, 0.2))
    assert one.corners == one.root_sum_square == Band(5, 8, 10)


def test_draw_stays_within_the_corners() -> None:
    """Of 20 000 draws, even over the bands, none leaves the corners, and some come near."""
    draw = Random(1)  # noqa: S311 -- a repeatable draw, no secret
    corners = spread(PRELOAD, **CAUSES)
    results = [
        PRELOAD(**{name: draw.uniform(band.low, band.high) for name, band in CAUSES.items()})
        for _ in range(DRAWS)
    ]
    assert corners.low <= min(results) < corners.low * 1.02
    assert corners.high * 0.98 < max(results) <= corners.high


def test_draw_gives_quadrature_its_share() -> None:
    """Where the bands hold 95.4 % of normal causes, so does the root-sum-square band.

    The bands are two standard deviations to each side; the draw of 20 000 hits within 1 %.
    The corners hold more than 99 %.
    """
    draw = Random(2)  # noqa: S311 -- a repeatable draw, no secret
    both = quadrature.both_ways(PRELOAD, **CAUSES)
    results = [
        PRELOAD(
            **{
                name: draw.gauss(band.nominal, (band.high - band.low) / 4)
                for name, band in CAUSES.items()
            }
        )
        for _ in range(DRAWS)
    ]

    def share(band: Band) -> float:
        return sum(band.low <= result <= band.high for result in results) / DRAWS

    assert share(both.root_sum_square) == pytest.approx(0.954, abs=0.01)
    assert share(both.corners) > 0.99


def _band(low: float, step: float, top: float) -> Band:
    return Band(low, low + step, low + step + top)


bands = st.builds(_band, st.floats(0.01, 1), st.floats(0, 1), st.floats(0, 1))


@given(one=bands, other=bands, third=bands)
def test_quadrature_lies_within_the_corners(one: Band, other: Band, third: Band) -> None:
    """The likely band never leaves the worst case, and both share their nominal."""
    both = quadrature.both_ways(lambda a, b, c: a / (b + c), a=one, b=other, c=third)
    assert both.corners == spread(lambda a, b, c: a / (b + c), a=one, b=other, c=third)
    assert both.corners.low <= both.root_sum_square.low <= both.root_sum_square.nominal
    assert both.root_sum_square.nominal == both.corners.nominal
    assert both.root_sum_square.nominal <= both.root_sum_square.high <= both.corners.high


def test_quadrature_is_kept_within_the_corners() -> None:
    """Products of wide bands: quadrature alone would reach below 0, the answer does not."""
    wide = {"a": Band(0.1, 1, 1.9), "b": Band(0.1, 1, 1.9)}

    def product(a: float, b: float) -> float:
        return a * b

    alone = quadrature.root_sum_square(product, **wide)
    both = quadrature.both_ways(product, **wide)
    assert alone.low < 0 < both.root_sum_square.low == both.corners.low
    assert both.root_sum_square.high == alone.high


@pytest.mark.parametrize("way", [quadrature.root_sum_square, quadrature.both_ways])
def test_refusals(way: Callable[..., object]) -> None:
    """A band out of order is refused, and a formula's own refusal comes through."""
    with pytest.raises(TorquebookError, match="from low to high"):
        way(lambda x: x, x=Band(3, 2, 1))
    formula = partial(torque_from_nut_factor, d_mm=10)
    with pytest.raises(OutOfRange, match=r"^k = 0 "):
        way(formula, preload_n=Band.exact(1000), k=Band(0, 0.1, 0.2))
