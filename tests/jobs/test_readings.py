"""Readings typed at a step."""

from __future__ import annotations

import pytest

from torquebook.errors import NotUnderstood
from torquebook.jobs.readings import doubt, read_reading, shown, verdict
from torquebook.jobs.steps import Limits

RUNOUT = Limits("runout", "mm", None, 0.1)
FLOAT = Limits("end float", "mm", 0.05, 0.15)
DRAG = Limits("drag", "N.m", 1.5, 2.5)


@pytest.mark.parametrize(
    ("text", "limits", "value"),
    [
        ("0,05 mm", RUNOUT, 0.05),
        ("0.05", RUNOUT, 0.05),
        (" +0,05 ", RUNOUT, 0.05),
        ("0.002 in", RUNOUT, 0.0508),
        ("-0.2", Limits("height", "mm", -0.5, 0.5), -0.2),
        ("−0.2 mm", Limits("height", "mm", -0.5, 0.5), -0.2),
        ("18 lbf.in", DRAG, 2.0337269225),
        ("2.4 bar", Limits("pressure", "bar", 2.0, 3.0), 2.4),
        ("81", Limits("temperature", "degC", None, 90.0), 81),
        ("81 °C", Limits("temperature", "degC", None, 90.0), 81),
        ("40 %", Limits("charge", "%", 30.0, None), 40),
        ("12°", Limits("play", "deg", None, 15.0), 12),
        ("30 lbf", Limits("pull", "N", 100.0, 200.0), 133.446648457),
    ],
)
def test_readings_are_taken_in_the_steps_unit(text: str, limits: Limits, value: float) -> None:
    """A bare number is in the unit that is shown; another unit of the kind is converted."""
    reading = read_reading(text, limits)
    assert reading.value == pytest.approx(value, rel=1e-11)
    assert (reading.unit, reading.typed) == (limits.unit, text.strip())


@pytest.mark.parametrize(
    ("text", "limits", "message"),
    [
        ("abc", RUNOUT, "no reading; a number is due"),
        ("", RUNOUT, "a number is due"),
        ("-", RUNOUT, "a number is due"),
        ("0.05 N.m", RUNOUT, "length"),
        ("0.05 0.06", RUNOUT, "one number"),
        ("1,350", RUNOUT, "thousands or decimals"),
        ("30 psi", Limits("pressure", "bar", 2.0, 3.0), "a reading in bar is due"),
        ("1e3", RUNOUT, "power of ten"),
        ("nan", RUNOUT, "a number is due"),
        ("1" * 300, RUNOUT, "too long"),
        ("0.05 mm; rm", RUNOUT, "one number"),
    ],
)
def test_what_is_no_reading_is_asked_back(text: str, limits: Limits, message: str) -> None:
    """Letters, two numbers, another kind of unit, and doubtful marks are named."""
    with pytest.raises(NotUnderstood, match=message):
        read_reading(text, limits)


@pytest.mark.parametrize(
    ("text", "limits", "side"),
    [
        ("0.1", RUNOUT, 0),
        ("0.11", RUNOUT, 1),
        ("0.05", FLOAT, 0),
        ("0.04", FLOAT, -1),
        ("0.15", FLOAT, 0),
        ("0", FLOAT, -1),
        ("22.9", Limits("depth", "mm", 23.0, None), -1),
        ("230", Limits("depth", "mm", 23.0, None), 0),
    ],
)
def test_limits_belong_to_what_passes(text: str, limits: Limits, side: int) -> None:
    """A reading on the limit passes; one beyond says on which side it is."""
    reading = read_reading(text, limits)
    assert reading.side == side
    assert bool(verdict(reading, limits)) == bool(side)


def test_a_verdict_names_both_numbers() -> None:
    """Reading and limits stand in one sentence."""
    assert verdict(read_reading("0.2", FLOAT), FLOAT) == (
        "0.2 mm is above the limit: 0.05 to 0.15 mm"
    )
    assert "below the limit" in verdict(read_reading("0.01", FLOAT), FLOAT)


@pytest.mark.parametrize(
    ("text", "limits", "said"),
    [
        ("10", RUNOUT, "100 times the limit"),
        ("1", RUNOUT, "10 times the limit"),
        ("0.9", RUNOUT, ""),
        ("-0.05", RUNOUT, "below zero"),
        ("-0.05", Limits("height", "mm", -0.5, 0.5), ""),
        ("-3", Limits("cold", "degC", None, 40.0), ""),
        ("2.3", Limits("depth", "mm", 23.0, None), "10 times less than the limit"),
        ("3", Limits("depth", "mm", 23.0, None), ""),
        ("0", FLOAT, ""),
        ("500", Limits("depth", "mm", 23.0, None), ""),
    ],
)
def test_nonsense_is_asked_back_once(text: str, limits: Limits, said: str) -> None:
    """What is ten times off, or below zero where nothing is, is doubted before it counts."""
    found = doubt(read_reading(text, limits), limits)
    assert said in found
    assert bool(found) == bool(said)


def test_a_value_below_zero_is_shown_with_its_sign() -> None:
    """Sign, number and unit."""
    assert shown(-0.2, "mm") == "-0.2 mm"
    assert read_reading("18 lbf.in", DRAG).shown == "2.034 N·m"
