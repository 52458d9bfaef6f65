"""Unit names and their spellings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood
from torquebook.unitnames import FACTORS, LONGEST, Kind, unit_at, unit_named, unknown_at

SPELLINGS = {
    "N.m": "Nm,NM,nm,N-m,N·m,N⋅m,N.m,N.m.,N*m,N m,newton metres,Newton-meters,newton·metre,N‧m"
    ",N・m,Newtonmeter",
    "cN.m": "cNm,cN·m,Ncm,N.cm,N·cm",
    "dN.m": "dNm,dN.m",
    "daN.m": "daNm,daN.m,m.daN,m·daN",
    "kgf.m": "mkg,mkp,kpm,kp·m,kg-m,kgm,kg.m,kg/m,kgf-m,m.kg,kgf.m,kp m,kilopond metres,kp/m",
    "kgf.cm": "kgf cm,kg·cm,cm.kg,kp.cm,kgf-cm,kg cm",
    "lbf.ft": "ft-lb,ft lb,ft·lbf,lb ft,lb-ft,lbf·ft,lbs.ft,pound-feet,foot-pounds,ft. lbs.,FT-LBS"
    ",ftlbs,lbf ft,foot pounds force,lb‑ft",
    "lbf.in": "in-lb,in-lbs,in.-lb.,lb in,lbf·in,inch pounds,in. lbs.,lbf.in,IN-LB",
    "ozf.in": "oz-in,in-oz,ozf.in,ounce-inches,in.-oz.",
    "ozf.ft": "oz-ft,ozf·ft",
    "N": "N,newton,newtons",
    "kN": "kN,kilonewtons",
    "lbf": "lbf,pound force",
    "kgf": "kgf,kp,kilopond",
    "mm": "mm,millimetres,millimeter",
    "cm": "cm,centimetres",
    "in": "in,in.,inch,inches,\",″,''",
    "deg": "°,º,deg,degs,degree,degrees,deg.,Grad,grados,degré,degrés",
    "turn": "turn,turns,rev,revs,revolution,Umdrehung,Umdrehungen,tour,tours",
    "flat": "flat,flats,face,faces",
}


@pytest.mark.parametrize(
    ("unit", "spelling"),
    [(unit, one) for unit, spellings in SPELLINGS.items() for one in spellings.split(",")],
)
def test_names_every_spelling(unit: str, spelling: str) -> None:
    """Any usual spelling gives the one plain name, with or without space around it."""
    assert unit_named(spelling) == unit
    assert unit_named(f" {spelling} ") == unit


def test_knows_spellings_of_every_unit() -> None:
    """The list above covers every unit that has a factor, and each names itself."""
    assert set(SPELLINGS) == set(FACTORS)
    assert [unit_named(unit) for unit in FACTORS] == list(FACTORS)


@pytest.mark.parametrize(
    ("spelling", "readings"),
    [
        ("lb", ("lbf.ft", "lbf.in", "lbf")),
        ("pounds", ("lbf.ft", "lbf.in", "lbf")),
        ("kg", ("kgf.m", "kgf.cm", "kgf")),
        ("oz", ("ozf.in", "ozf.ft")),
        ("ft", ("lbf.ft", "ozf.ft")),
        ("m", ("N.m", "kgf.m")),
        ("mN", ("N.m", "cN.m")),
        ("cN", ("cN.m",)),
        ("dN", ("dN.m",)),
        ("daN", ("daN.m",)),
        ("cm/kg", ("kgf.cm",)),
        ("ft/lb", ("lbf.ft",)),
        ("N/m", ("N.m",)),
        ("mN.m", ()),
        ("", ()),
        ("furlongs", ()),
        ("60", ()),
        ("N.m x", ()),
    ],
)
def test_asks_back_what_may_be_more_than_one_unit(spelling: str, readings: tuple[str, ...]) -> None:
    """Half a torque unit, a mass for a force, a slash for a product: the readings are given."""
    with pytest.raises(NotUnderstood) as caught:
        unit_named(spelling)
    assert caught.value.readings == readings


@pytest.mark.parametrize(
    ("spelling", "kind", "unit"),
    [
        ("lb", "force", "lbf"),
        ("kg", "force", "kgf"),
        ("Nm", "torque", "N.m"),
        ("in", "length", "in"),
    ],
)
def test_takes_a_mass_for_a_force_where_a_force_is_wanted(
    spelling: str, kind: Kind, unit: str
) -> None:
    """The wanted kind settles what "lb" means."""
    assert unit_named(spelling, kind) == unit


@pytest.mark.parametrize(
    ("spelling", "kind", "said"),
    [
        ("mm", "torque", "mm measures a length; torque goes in N.m, lbf.ft, lbf.in, kgf.m"),
        ("°", "torque", "deg measures an angle"),
        ("Nm", "angle", "N.m measures a torque; angle goes in deg, turn, flat"),
        ("N", "torque", "write N.m or cN.m"),
        ("in", "torque", "write lbf.in or ozf.in"),
        ("mN", "force", "may be more than one unit"),
    ],
)
def test_refuses_a_unit_of_another_kind(spelling: str, kind: Kind, said: str) -> None:
    """The message says what the unit measures and what belongs there."""
    with pytest.raises(NotUnderstood, match=said.replace(".", r"\.")):
        unit_named(spelling, kind)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("30 lb ft then", ("lbf.ft", 8)),
        ("30 N.m-40", ("N.m", 6)),
        ("30 in.-lb. x", ("lbf.in", 10)),
        ("30 in.5", ("in", 5)),
        ("30 foo", None),
        ("30 ", None),
    ],
)
def test_takes_the_longest_spelling(text: str, found: tuple[str, int] | None) -> None:
    """Words behind a unit are left; a closing point goes with it, a decimal point does not."""
    assert unit_at(text, 3) == found


def test_takes_a_slash_for_part_of_a_unit_only_where_a_unit_follows() -> None:
    """A stage may follow behind "30 kg /"; the unit is doubtful by itself."""
    with pytest.raises(NotUnderstood, match="kg may be more than one unit"):
        unit_at("30 kg / max 40 kg", 3)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("30 ft/lbs then", ("ft/lbs", "lbf.ft")),
        ("30 lb / ft", ("lb / ft", "lbf.ft")),
        ("30 foo bar", ("foo", None)),
        ("30 ±5", None),
    ],
)
def test_finds_the_words_that_stand_for_a_unit(
    text: str, found: tuple[str, str | None] | None
) -> None:
    """A quotient of two halves comes near their product; other words near nothing."""
    assert unknown_at(text, 3) == found


def test_refuses_a_long_text() -> None:
    """A text above the limit is refused by its length, without repeating all of it."""
    with pytest.raises(NotUnderstood, match="longer than 200 characters") as caught:
        unit_named("N" * (LONGEST + 1))
    assert len(str(caught.value)) < 100


@given(st.text(max_size=250), st.sampled_from([None, "torque", "force", "length", "angle"]))
def test_only_not_understood_escapes(text: str, kind: Kind | None) -> None:
    """Any text gives a known unit or one clear refusal."""
    try:
        unit = unit_named(text, kind)
    except NotUnderstood:
        return
    assert unit in FACTORS
    assert kind in {None, FACTORS[unit][0]}
