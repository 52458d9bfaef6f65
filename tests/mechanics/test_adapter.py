"""Wrench and adapter against worked examples of manuals."""

from __future__ import annotations

from math import nextafter
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics.adapter import torque_at_bolt, wrench_setting

if TYPE_CHECKING:
    from collections.abc import Callable

BOTH = pytest.mark.parametrize("formula", [wrench_setting, torque_at_bolt])


@pytest.mark.parametrize(
    ("wanted", "length_in", "extension_in", "printed", "digits"),
    [
        pytest.param(40, 12, 4, 30, 0, id="TM 9-2350-277-40&P p. 44, lbf.ft"),
        pytest.param(50, 16, 2, 44.44, 2, id="a wrench maker's manual, lbf.ft"),
    ],
)
def test_printed_settings(
    wanted: float, length_in: float, extension_in: float, printed: float, digits: int
) -> None:
    """Each printed setting is met to the digit; the units of torque and length cancel."""
    assert round(wrench_setting(wanted, length_in, extension_in), digits) == printed


def test_printed_torque_at_the_bolt() -> None:
    """TM 9-254, fig. 45: 60 lbf·in on 12 in with 2 in more is 70 lbf·in at the bolt."""
    assert torque_at_bolt(60, 12, 2) == pytest.approx(70)


@BOTH
def test_square_adapter_changes_nothing(formula: Callable[..., float]) -> None:
    """At 90° the reading is the torque; on either side of 90° it is not."""
    assert formula(50, 400, 60, angle_deg=90) == pytest.approx(50, rel=1e-15)
    assert formula(50, 400, 60, angle_deg=89) != pytest.approx(50, rel=1e-4)
    assert formula(50, 400, 60, angle_deg=91) != pytest.approx(50, rel=1e-4)


def test_the_way_of_the_correction() -> None:
    """Straight on, less is set than wanted; back along the wrench, more."""
    assert wrench_setting(50, 400, 60, angle_deg=0) == pytest.approx(50 * 400 / 460)
    assert wrench_setting(50, 400, 60, angle_deg=60) == pytest.approx(50 * 400 / 430)
    assert wrench_setting(50, 400, 60, angle_deg=180) == pytest.approx(50 * 400 / 340)


@BOTH
def test_without_extension(formula: Callable[..., float]) -> None:
    """An adapter of no length changes nothing, and no torque stays none."""
    assert formula(50, 400, 0, angle_deg=120) == 50
    assert formula(0, 400, 60) == 0


@BOTH
@pytest.mark.parametrize("value", [-1e-9, float("inf"), float("nan")])
@pytest.mark.parametrize("name", ["torque_nm", "wrench_length_mm", "extension_mm", "angle_deg"])
def test_out_of_range(formula: Callable[..., float], name: str, value: float) -> None:
    """Each argument is held to its range by its own name."""
    good = {"torque_nm": 50.0, "wrench_length_mm": 400.0, "extension_mm": 60.0, "angle_deg": 45.0}
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        formula(**good | {name: value})


@BOTH
def test_no_document_is_named_for_what_it_does_not_print(formula: Callable[..., float]) -> None:
    """That a lever has a length is printed nowhere: the message is short and names no manual."""
    with pytest.raises(OutOfRange) as refused:
        formula(50, 0, 60)
    assert str(refused.value) == "wrench_length_mm = 0 is not above 0"


@BOTH
def test_limits_of_length_and_angle(formula: Callable[..., float]) -> None:
    """A wrench needs a length; angles end at 180°."""
    with pytest.raises(OutOfRange, match=r"^wrench_length_mm = 0 "):
        formula(50, 0, 60)
    with pytest.raises(OutOfRange, match=r"^angle_deg = 180"):
        formula(50, 400, 60, angle_deg=nextafter(180, 200))
    assert formula(50, 400, 60, angle_deg=180) > 0


@BOTH
@pytest.mark.parametrize(("angle_deg", "limit"), [(180, 400), (120, 800)])
def test_adapter_back_over_the_grip(
    formula: Callable[..., float], angle_deg: float, limit: float
) -> None:
    """An adapter that puts the fastener under the hand is refused; just short of it is not."""
    for extension_mm in (limit * 1.0001, limit * 1.5):
        with pytest.raises(OutOfRange, match=r"^extension_mm = ") as refused:
            formula(50, 400, extension_mm, angle_deg=angle_deg)
        assert refused.value.high == pytest.approx(limit)
        assert "turned back so far, reaches to the hand or past it" in str(refused.value)
    assert formula(50, 400, limit * 0.9999, angle_deg=angle_deg) > 0
    with pytest.raises(OutOfRange, match=r"^extension_mm = 400 "):
        formula(50, 400, 400, angle_deg=180)


@given(
    torque_nm=st.floats(0, 1000),
    wrench_length_mm=st.floats(50, 1500),
    extension_share=st.floats(0, 0.99),
    angle_deg=st.floats(0, 180),
)
def test_round_trip(
    torque_nm: float, wrench_length_mm: float, extension_share: float, angle_deg: float
) -> None:
    """What is set for a torque brings this torque to the bolt."""
    lever = (wrench_length_mm, wrench_length_mm * extension_share, angle_deg)
    setting = wrench_setting(torque_nm, *lever)
    assert torque_at_bolt(setting, *lever) == pytest.approx(torque_nm, rel=1e-9, abs=1e-300)
