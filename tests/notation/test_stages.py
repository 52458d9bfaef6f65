"""Stages: bands, checks, and the torque that is printed in two units."""

import csv
from pathlib import Path

import pytest

from torquebook.bands import Band
from torquebook.errors import TorquebookError
from torquebook.notation import Angle, Form, Slacken, Torque, Wait, read
from torquebook.units import PAIR_TOLERANCE

REAL = Path(__file__).parent.parent / "published" / "real"


@pytest.mark.parametrize(
    ("form", "printed", "band"),
    [
        ("exact", (80.0,), (80, 80, 80)),
        ("range", (60.0, 70.0), (60, 65, 70)),
        ("range", (70.0, 60.0), (60, 65, 70)),
        ("tolerance", (80.0, 5.0, 8.0), (75, 80, 88)),
        ("minimum", (20.0,), (20, 20, 20)),
        ("maximum", (20.0,), (20, 20, 20)),
    ],
)
def test_gives_the_band_of_each_form(
    form: Form, printed: tuple[float, ...], band: tuple[float, float, float]
) -> None:
    """Torque in N·m and angle in degrees run from low to high, however they are printed."""
    assert Torque("N.m", form, printed).band == Band(*band)
    assert Torque("daN.m", form, printed).band == Band(*band).scaled(10)
    if form not in {"minimum", "maximum"}:
        assert Angle("flat", form, printed).band == Band(*band).scaled(60)


@pytest.mark.parametrize(
    ("form", "printed"),
    [
        ("exact", ()),
        ("exact", (1.0, 2.0)),
        ("range", (1.0,)),
        ("tolerance", (1.0, 0.5)),
        ("tolerance", (1.0, 2.0, 0.0)),
        ("exact", (-1.0,)),
    ],
)
def test_refuses_numbers_that_do_not_fit(form: Form, printed: tuple[float, ...]) -> None:
    """A stage cannot be made with too many numbers, too few, or below zero."""
    with pytest.raises(TorquebookError):
        Torque("N.m", form, printed)
    with pytest.raises(TorquebookError):
        Angle("deg", form, printed)


def test_refuses_a_range_beside_a_single_torque() -> None:
    """What is printed beside has as many numbers, or is the nominal alone."""
    with pytest.raises(TorquebookError):
        Torque("N.m", "exact", (60.0,), ((44.0, 52.0), "lbf.ft"))
    assert Torque("N.m", "tolerance", (80.0, 8.0, 8.0), ((59.0,), "lbf.ft")).beside


def test_compares_stages_by_what_they_say_not_where() -> None:
    """The same stage read at another column is equal."""
    assert Torque("N.m", "exact", (60.0,), column=9) == Torque("N.m", "exact", (60.0,))
    assert Angle("deg", "exact", (90.0,), 9) == Angle("deg", "exact", (90.0,))
    assert Slacken(column=9) == Slacken()
    assert Wait(5.0, 9) == Wait(5.0)


def test_finds_exactly_the_printed_pairs_that_disagree() -> None:
    """Of 171 torques printed in two units, those disagree that their readers call wrong."""
    with (REAL / "D_printed_unit_pairs.csv").open(encoding="utf-8", newline="") as file:
        pairs = list(csv.DictReader(file))
    found = []
    for row in pairs:
        (stage,) = read(f"{row['value_1']} {row['unit_1']} ({row['value_2']} {row['unit_2']})")
        assert isinstance(stage, Torque)
        if stage.disagreement > PAIR_TOLERANCE:
            found.append(row["item"])
    assert len(pairs) == 171
    assert found == [row["item"] for row in pairs if row["verdict"] == "DISAGREES"]
    assert len(found) == 7


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("60 N.m", 0.0),
        ("25 lbf.ft (3.0 kgf.m)", 0.132),  # as 3 it could stand for 3.46, as 3.0 not
        ("25 lbf.ft (3 kgf.m)", 0.0),
        ("80 ±8 N.m (59 lbf.ft)", 0.0),
        ("100 ±10 lbf.ft (135 ±14 N.m)", 0.0),  # the half alone is 3.3 % off: no word of it
        ("min 100 lbf.ft (100 N.m)", 0.262),
    ],
)
def test_weighs_the_printed_digits(text: str, share: float) -> None:
    """Rounding explains what the printed decimals leave open, and no more."""
    (stage,) = read(text)
    assert isinstance(stage, Torque)
    assert stage.disagreement == pytest.approx(share, abs=1e-3)
