"""Angles, turns and flats."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import OutOfRange
from torquebook.mechanics import turning

if TYPE_CHECKING:
    from collections.abc import Callable

angles = st.floats(-1e6, 1e6)


@pytest.mark.parametrize(
    ("turns", "flats", "angle_deg"),
    [
        pytest.param(1 / 6, 1, 60, id="TM 9-2320-366-34-4 p. 20-49, cap nuts 1/6 turn"),
        pytest.param(1 / 3, 2, 120, id="RCSC turn of nut, to 4 d long"),
        pytest.param(1 / 2, 3, 180, id="RCSC turn of nut, to 8 d long"),
        pytest.param(2 / 3, 4, 240, id="RCSC turn of nut, to 12 d long"),
        pytest.param(-1 / 4, -1.5, -90, id="slackening by a quarter turn, by definition"),
        pytest.param(0, 0, 0, id="none, by definition"),
    ],
)
def test_turns_flats_and_degrees(turns: float, flats: float, angle_deg: float) -> None:
    """Printed shares of a turn are whole flats of a hexagon and their degrees."""
    assert turning.degrees_from_turns(turns) == pytest.approx(angle_deg)
    assert turning.degrees_from_flats(flats) == pytest.approx(angle_deg)
    assert turning.turns_from_degrees(angle_deg) == pytest.approx(turns)
    assert turning.flats_from_degrees(angle_deg) == pytest.approx(flats)


def test_advance() -> None:
    """A full turn advances by the pitch, slackening goes back, no turn goes nowhere."""
    assert turning.advance_mm(360, 1.25) == 1.25
    assert turning.advance_mm(-90, 1.25) == pytest.approx(-0.3125)
    assert turning.advance_mm(0, 1.25) == 0


@pytest.mark.parametrize("value", [-float("inf"), float("inf"), float("nan")])
@pytest.mark.parametrize(
    ("formula", "name"),
    [
        (turning.degrees_from_turns, "turns"),
        (turning.turns_from_degrees, "angle_deg"),
        (turning.degrees_from_flats, "flats"),
        (turning.flats_from_degrees, "angle_deg"),
        (lambda angle_deg: turning.advance_mm(angle_deg, 1.5), "angle_deg"),
    ],
)
def test_angle_out_of_range(formula: Callable[[float], float], name: str, value: float) -> None:
    """An angle that is not finite is refused."""
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        formula(value)


@pytest.mark.parametrize("pitch_mm", [-1.5, 0.0, float("inf"), float("nan")])
def test_pitch_out_of_range(pitch_mm: float) -> None:
    """A pitch that is not finite and above 0 is refused."""
    with pytest.raises(OutOfRange, match=r"^pitch_mm = "):
        turning.advance_mm(90, pitch_mm)


@given(angle_deg=angles)
def test_round_trips(angle_deg: float) -> None:
    """Degrees go to turns and to flats and come back."""
    turns = turning.turns_from_degrees(angle_deg)
    assert turning.degrees_from_turns(turns) == pytest.approx(angle_deg, abs=1e-9)
    flats = turning.flats_from_degrees(angle_deg)
    assert turning.degrees_from_flats(flats) == pytest.approx(angle_deg, abs=1e-9)
    assert flats == pytest.approx(6 * turns, abs=1e-9)
