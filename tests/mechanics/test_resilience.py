"""Resilience of the screw against Shigley and a printed stretch."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood, OutOfRange
from torquebook.mechanics.resilience import Section, bolt_resilience, bolt_sections, stretch
from torquebook.mechanics.thread import root_diameter

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

MPA_PER_PSI = 4.4482216152605 / 25.4**2  # exact
N_MM_PER_LBF_IN = 4.4482216152605 / 25.4  # exact
SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed., table 8-12, p. 437"


@pytest.mark.parametrize(
    ("grip_in", "printed"),
    [(2, 2.57), (3, 1.79), (4, 1.37)],
    ids=lambda value: f"{SHIGLEY} {value}",
)
def test_handbook_bolt(
    grip_in: float, printed: float, published: Callable[[str], list[Row]]
) -> None:
    """1/2-13 gives the printed k_b, in Mlbf/in, to half its last digit.

    The screw is 1/2 in longer than the grip and has thread over 2 d + 1/4 in, so 0.75 in of
    thread lie in the grip, on the tensile stress area; the rest is shank.
    """
    areas = {
        row["thread"]: float(row["value"])
        for row in published("asme_threads.csv")
        if row["quantity"] == "At_in2_table"
    }
    modulus = 30e6 * MPA_PER_PSI
    thread_in = 2 * 0.5 + 0.25 - 0.5
    shank = Section((grip_in - thread_in) * 25.4, pi / 4 * 12.7**2, modulus)
    thread = Section(thread_in * 25.4, areas["1/2-13 UNC"] * 25.4**2, modulus)
    stiffness = 1 / bolt_resilience((shank, thread)) / N_MM_PER_LBF_IN / 1e6
    assert stiffness == pytest.approx(printed, abs=0.00501)


def test_printed_stretch() -> None:
    """7/8-9, 10 000 lbf, 5 in, 30e6 psi and 0.46 in² give the printed 0.0036 in.

    An engineering reference page; four decimals are printed.
    """
    bolt = Section(5 * 25.4, 0.46 * 25.4**2, 30e6 * MPA_PER_PSI)
    length_mm = stretch(10000 * 4.4482216152605, bolt_resilience((bolt,)))
    assert length_mm / 25.4 == pytest.approx(0.0036, abs=0.0000501)


def test_sections_of_vdi() -> None:
    """Substitution lengths and areas are those of VDI 2230-1:2003, from memory."""
    nominal = pytest.approx(pi / 4 * 100)
    root = pytest.approx(pi / 4 * root_diameter(10, 1.5) ** 2)
    head, shank, free, engaged, nut = bolt_sections(10, 1.5, 20, 8, 15, 205000, 70000)
    assert head == (5, nominal, 205000)
    assert shank == (20, pytest.approx(pi / 4 * 64), 205000)
    assert free == (15, root, 205000)
    assert engaged == (5, root, 205000)
    assert nut == (4, nominal, 70000)
    socket = bolt_sections(10, 1.5, 20, 8, 15, 205000, 70000, "socket", "tapped")
    assert socket[0].length_mm == 4
    assert socket[1:4] == (shank, free, engaged)
    assert socket[4].length_mm == pytest.approx(3.3)


def test_a_spring_of_springs() -> None:
    """Sections in series add up, and a section of no length adds nothing."""
    one, two = Section(10, 50, 205000), Section(30, 80, 70000)
    both = bolt_resilience((one, two))
    assert both == pytest.approx(bolt_resilience((one,)) + bolt_resilience((two,)))
    assert bolt_resilience((one, two, Section(0, 1, 1))) == both


sizes = st.tuples(st.floats(3, 40), st.floats(0.05, 0.2)).map(lambda two: (two[0], two[0] * two[1]))
lengths = st.floats(0, 200)


@given(size=sizes, shank=lengths, thread=lengths, waist=st.floats(0.6, 0.99))
def test_monotony(size: tuple[float, float], shank: float, thread: float, waist: float) -> None:
    """A screw gives more with a longer shank or thread, a thinner shank, a softer nut."""

    def at(shank: float, thread: float, share: float = 1.0, nut: float = 205000) -> float:
        sections = bolt_sections(*size, shank, size[0] * share, thread, 205000, nut)
        return bolt_resilience(sections)

    here = at(shank, thread)
    assert at(shank + 1, thread) > here
    assert at(shank, thread + 1) > here
    assert at(shank + 1, thread, waist) > at(shank + 1, thread)
    assert at(shank, thread, nut=70000) > here
    assert stretch(20000, here) == pytest.approx(2 * stretch(10000, here))


GOOD = {
    "d_mm": 10.0,
    "pitch_mm": 1.5,
    "shank_length_mm": 20.0,
    "shank_mm": 10.0,
    "free_thread_mm": 15.0,
    "modulus_mpa": 205000.0,
    "thread_modulus_mpa": 205000.0,
}
MAY_BE_NONE = ("shank_length_mm", "free_thread_mm")


@pytest.mark.parametrize("name", GOOD)
def test_sections_out_of_range(name: str) -> None:
    """Each argument is held to its range by its own name."""
    for value in [-1.0, float("inf"), float("nan")] + [0.0] * (name not in MAY_BE_NONE):
        with pytest.raises(OutOfRange, match=f"^{name} = "):
            bolt_sections(**GOOD | {name: value})


def test_sections_without_shank_or_thread() -> None:
    """A screw may have no shank, or no free thread."""
    bare = bolt_sections(**GOOD | dict.fromkeys(MAY_BE_NONE, 0.0))
    assert sum(section.length_mm for section in bare) == pytest.approx(14)


def test_names_unknown() -> None:
    """A head or joint of no known kind is refused with those that there are."""
    with pytest.raises(NotUnderstood, match="no such head; write hexagon or socket"):
        bolt_sections(**GOOD, head="round")
    with pytest.raises(NotUnderstood, match="no such joint; write through or tapped"):
        bolt_sections(**GOOD, joint="glued")


@pytest.mark.parametrize(
    ("name", "sections"),
    [
        ("sections", ()),
        ("length_mm", (Section(-1, 50, 205000),)),
        ("area_mm2", (Section(1, 0, 205000),)),
        ("modulus_mpa", (Section(1, 50, 205000), Section(1, 50, float("inf")))),
    ],
)
def test_bolt_out_of_range(name: str, sections: tuple[Section, ...]) -> None:
    """No section, or a figure of one out of range, is refused by its name."""
    with pytest.raises(OutOfRange, match=f"^{name} = "):
        bolt_resilience(sections)


@pytest.mark.parametrize("value", [-1e-9, 0.0, 1.0, float("nan")])
def test_stretch_out_of_range(value: float) -> None:
    """A resilience that is none of a screw, or a preload below 0, is refused."""
    with pytest.raises(OutOfRange, match=r"^bolt_mm_per_n = "):
        stretch(10000, value)
    with pytest.raises(OutOfRange, match=r"^preload_n = "):
        stretch(-1e-9, 4e-6)
    assert stretch(0, 4e-6) == 0
