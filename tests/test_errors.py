"""What the exceptions say."""

from __future__ import annotations

import pickle

import pytest

from torquebook.errors import LEAST, MOST, NotUnderstood, OutOfRange, TorquebookError, Unreadable


@pytest.mark.parametrize(
    ("value", "low", "high", "message"),
    [
        (0, LEAST, MOST, "x = 0 is not above 0 (ISO 1)"),
        (-3, LEAST, MOST, "x = -3 is not above 0 (ISO 1)"),
        (-3, 0, MOST, "x = -3 is below 0 (ISO 1)"),
        (0.5, 1, float("inf"), "x = 0.5 is below 1 (ISO 1)"),
        (float("inf"), LEAST, MOST, "x = inf is no number to reckon with (ISO 1)"),
        (float("nan"), 0, MOST, "x = nan is no number to reckon with (ISO 1)"),
        (float("-inf"), -MOST, MOST, "x = -inf is no number to reckon with (ISO 1)"),
        (9, LEAST, 8, "x = 9 is not above 0 and below 8 (ISO 1)"),
        (181, 0, 180, "x = 181 is outside 0 to 180 (ISO 1)"),
    ],
)
def test_out_of_range(value: float, low: float, high: float, message: str) -> None:
    """An open end of a range is said in words; the stand-ins for it are never shown."""
    fault = OutOfRange("x", value, low, high, "ISO 1")
    assert str(fault) == message
    assert (fault.value, fault.low, fault.high) == (pytest.approx(value, nan_ok=True), low, high)


def test_out_of_range_without_a_document() -> None:
    """Where no document sets the range none is named."""
    assert str(OutOfRange("x", 2, 0, 1, "")) == "x = 2 is outside 0 to 1"


def test_other_messages() -> None:
    """Where, what is wrong, what would be right; quoted text and its readings."""
    assert str(Unreadable("a.yaml:1:2", "no value", "write one")) == (
        "a.yaml:1:2: no value; write one"
    )
    assert str(NotUnderstood("25", "no unit", ("25 N.m", "25 lbf.ft"))) == (
        '"25": no unit; write 25 N.m or 25 lbf.ft'
    )
    assert str(NotUnderstood("x", "nothing")) == '"x": nothing'


@pytest.mark.parametrize(
    "error",
    [
        TorquebookError("wrong"),
        Unreadable("a.yaml:1:2", "wrong", "right", "key-twice"),
        NotUnderstood("M11", "no size", ("M10", "M12"), 3),
        OutOfRange("d_mm", 3.0, 4.0, 5.0, "ISO 261"),
    ],
)
def test_errors_come_through_another_process(error: TorquebookError) -> None:
    """Taken apart and put together again, an error says the same and has the same parts."""
    again = pickle.loads(pickle.dumps(error))  # noqa: S301 - our own
    assert type(again) is type(error)
    assert (str(again), vars(again)) == (str(error), vars(error))
