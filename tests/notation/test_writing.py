"""Writing stages, and reading back what is written."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood
from torquebook.notation import Angle, Form, Slacken, Stage, Torque, Wait, read, write
from torquebook.units import FACTORS

TORQUES = [unit for unit, (kind, _) in FACTORS.items() if kind == "torque"]
ANGLES = [unit for unit, (kind, _) in FACTORS.items() if kind == "angle"]

NUMBERS = (
    st.integers(0, 9999).map(float)
    | st.builds(
        lambda digits, places: digits / 10**places, st.integers(0, 99_999), st.integers(1, 4)
    )
    | st.builds(
        lambda top, bottom: top / bottom, st.integers(0, 40), st.sampled_from([3, 6, 8, 12])
    )
    | st.floats(1e-6, 1e8)
)
FORMS: dict[Form, st.SearchStrategy[tuple[float, ...]]] = {
    "exact": st.tuples(NUMBERS),
    "minimum": st.tuples(NUMBERS),
    "maximum": st.tuples(NUMBERS),
    "range": st.tuples(NUMBERS, NUMBERS),
    "tolerance": st.tuples(NUMBERS, NUMBERS, NUMBERS).map(
        lambda three: (max(three[:2]), min(three[:2]), three[2])
    )
    | st.tuples(NUMBERS, NUMBERS).map(lambda two: (max(two), min(two), min(two))),
}


@st.composite
def torques(draw: st.DrawFn) -> Torque:
    """Draw a torque in any form and unit, with or without a second unit beside it."""
    form = draw(st.sampled_from(list(FORMS)))
    numbers = FORMS[form] | st.tuples(NUMBERS) if form == "tolerance" else FORMS[form]
    beside = st.none() | st.tuples(numbers, st.sampled_from(TORQUES))
    return Torque(draw(st.sampled_from(TORQUES)), form, draw(FORMS[form]), draw(beside))


def is_more_than_nothing(torque: Torque) -> bool:
    """Return whether neither the torque nor its second unit is 0, which no text may be."""
    first = max if torque.form == "range" else next
    printed = [torque.printed, *([torque.beside[0]] if torque.beside else [])]
    return all(first(iter(numbers)) > 0 for numbers in printed)


@st.composite
def angles(draw: st.DrawFn) -> Angle:
    """Draw an angle in any form and unit."""
    form = draw(st.sampled_from([form for form in FORMS if not form.endswith("imum")]))
    return Angle(draw(st.sampled_from(ANGLES)), form, draw(FORMS[form]))


def fits(stages: tuple[Stage, ...]) -> bool:
    """Tell whether no two neighbours are what a sheet prints for one torque."""
    return not any(
        isinstance(one, Torque)
        and isinstance(other, Torque)
        and (one.unit != other.unit or {one.form, other.form} == {"minimum", "maximum"})
        for one, other in pairwise(stages)
    )


OTHERS = st.builds(Slacken, st.none() | NUMBERS) | st.builds(Wait, NUMBERS)
STAGES = (
    st.lists(torques().filter(is_more_than_nothing) | angles() | OTHERS, min_size=1, max_size=5)
    .map(tuple)
    .filter(fits)
)


@given(STAGES, st.booleans())
def test_what_is_written_reads_back(stages: tuple[Stage, ...], plain: bool) -> None:
    """Every sequence of stages survives, in both alphabets."""
    text = write(stages, plain=plain)
    assert read(text) == stages
    assert write(read(text), plain=plain) == text
    assert text.isascii() or not plain


@given(STAGES)
def test_columns_point_at_their_stage(stages: tuple[Stage, ...]) -> None:
    """Each column is where the stage begins, and they rise."""
    text = write(stages)
    columns = [stage.column for stage in read(text)]
    assert columns == sorted(set(columns))
    for stage, column in zip(stages, columns, strict=True):
        alone = write((stage,)).removeprefix("+")
        assert text[column - 1 :].startswith(alone)


@pytest.mark.parametrize(
    ("stage", "shown", "plain"),
    [
        (Torque("lbf.ft", "exact", (59.0,)), "59 lbf·ft", "59 lbf.ft"),
        (Torque("N.m", "range", (60.0, 70.0)), "60–70 N·m", "60-70 N.m"),
        (Torque("N.m", "tolerance", (80.0, 8.0, 8.0)), "80 ±8 N·m", "80 +/-8 N.m"),
        (Torque("N.m", "tolerance", (60.0, 0.0, 10.0)), "60 +10/−0 N·m", "60 +10/-0 N.m"),
        (Torque("N.m", "minimum", (20.0,)), "min 20 N·m", "min 20 N.m"),
        (Torque("lbf.in", "maximum", (100.0,)), "max 100 lbf·in", "max 100 lbf.in"),
        (
            Torque("lbf.ft", "range", (100.0, 110.0), ((135.0, 170.0), "N.m")),
            "100–110 lbf·ft (135–170 N·m)",
            "100-110 lbf.ft (135-170 N.m)",
        ),
        (
            Torque("N.m", "tolerance", (80.0, 8.0, 8.0), ((59.0,), "lbf.ft")),
            "80 ±8 N·m (59 lbf·ft)",
            "80 +/-8 N.m (59 lbf.ft)",
        ),
        (Angle("deg", "exact", (90.0,)), "+90°", "+90 deg"),
        (Angle("deg", "tolerance", (90.0, 5.0, 5.0)), "+90 ±5°", "+90 +/-5 deg"),
        (Angle("turn", "exact", (1.25,)), "+1 1/4 turns", "+1 1/4 turns"),
        (Angle("turn", "range", (0.25, 0.5)), "+1/4 to 1/2 turn", "+1/4 to 1/2 turn"),
        (Angle("flat", "exact", (2.0,)), "+2 flats", "+2 flats"),
        (Slacken(), "slacken", "slacken"),
        (Slacken(90.0), "slacken 90°", "slacken 90 deg"),
        (Wait(5.0), "wait 5 min", "wait 5 min"),
    ],
)
def test_writes_each_stage(stage: Stage, shown: str, plain: str) -> None:
    """The canonical text of each form."""
    assert write((stage,)) == shown
    assert write((stage,), plain=True) == plain


def test_asks_back_what_stands_for_one_torque_even_when_we_wrote_it() -> None:
    """Two near torques in two units, one behind the other, read as one printed twice."""
    twice = (Torque("N.m", "exact", (30.0,)), Torque("lbf.ft", "exact", (22.0,)))
    with pytest.raises(NotUnderstood):
        read(write(twice))
