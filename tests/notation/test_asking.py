"""What is said, and offered, where a text is not understood."""

import pytest

from torquebook.errors import NotUnderstood
from torquebook.notation import read


@pytest.mark.parametrize(
    ("text", "what", "readings"),
    [
        ("1 200 Nm", "the space in 1 200 may mark thousands", ("1200 Nm",)),
        ("1'200 Nm", "the apostrophe in 1'200 may mark thousands", ("1200 Nm",)),
        (
            "30 120 N.m",
            "the space in 30 120 may mark thousands",
            ("30 N.m, 120 N.m", "30120 N.m"),
        ),
        (
            "1.200 Nm",
            "the point in 1.200 may mark thousands or decimals",
            ("1200 Nm", "1.2 Nm"),
        ),
        (
            "5 N.m, 1.200-1.356 Nm",
            "the point in 1.200 may mark thousands or decimals",
            ("5 N.m, 1200-1356 Nm", "5 N.m, 1.2-1.3560 Nm"),
        ),
        ("1e-3 Nm", "1e-3 is written with a power of ten", ("0.001 Nm",)),
        ("1e400 Nm", "1e400 is no number that a sheet prints", ()),
        ("1.2,3 Nm", "1.2,3 is no number", ()),
        ("75 ft/lbs", "ft/lbs is no unit of torque", ("75 lbf.ft",)),
        ("75 lbs/ft", "lbs/ft is no unit of torque", ("75 lbf.ft",)),
        ("60-70 lb/ft", "lb/ft is no unit of torque", ("60-70 lbf.ft",)),
        ("2 m/m", "m/m is no unit", ("2 N.m", "2 lbf.ft", "2 lbf.in", "2 kgf.m")),
        ("60 foo", "foo is no unit", ("60 N.m", "60 lbf.ft", "60 lbf.in", "60 kgf.m")),
        ("60 dry", "60 has no unit", ("60 N.m", "60 lbf.ft", "60 lbf.in", "60 kgf.m")),
        ("60 N.m, 90 then slacken", "90 has no unit", ("+90 deg", "90 N.m")),
        ("1-2-3 foo", "1-2 has no unit", ("1-2 N.m", "1-2 lbf.ft", "1-2 lbf.in", "1-2 kgf.m")),
        ("60 N.m + 1/4", "1/4 has no unit", ("+1/4 turn",)),
        (
            "45 Nm dry",
            "dry tells of friction and belongs in that column (friction=dry on one line)",
            (),
        ),
        (
            "45 Nm, Oiled",
            "oiled tells of friction and belongs in that column (friction=oiled on one line)",
            (),
        ),
        (
            "45 Nm (dry)",
            "dry tells of friction and belongs in that column (friction=dry on one line)",
            (),
        ),
        ("-45 Nm", "a value below zero", ()),
        (
            "hand tight",
            "hand tight gives no torque or angle; write the sheet's value for it",
            (),
        ),
        ("foo", "foo is no stage", ()),
        ("45 N.m 33 lbf.ft", "one torque in two units, or two", ("45 N.m (33 lbf.ft)",)),
        ("30 Nm 60 Nm", "nothing parts 30 N.m and 60 N.m", ("30 Nm, 60 Nm",)),
        ("45 Nm what is this", '"what is this" is not understood', ()),
        ("45 Nm " + "x" * 50, f'"{"x" * 40}..." is not understood', ()),
    ],
)
def test_quotes_the_trouble(text: str, what: str, readings: tuple[str, ...]) -> None:
    """The message names the words that are not understood; its readings can be typed."""
    with pytest.raises(NotUnderstood) as caught:
        read(text)
    assert (caught.value.what, caught.value.readings) == (what, readings)
    assert all(read(reading) for reading in readings)
