"""Below, at and above every limit that the formulas share."""

from math import inf, nan, nextafter

import pytest

from torquebook.errors import NotUnderstood, OutOfRange
from torquebook.mechanics import limits

LEAST, MOST = 1e-6, 1e12
JUST_UNDER, JUST_OVER = nextafter(LEAST, 0), nextafter(MOST, inf)


@pytest.mark.parametrize("value", [-inf, -1.0, 0.0, nextafter(LEAST, 0), JUST_OVER, inf, nan])
def test_positive_refuses(value: float) -> None:
    """What is not finite and above 0 is refused by its name."""
    with pytest.raises(OutOfRange, match="d_mm = ") as refused:
        limits.positive("a source", d_mm=value)
    assert (refused.value.name, refused.value.low, refused.value.high) == ("d_mm", LEAST, MOST)
    assert refused.value.source == "a source"


@pytest.mark.parametrize("value", [-inf, -1.0, -5e-324, JUST_OVER, inf, nan])
def test_not_negative_refuses(value: float) -> None:
    """What is not finite and 0 or above is refused by its name."""
    with pytest.raises(OutOfRange, match="preload_n = ") as refused:
        limits.not_negative("a source", preload_n=value)
    assert (refused.value.name, refused.value.low) == ("preload_n", 0.0)


@pytest.mark.parametrize("value", [-inf, -JUST_OVER, JUST_OVER, inf, nan])
def test_finite_refuses(value: float) -> None:
    """What is infinite or no number is refused by its name."""
    with pytest.raises(OutOfRange, match="angle_deg = ") as refused:
        limits.finite("a source", angle_deg=value)
    assert (refused.value.low, refused.value.high) == (-MOST, MOST)


@pytest.mark.parametrize("value", [-inf, -1e-9, 1.000001, inf, nan])
def test_friction_refuses(value: float) -> None:
    """Friction below 0 or above 1 is refused by its name."""
    with pytest.raises(OutOfRange, match="mu_head = ") as refused:
        limits.friction("a source", mu_head=value)
    assert (refused.value.low, refused.value.high) == (0.0, 1.0)


@pytest.mark.parametrize("value", [-1.0, 0.0, JUST_UNDER, 8.0, 8.1, inf, nan])
def test_below_refuses(value: float) -> None:
    """What is not above 0 and below the limit is refused by its name."""
    with pytest.raises(OutOfRange, match="inner_mm = ") as refused:
        limits.below("a source", 8.0, inner_mm=value)
    assert refused.value.high == 8.0


def test_the_first_bad_value_is_named() -> None:
    """Of several values, the first one outside is named, whichever it is."""
    with pytest.raises(OutOfRange, match="second = -1 "):
        limits.positive("a source", first=1.0, second=-1.0, third=-2.0)


def test_values_inside_pass() -> None:
    """Values at the closed ends and just inside the open ends pass."""
    limits.positive("a source", least=LEAST, most=MOST)
    limits.not_negative("a source", none=0.0, tiny=5e-324, most=MOST)
    limits.finite("a source", low=-MOST, none=0.0, high=MOST)
    limits.friction("a source", none=0.0, most=1.0)
    limits.below("a source", 8.0, least=LEAST, most=nextafter(8.0, 0))


def test_known_names() -> None:
    """A name that is none of those known is refused with them; a known one passes."""
    limits.known("joint", "tapped", ("through", "tapped"))
    with pytest.raises(NotUnderstood, match=r'^"glued": no such joint; write through or tapped$'):
        limits.known("joint", "glued", ("through", "tapped"))
