"""Quantities: read, converted, written, compared."""

import csv
import re
import subprocess
import sys
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood, TorquebookError
from torquebook.units import (
    FACTORS,
    PAIR_TOLERANCE,
    Kind,
    Quantity,
    convert,
    pair_deviation,
    read,
    unit_named,
    write,
)

REAL = Path(__file__).parent / "published" / "real"


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a published list."""
    with (REAL / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


TORQUE_ROWS = [row for row in rows("D_conversion_factors.csv") if row["unit"] in FACTORS]


@pytest.mark.parametrize("row", TORQUE_ROWS, ids=lambda row: row["unit"])
def test_factors_are_exact(row: dict[str, str]) -> None:
    """Each torque factor equals the product of the exact definitions to the last bits.

    Source: NIST SP 811 (2008), appendix B.8, with GNU units 2.22 beside it.
    """
    assert FACTORS[row["unit"]][1] == pytest.approx(float(row["exact_N_m"]), rel=1e-15)
    printed = row["nist_sp811_table_B8"].replace(" ", "").removesuffix("(exact)")
    if printed:
        rounding = 0.5 * 10.0 ** -len(printed.partition(".")[2])
        assert FACTORS[row["unit"]][1] == pytest.approx(float(printed), abs=rounding)


def test_covers_the_published_factors() -> None:
    """Six of the seven published torque units are ours; dyn.cm is on no sheet."""
    assert len(TORQUE_ROWS) == 6


PINT = {
    "cN.m": "centinewton*meter",
    "dN.m": "decinewton*meter",
    "daN.m": "decanewton*meter",
    "kgf.cm": "kilogram_force*centimeter",
    "ozf.ft": "ounce*standard_gravity*foot",
    "N": "newton",
    "kN": "kilonewton",
    "lbf": "pound_force",
    "kgf": "kilogram_force",
    "mm": "millimeter",
    "cm": "centimeter",
    "in": "inch",
    "deg": "degree",
    "turn": "turn",
}
SI = {"torque": "newton*meter", "force": "newton", "length": "millimeter", "angle": "degree"}


@pytest.mark.parametrize("unit", PINT)
def test_factors_agree_with_an_independent_library(unit: str) -> None:
    """The pint registry, made by others from the same definitions, gives the same factor."""
    kind, factor = FACTORS[unit]
    assert pint.UnitRegistry()(PINT[unit]).to(SI[kind]).magnitude == pytest.approx(
        factor, rel=1e-14
    )


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("59 lbf.ft", 59.0, "lbf.ft"),
        ("5.5 kgf.m", 5.5, "kgf.m"),
        ("70 N·m", 70.0, "N.m"),
        ("1,35 kgm", 1.35, "kgf.m"),
        ("1,350.5 lb-ft", 1350.5, "lbf.ft"),
        ("60ft-lb", 60.0, "lbf.ft"),
        (" + 90 °", 90.0, "deg"),
        ("1 1/4 turns", 1.25, "turn"),
        ("¼ turn", 0.25, "turn"),
        ("3/8 in", 0.375, "in"),
        ("2 flats", 2.0, "flat"),
        ("25.4 mm", 25.4, "mm"),
        ("12 kN", 12.0, "kN"),
    ],
)
def test_reads_a_quantity(text: str, value: float, unit: str) -> None:
    """A number and its unit give a quantity."""
    assert read(text) == Quantity(value, unit)


@pytest.mark.parametrize(
    ("text", "readings", "offset"),
    [
        ("60", ("60 N.m", "60 lbf.ft", "60 lbf.in", "60 kgf.m"), 2),
        ("60 lb", ("60 lbf.ft", "60 lbf.in", "60 lbf"), 3),
        ("60 pounds", ("60 lbf.ft", "60 lbf.in", "60 lbf"), 3),
        ("5 kg", ("5 kgf.m", "5 kgf.cm", "5 kgf"), 2),
        ("60 ft", ("60 lbf.ft", "60 ozf.ft"), 3),
        ("60 mN", ("60 N.m", "60 cN.m"), 3),
        ("1,350 N.m", ("1350 N.m", "1.35 N.m"), 0),
        ("60 ft/lb", ("60 lbf.ft",), 3),
        ("1 350 N.m", ("1350 N.m",), 0),
        ("1'350 N.m", ("1350 N.m",), 0),
        ("60/44 N.m", ("60 N.m", "44 N.m"), 2),
        ("60-70 N.m", ("60 N.m", "70 N.m"), 2),
        ("60 to 70 N.m", ("60 N.m", "70 N.m"), 3),
        ("80 ±8 N.m", ("80 N.m",), 3),
        ("80 +10/-5 N.m", (), 3),
        ("60-1,350 N.m", (), 2),
        ("60-70 furlongs", (), 2),
        ("60 44 N.m", ("60 N.m", "44 N.m"), 3),
        ("60 furlongs", (), 3),
        ("60 N.m 90", ("60 N.m",), 6),
        ("60 N.m - 70 N.m", ("60 N.m",), 6),
        ("60 N.m dry", (), 3),
        ("1e3 N.m", ("1000 N.m",), 0),
        ("1e400 N.m", (), 0),
        ("nan N.m", (), 0),
        ("inf", (), 0),
        ("", (), 0),
        (" -5 N.m", (), 1),
        ("−5 N.m", (), 0),
        ("1.2.3 N.m", (), 0),
    ],
)
def test_refuses_what_is_no_one_quantity(text: str, readings: tuple[str, ...], offset: int) -> None:
    """What is unclear is asked back with its readings and the place of the trouble."""
    with pytest.raises(NotUnderstood) as caught:
        read(text)
    assert caught.value.readings == readings
    assert caught.value.offset == offset
    assert all(read(reading) for reading in readings)


@pytest.mark.parametrize(
    ("kind", "readings"),
    [
        ("force", ("60 N", "60 kN", "60 lbf", "60 kgf")),
        ("length", ("60 mm", "60 in")),
        ("angle", ("60 deg", "60 turn", "60 flat")),
    ],
)
def test_offers_units_of_the_wanted_kind(kind: Kind, readings: tuple[str, ...]) -> None:
    """A number without a unit gets readings of the kind that belongs there."""
    with pytest.raises(NotUnderstood) as caught:
        read("60", kind)
    assert caught.value.readings == readings


def test_takes_pounds_for_a_force_where_a_force_is_wanted() -> None:
    """The wanted kind settles what the unit alone leaves open."""
    assert read("60 lb", "force") == Quantity(60.0, "lbf")


@pytest.mark.parametrize(
    ("text", "quantity"),
    [
        ("1 m", Quantity(1000.0, "mm")),
        ("0.07 metres", Quantity(70.0, "mm")),
        ("1.5 ft", Quantity(18.0, "in")),
        ("1.356 in", Quantity(1.356, "in")),
    ],
)
def test_takes_metres_and_feet_for_a_length(text: str, quantity: Quantity) -> None:
    """A wrench may be measured in them; where a length is wanted they are no half a torque."""
    assert read(text, "length") == quantity


@pytest.mark.parametrize(
    ("text", "kind", "what"),
    [
        ("75 ft/lbs", "torque", "ft/lbs is no unit of torque"),
        ("60 furlongs", None, "furlongs is no unit; usual are N.m, lbf.ft, lbf.in, kgf.m"),
        ("60 furlongs", "length", "furlongs is no unit of length; usual are mm, in"),
        ("60-70 N.m", "torque", "one number is wanted, with its unit"),
        ("60 N.m ±5", None, 'one number is wanted, with its unit, not "±5" behind it'),
    ],
)
def test_names_what_is_not_wanted(text: str, kind: Kind | None, what: str) -> None:
    """The message quotes the unknown unit, or says that one number is wanted."""
    with pytest.raises(NotUnderstood) as caught:
        read(text, kind)
    assert caught.value.what == what


def test_refuses_a_long_text_in_short() -> None:
    """A very long text is refused by its length."""
    with pytest.raises(NotUnderstood, match="longer than 200"):
        read("9" * 100_000)


@given(st.text(max_size=210) | st.text("0123456789.,/ +-½°NmlbftkginºKſ·\u00a0", max_size=210))
def test_only_not_understood_escapes(text: str) -> None:
    """Any text gives a quantity that is neither negative nor endless, or one refusal."""
    try:
        quantity = read(text)
    except NotUnderstood:
        return
    assert 0 <= quantity.value < 1e9
    assert quantity.unit in FACTORS


@pytest.mark.parametrize(
    ("quantity", "unit", "value"),
    [
        # NIST SP 811 (2008), appendix B.8
        (Quantity(1, "lbf.ft"), "N.m", 1.355818),
        (Quantity(1, "lbf.in"), "Nm", 0.1129848),
        (Quantity(1, "ozf.in"), "N·m", 0.007061552),
        (Quantity(1, "lbf"), "N", 4.448222),
        (Quantity(1, "in"), "mm", 25.4),
        # US Army TM 10-4320-315-24, table 3-4: 30 N·m printed as 22.14 lbf·ft, 0.06 % high
        (Quantity(30, "N.m"), "ft-lb", 22.127),
        (Quantity(1.5, "flat"), "deg", 90.0),
        (Quantity(90, "deg"), "turn", 0.25),
        (Quantity(10, "kgf"), "lb", 22.046226),
    ],
)
def test_converts(quantity: Quantity, unit: str, value: float) -> None:
    """A quantity keeps its size in another unit, to the printed digits."""
    assert convert(quantity, unit).value == pytest.approx(value, rel=1e-6, abs=5e-4)
    assert convert(quantity, unit).unit == unit_named(unit, quantity.kind)


@pytest.mark.parametrize("unit", ["mm", "deg", "lb", "N"])
def test_refuses_to_convert_into_another_kind(unit: str) -> None:
    """A torque becomes neither a length nor an angle, nor half a unit."""
    with pytest.raises(NotUnderstood):
        convert(Quantity(1.0, "N.m"), unit)


UNITS_OF = st.sampled_from(list(FACTORS)).flatmap(
    lambda unit: st.tuples(
        st.just(unit),
        st.sampled_from([other for other in FACTORS if FACTORS[other][0] == FACTORS[unit][0]]),
    )
)


@given(st.floats(0, 1e8), UNITS_OF)
def test_conversion_goes_there_and_back(value: float, units: tuple[str, str]) -> None:
    """Converting to any unit of the kind and back gives the value again."""
    there = convert(Quantity(value, units[0]), units[1])
    assert convert(there, units[0]).value == pytest.approx(value, rel=1e-14)
    assert there.si == pytest.approx(Quantity(value, units[0]).si, rel=1e-14)


def test_conversion_into_the_same_unit_changes_nothing() -> None:
    """Not even the last bit moves."""
    assert convert(Quantity(0.1, "lbf.ft"), "ft lb") == Quantity(0.1, "lbf.ft")


@pytest.mark.parametrize(
    ("quantity", "shown", "plain"),
    [
        (Quantity(59.0, "lbf.ft"), "59 lbf·ft", "59 lbf.ft"),
        (Quantity(79.99325895155463, "N.m"), "79.99 N·m", "79.99 N.m"),
        (Quantity(1355.8179483, "N.m"), "1356 N·m", "1356 N.m"),
        (Quantity(100.00000001, "N.m"), "100 N·m", "100 N.m"),
        (Quantity(125.853, "kgf.m"), "125.853 kgf·m", "125.853 kgf.m"),
        (Quantity(0.00706155181, "N.m"), "0.007062 N·m", "0.007062 N.m"),
        (Quantity(0.0, "N.m"), "0 N·m", "0 N.m"),
        (Quantity(123456.789, "N"), "123457 N", "123457 N"),
        (Quantity(90.0, "deg"), "90°", "90 deg"),
        (Quantity(0.25, "turn"), "0.25 turn", "0.25 turn"),
        (Quantity(1.5, "turn"), "1.5 turns", "1.5 turns"),
        (Quantity(2.0, "flat"), "2 flats", "2 flats"),
    ],
)
def test_writes_for_a_person(quantity: Quantity, shown: str, plain: str) -> None:
    """Typed values stand as typed; converted ones are rounded to four figures."""
    assert write(quantity) == shown
    assert write(quantity, plain=True) == plain


@given(st.integers(1, 999_999), st.integers(0, 5), st.sampled_from(list(FACTORS)), st.booleans())
def test_what_is_written_reads_back(digits: int, places: int, unit: str, plain: bool) -> None:
    """A value of up to six figures survives writing and reading."""
    quantity = Quantity(digits / 10**places, unit)
    assert read(write(quantity, plain=plain)) == quantity


@given(st.floats(1e-6, 1e8), st.sampled_from(list(FACTORS)))
def test_what_is_rounded_stays_within_four_figures(value: float, unit: str) -> None:
    """Rounding moves no value by more than half of its fourth figure."""
    assert read(write(Quantity(value, unit))).value == pytest.approx(value, rel=5.1e-4)


def values(printed: str) -> tuple[float, ...]:
    """Return the two ends of a range, or the value in front of its tolerance."""
    return tuple(float(one) for one in re.findall(r"[\d.]+", printed.partition("±")[0]))


def decimals(printed: str) -> int:
    """Return how many decimals a printed value has."""
    return max(len(one.partition(".")[2]) for one in re.findall(r"[\d.]+", printed))


PAIRS = rows("D_printed_unit_pairs.csv")


def test_finds_exactly_the_printed_pairs_that_disagree() -> None:
    """Of 171 printed pairs those are found that their readers call wrong, and no other."""
    found = []
    for row in PAIRS:
        first, second = values(row["value_1"]), values(row["value_2"])
        units = unit_named(row["unit_1"], "torque"), unit_named(row["unit_2"], "torque")
        places = decimals(row["value_1"]), decimals(row["value_2"])
        if pair_deviation(first, units[0], second, units[1], decimals=places) > PAIR_TOLERANCE:
            found.append(row["item"])
    assert len(PAIRS) == 171
    assert found == [row["item"] for row in PAIRS if row["verdict"] == "DISAGREES"]
    assert len(found) == 7


@pytest.mark.parametrize(
    ("row", "unit", "printed", "other", "share"),
    [
        (0, "N.m", "8.50745782", "lbf.in", 0.0388),
        (1, "N.m", "0.7375621", "lbf.ft", 0.0),
        (1, "N.m", "8.8507458", "lbf.in", 0.0),
        (1, "N.m", "141.61193", "ozf.in", 0.0),
        (2, "N.m", "0.1", "kgf.m", 0.0193),
        (4, "lbf.ft", "0.1383", "kgf.m", 0.0003),
        (5, "lbf.ft", "1.4", "N.m", 0.0326),
        (6, "N.m", "0.738", "lbf.ft", 0.0006),
    ],
)
def test_measures_the_slips_of_published_factors(
    row: int, unit: str, printed: str, other: str, share: float
) -> None:
    """Wrong factors in print deviate by what their readers found; right ones by rounding."""
    assert printed in rows("D_published_conversion_slips.csv")[row]["printed"]
    found = pair_deviation((1.0,), unit, (float(printed),), other, decimals=(9, 9))
    assert found == pytest.approx(share, abs=5e-5)


def test_guesses_the_decimals_of_bare_numbers() -> None:
    """Without printed decimals, as many are taken as the finest value needs."""
    assert pair_deviation((7.0,), "lbf.ft", (10.0,), "N.m") == 0.0
    assert pair_deviation((7.5,), "lbf.ft", (11.0,), "N.m") == pytest.approx(0.0818, abs=1e-4)


def test_a_pair_with_zero_disagrees_without_end() -> None:
    """A lost digit may leave zero: that has no share to give."""
    assert pair_deviation((0.0, 110.0), "lbf.ft", (135.0, 149.0), "N.m") == float("inf")


def test_refuses_a_value_beside_a_range() -> None:
    """One value and two make no pair."""
    with pytest.raises(TorquebookError, match="1 and 2 values"):
        pair_deviation((1.0,), "N.m", (1.0, 2.0), "N.m")


def test_imports_little() -> None:
    """Units start fast: none of the slow modules is loaded."""
    code = "import sys, torquebook.units; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    heavy = {"decimal", "fractions", "inspect", "dataclasses", "yaml", "pydantic", "jsonschema_rs"}
    assert not heavy & set(done.stdout.split())
