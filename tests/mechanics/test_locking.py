"""Drag by the sources' rules, breakaway torque, and the window of an audit."""

from __future__ import annotations

from math import inf, nan, nextafter, pi, sqrt
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.bands import Band
from torquebook.errors import NotUnderstood, OutOfRange, TorquebookError
from torquebook.mechanics import locking
from torquebook.mechanics.preload import torque_from_preload
from torquebook.mechanics.thread import pitch_diameter

if TYPE_CHECKING:
    from collections.abc import Callable

Row = dict[str, str]

# Retightening torque over installation torque, a bolt maker's figure (page not at hand)
WINDOW = Band(0.85, 1.0, 1.30)
M10 = {"pitch_mm": 1.5, "d2_mm": 9.026, "bearing_mm": 13.0}


def test_drag_at_a_third() -> None:
    """By TB 43-0218 drag counts from a third of the torque on; by AC 43.13 always."""
    for drag, counted in ((nextafter(10, 0), False), (10, True), (nextafter(10, 11), True)):
        torque = locking.torque_with_drag(30, drag, "third")
        assert torque == (30 + drag if counted else 30)
        assert locking.torque_with_drag(30, drag, "added") == 30 + drag
    assert locking.torque_with_drag(30, 8) == 38


def test_no_drag_and_no_torque() -> None:
    """Without drag the table's torque stands; without torque all is drag, by either rule."""
    for rule in ("added", "third"):
        assert locking.torque_with_drag(30, 0, rule) == 30
        assert locking.torque_with_drag(0, 5, rule) == 5


@pytest.mark.parametrize("value", [-1.0, inf, nan])
@pytest.mark.parametrize(("rule", "source"), [("added", "AC 43"), ("third", "TB 43")])
def test_drag_out_of_range(value: float, rule: locking.DragRule, source: str) -> None:
    """Torque and drag below 0 or no numbers are refused, by the rule's own source."""
    with pytest.raises(OutOfRange, match=rf"^torque_nm = .*{source}"):
        locking.torque_with_drag(value, 5, rule)
    with pytest.raises(OutOfRange, match=rf"^drag_nm = .*{source}"):
        locking.torque_with_drag(30, value, rule)


def test_rule_of_drag_is_known() -> None:
    """A rule that no source has is refused, with those that there are."""
    with pytest.raises(NotUnderstood, match="added or third"):
        locking.torque_with_drag(30, 5, "half")  # type: ignore[arg-type]


QUANTITY = "quantity(FM_kN|MA_Nm)"
# d_w of ISO 4014, least, as printed in the washer face columns of flange_heads.csv
FACES = {"M8": 11.63, "M10": 14.63, "M12": 16.63}


@pytest.mark.published("vdi2230_fine.csv", {QUANTITY: "MA_Nm", "thread": tuple(FACES)}, 27)
def test_breakaway_of_the_printed_table(
    printed: Row, published: Callable[[str], list[Row]], hole_medium_mm: dict[float, float]
) -> None:
    """Loosening takes the printed torque less twice what the slope of the thread adds.

    Within 2 %: the printed torques have two or three figures, and the slope takes 13 to
    20 % of them.
    """
    same = ("thread", "pitch", "class", "mu")
    (partner,) = (
        row
        for row in published("vdi2230_fine.csv")
        if row[QUANTITY] == "FM_kN" and all(row[key] == printed[key] for key in same)
    )
    d_mm, pitch_mm, mu = (float(printed[key].lstrip("M")) for key in ("thread", "pitch", "mu"))
    load = float(partner["value"]) * 1000
    tight = float(printed["value"])
    loose = tight - load * pitch_mm / pi / 1000
    bearing_mm = (FACES[printed["thread"]] + hole_medium_mm[d_mm]) / 2
    d2_mm = pitch_diameter(d_mm, pitch_mm)
    computed = locking.breakaway_torque(load, pitch_mm, d2_mm, mu, mu, bearing_mm)
    assert computed == pytest.approx(loose, rel=0.02)
    assert 0.6 < computed / tight < 0.85


def test_frictionless_bolt_turns_itself_out() -> None:
    """Without friction the slope of the thread drives the bolt loose with F P / 2π."""
    slope = 30000 * 1.5 / (2 * pi) / 1000
    assert locking.breakaway_torque(30000, 1.5, 9.026, 0, 0, 13) == pytest.approx(-slope)


def test_bolt_holds_from_the_angle_of_friction_on() -> None:
    """With a slippery head the thread holds itself where mu_G / cos 30° is its slope."""
    even = 1.5 / (pi * 9.026) * sqrt(3) / 2
    assert locking.breakaway_torque(30000, 1.5, 9.026, even, 0, 13) == pytest.approx(0, abs=1e-9)
    assert locking.breakaway_torque(30000, 1.5, 9.026, even * 0.99, 0, 13) < 0
    assert locking.breakaway_torque(30000, 1.5, 9.026, even * 1.01, 0, 13) > 0


@given(load=st.floats(1, 1e6), thread=st.floats(0, 0.5), head=st.floats(0, 0.5))
def test_loosening_is_easier_than_tightening(load: float, thread: float, head: float) -> None:
    """A bolt loosens at less than it was tightened to, by twice the slope's share."""
    tight = torque_from_preload(load, mu_thread=thread, mu_head=head, **M10)
    loose = locking.breakaway_torque(load, mu_thread=thread, mu_head=head, **M10)
    assert tight - loose == pytest.approx(load * 1.5 / pi / 1000)


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"preload_n": -1.0}, "preload_n"),
        ({"pitch_mm": 0.0}, "pitch_mm"),
        ({"d2_mm": nan}, "d2_mm"),
        ({"mu_thread": 1.1}, "mu_thread"),
        ({"mu_head": -0.1}, "mu_head"),
        ({"bearing_mm": inf}, "bearing_mm"),
    ],
)
def test_breakaway_out_of_range(change: dict[str, float], name: str) -> None:
    """A value outside its range is refused by its name."""
    values = {"preload_n": 30000.0, "mu_thread": 0.12, "mu_head": 0.12, **M10}
    with pytest.raises(OutOfRange, match=rf"^{name} = "):
        locking.breakaway_torque(**values | change)


def test_audit_window_of_a_band() -> None:
    """A torque that was itself a band widens at both ends."""
    window = locking.audit_window(Band(96, 100, 104), WINDOW)
    assert window == Band(pytest.approx(81.6), 100, pytest.approx(135.2))


@given(low=st.floats(1, 500), step=st.floats(0, 100))
def test_audit_reads_back(low: float, step: float) -> None:
    """The torque that a joint was tightened with lies in what its audit reading allows."""
    torque = Band(low, low + step, low + 2 * step)
    seen = locking.audit_window(torque, WINDOW)
    for reading in seen:
        back = locking.installed_torque(Band.exact(reading), WINDOW)
        assert back.low <= torque.high * (1 + 1e-9)
        assert back.high >= torque.low * (1 - 1e-9)
    exact = locking.installed_torque(seen, Band.exact(1.0))
    assert exact == seen


@pytest.mark.parametrize("formula", [locking.audit_window, locking.installed_torque])
def test_audit_out_of_range(formula: Callable[[Band, Band], Band]) -> None:
    """Torques below 0, windows at 0 and bands out of order are refused."""
    with pytest.raises(OutOfRange, match=r"^torque_nm = "):
        formula(Band(-1, 100, 104), WINDOW)
    with pytest.raises(OutOfRange, match=r"^window = "):
        formula(Band.exact(100), Band(0, 1, 1.3))
    with pytest.raises(TorquebookError, match="from low to high"):
        formula(Band(104, 100, 96), WINDOW)
    with pytest.raises(TorquebookError, match="from low to high"):
        formula(Band.exact(100), Band(1.3, 1, 0.85))
