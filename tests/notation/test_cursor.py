"""Values of one stage: forms, units, and what is asked back."""

import pytest

from torquebook.errors import NotUnderstood
from torquebook.notation import Angle, Form, Torque, read


@pytest.mark.parametrize(
    ("text", "form", "printed"),
    [
        ("60 N.m", "exact", (60.0,)),
        ("60-Nm", "exact", (60.0,)),
        ("0,35 N·m", "exact", (0.35,)),
        ("½ N.m", "exact", (0.5,)),
        ("80 ±8 N.m", "tolerance", (80.0, 8.0, 8.0)),
        ("80±8 N.m", "tolerance", (80.0, 8.0, 8.0)),
        ("80 +/- 8 N.m", "tolerance", (80.0, 8.0, 8.0)),
        ("80 N.m ±8 N.m", "tolerance", (80.0, 8.0, 8.0)),
        ("80 N.m ±8", "tolerance", (80.0, 8.0, 8.0)),
        ("80 ±10 % N.m", "tolerance", (80.0, 8.0, 8.0)),
        ("80 N.m ± 10%", "tolerance", (80.0, 8.0, 8.0)),
        ("85 ±3 % N.m", "tolerance", (85.0, 2.55, 2.55)),
        ("60 +10 N.m", "tolerance", (60.0, 0.0, 10.0)),
        ("60 N.m +10 %", "tolerance", (60.0, 0.0, 6.0)),
        ("60 +10/-5 N.m", "tolerance", (60.0, 5.0, 10.0)),
        ("60 +10 -5 N.m", "tolerance", (60.0, 5.0, 10.0)),
        ("60 -5/+10 N.m", "tolerance", (60.0, 5.0, 10.0)),
        ("60 N.m +10/−5", "tolerance", (60.0, 5.0, 10.0)),
        ("60 +10%/-5% N.m", "tolerance", (60.0, 3.0, 6.0)),
        ("60-70 N.m", "range", (60.0, 70.0)),
        ("60–70 N.m", "range", (60.0, 70.0)),
        ("60 - 70 N.m", "range", (60.0, 70.0)),
        ("60 to 70 N.m", "range", (60.0, 70.0)),
        ("60...70 N.m", "range", (60.0, 70.0)),
        ("60…70 N.m", "range", (60.0, 70.0)),
        ("60 N.m - 70 N.m", "range", (60.0, 70.0)),
        ("60 N.m to 70 N.m", "range", (60.0, 70.0)),
        ("60 N.m to 70", "range", (60.0, 70.0)),
        ("39,2-44,1 N.m", "range", (39.2, 44.1)),
        ("70-60 N.m", "range", (70.0, 60.0)),
        ("min 20 N.m", "minimum", (20.0,)),
        ("min. 20 N.m", "minimum", (20.0,)),
        ("Minimum 20 N.m", "minimum", (20.0,)),
        ("20 N.m min", "minimum", (20.0,)),
        (">= 20 N.m", "minimum", (20.0,)),
        ("≥20 N.m", "minimum", (20.0,)),
        ("at least 20 N.m", "minimum", (20.0,)),
        ("max 20 N.m", "maximum", (20.0,)),
        ("20 N.m max.", "maximum", (20.0,)),
        ("<=20 N.m", "maximum", (20.0,)),
        ("not more than 20 N.m", "maximum", (20.0,)),
        ("up to 20 N.m", "maximum", (20.0,)),
    ],
)
def test_reads_every_form_of_a_torque(text: str, form: Form, printed: tuple[float, ...]) -> None:
    """Sheets print a torque in many ways; each gives its numbers as printed."""
    assert read(text) == (Torque("N.m", form, printed),)


@pytest.mark.parametrize(
    ("text", "unit", "form", "printed"),
    [
        ("90°", "deg", "exact", (90.0,)),
        ("+90 deg", "deg", "exact", (90.0,)),
        ("90º", "deg", "exact", (90.0,)),
        ("90°±5°", "deg", "tolerance", (90.0, 5.0, 5.0)),
        ("90±5°", "deg", "tolerance", (90.0, 5.0, 5.0)),
        ("90 +5/-0 deg", "deg", "tolerance", (90.0, 0.0, 5.0)),
        ("90° +10 %", "deg", "tolerance", (90.0, 0.0, 9.0)),
        ("90-100°", "deg", "range", (90.0, 100.0)),
        ("90° to 100°", "deg", "range", (90.0, 100.0)),
        ("1/6 turn", "turn", "exact", (1 / 6,)),
        ("1/4-turn", "turn", "exact", (0.25,)),
        ("+¼ turn", "turn", "exact", (0.25,)),
        ("1 1/4 turns", "turn", "exact", (1.25,)),
        ("1/4-1/2 turn", "turn", "range", (0.25, 0.5)),
        ("1 to 1 1/2 turns", "turn", "range", (1.0, 1.5)),
        ("half a turn", "turn", "exact", (0.5,)),
        ("a quarter of a turn", "turn", "exact", (0.25,)),
        ("one third turn", "turn", "exact", (1 / 3,)),
        ("quarter-turn", "turn", "exact", (0.25,)),
        ("2 flats", "flat", "exact", (2.0,)),
        ("1/2 flat", "flat", "exact", (0.5,)),
    ],
)
def test_reads_every_form_of_an_angle(
    text: str, unit: str, form: Form, printed: tuple[float, ...]
) -> None:
    """Degrees, turns and flats of a hexagon are angles, with or without a plus."""
    assert read(text) == (Angle(unit, form, printed),)


@pytest.mark.parametrize(
    ("text", "readings", "offset"),
    [
        ("60", ("60 N.m", "60 lbf.ft", "60 lbf.in", "60 kgf.m"), 0),
        ("60 +10", ("60 +10 N.m", "60 +10 lbf.ft", "60 +10 lbf.in", "60 +10 kgf.m"), 0),
        ("60-70 foo", ("60-70 N.m", "60-70 lbf.ft", "60-70 lbf.in", "60-70 kgf.m"), 0),
        ("30 N.m + 90", ("+90 deg", "90 N.m"), 9),
        ("30 N.m, 60", ("+60 deg", "60 N.m"), 8),
        ("30, 60 N.m", ("30 N.m, 60 N.m",), 0),
        ("30/60 lb-ft", ("30 lbf.ft, 60 lbf.ft",), 0),
        ("30 then 60 N.m", ("30 N.m, 60 N.m",), 0),
        ("10-20-30 N.m", ("10 N.m, 20 N.m, 30 N.m",), 0),
        ("20,40,60 N.m", ("20 N.m, 40 N.m, 60 N.m",), 0),
        ("20,40,60", (), 0),
        ("30 + 60 N.m", ("30 N.m, 60 N.m",), 0),
        ("45+45+45 deg", ("+45 deg, +45 deg, +45 deg", "45 N.m, +45 deg, +45 deg"), 0),
        ("60 +90°", ("+60 deg, +90 deg", "60 N.m, +90 deg"), 0),
        ("90 + 30°", ("+90 deg, +30 deg", "90 N.m, +30 deg"), 0),
        ("1/2 N.m", ("1 N.m, 2 N.m", "0.5 N.m"), 0),
        ("1/2 deg", ("1 deg, 2 deg", "0.5 deg"), 0),
        ("60 lb", ("60 lbf.ft", "60 lbf.in"), 3),
        ("60-70 kg", ("60-70 kgf.m", "60-70 kgf.cm"), 6),
        ("60 N", ("60 N.m", "60 cN.m"), 3),
        ("60 mm", (), 3),
        ("1,350 N.m", ("1350 N.m", "1.35 N.m"), 0),
        ("30 N.m, 1,200-1,350 N.m", ("30 N.m, 1200-1350 N.m", "30 N.m, 1.2-1.35 N.m"), 8),
        ("60 N.m - 90°", ("60 N.m, +90 deg",), 6),
        ("60 N.m - 70", ("60 N.m to 70 N.m", "60 N.m, +70 deg"), 6),
        ("60 N.m - 44 lbf.ft", (), 6),
        ("60 N.m to 52 lbf.ft", (), 0),
        ("60 N.m ± 5 lbf.ft", (), 0),
        ("30 ±60 N.m", (), 0),
        ("60 ± N.m", (), 5),
        ("60 +10/-70 N.m", (), 0),
        ("max 60-70 N.m", (), 0),
        ("max 90°", (), 0),
        ("60-70 N.m max", (), 0),
        ("max N.m", (), 4),
    ],
)
def test_asks_back_what_is_no_one_value(text: str, readings: tuple[str, ...], offset: int) -> None:
    """What a sheet leaves open gets its readings; each can be typed as it stands."""
    with pytest.raises(NotUnderstood) as caught:
        read(text)
    assert caught.value.readings == readings
    assert caught.value.offset == offset
    assert all(read(reading) for reading in readings)
