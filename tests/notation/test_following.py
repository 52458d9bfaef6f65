"""What a torque may be of the stage before it."""

import pytest

from torquebook.errors import NotUnderstood
from torquebook.notation import read, write


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("20 N.m + 40 N.m + 90°", "20 N.m, 40 N.m, +90 deg"),
        ("slacken + 40 N.m", "slacken, 40 N.m"),
        ("40 N.m, 30 N.m", "40 N.m, 30 N.m"),
        ("40 N.m, 90 lbf.ft", "40 N.m, 90 lbf.ft"),
        ("max 20 N.m, max 30 N.m", "max 20 N.m, max 30 N.m"),
        ("30 N.m (22 lbf.ft), 22 lbf.ft", "30 N.m (22 lbf.ft), 22 lbf.ft"),
    ],
)
def test_takes_a_second_torque_for_a_stage(text: str, canonical: str) -> None:
    """A torque behind another is a stage where it can be nothing else."""
    assert write(read(text), plain=True) == canonical


@pytest.mark.parametrize(
    ("text", "readings", "offset"),
    [
        ("60 N.m + 10 N.m", ("60 +10/-0 N.m", "60 N.m, 10 N.m"), 9),
        ("60 N.m + 60 N.m", ("60 +60/-0 N.m", "60 N.m, 60 N.m"), 9),
        ("60 N.m + 7 lbf.ft", ("60 N.m, 7 lbf.ft",), 9),
        ("60-70 N.m + 10 N.m", ("60-70 N.m, 10 N.m",), 12),
        ("+30 N.m", ("30 N.m",), 1),
        ("min 20 N.m, max 30 N.m", ("20-30 N.m",), 12),
        ("max 30 N.m; min 20 N.m", ("20-30 N.m",), 12),
        ("min 20 N.m, max 30 lbf.ft", (), 12),
        ("30 N.m, 22 lbf.ft", ("30 N.m (22 lbf.ft)",), 8),
        ("30 N.m / 22 lbf.ft", ("30 N.m (22 lbf.ft)",), 9),
        ("30 N.m / 60 lbf.ft", ("30 N.m, 60 lbf.ft", "30 N.m (60 lbf.ft)"), 9),
        ("30-40 N.m / 60 lbf.ft", ("30-40 N.m, 60 lbf.ft",), 12),
    ],
)
def test_asks_back_what_may_be_one_torque(
    text: str, readings: tuple[str, ...], offset: int
) -> None:
    """A tolerance, a limit or a second unit may hide behind a separator."""
    with pytest.raises(NotUnderstood) as caught:
        read(text)
    assert caught.value.readings == readings
    assert caught.value.offset == offset
    assert all(read(reading) for reading in readings)
