"""Stages for one unit, each on the best wrench at hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook import notation
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood
from torquebook.jobs.stages import at_hand, in_unit, worked_stages
from torquebook.units import Quantity

if TYPE_CHECKING:
    from conftest import Bench

BOOK = Book.open()
WRENCH = """\
kind: wrench
title: "A wrench of the user's"
name: "{name}"
low: {low}
high: {high}
unit: "{unit}"
deviation: 0.04
drive: "3/8 in"
source: {{kind: manual, title: "its own sheet", provenance: "read on it"}}
"""


def own(bench: Bench, name: str, low: float, high: float, unit: str = "N.m") -> None:
    path = bench.folder / "wrenches" / f"{name.replace(' ', '-')}.yaml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(WRENCH.format(name=name, low=low, high=high, unit=unit), encoding="utf-8")


def stages(text: str, *wrenches: str, unit: str = "N.m") -> list[tuple[str, str, Quantity | None]]:
    found = worked_stages(notation.read(text), unit, at_hand(BOOK, wrenches))
    return [(one.shown, one.wrench, one.setting) for one in found]


def test_the_joints_own_wrench_comes_first_where_it_covers(bench: Bench) -> None:
    """95 N·m lies nearer the middle of larger wrenches, but the joint names its own."""
    worked = bench.joint(tighten='"95 N.m"', wrench='"click 20-100"').stages[0]
    assert (worked.wrench, worked.setting) == ("click 20-100", Quantity(95.0, "N.m"))
    assert bench.joint(tighten='"95 N.m"').stages[0].wrench == "click 20-150 lbf.ft"


def test_another_wrench_stands_in_for_a_stage_that_it_does_not_cover(bench: Bench) -> None:
    """15 N·m is below the joint's own wrench; its other stage is not."""
    first, second = bench.joint(tighten='"15 N.m, 44 N.m"', wrench='"click 20-100"').stages
    assert (first.wrench, second.wrench) == ("click 5-25", "click 20-100")


@pytest.mark.parametrize("named", ["20-100 N.m", "nobody's own"])
def test_a_range_or_an_unknown_name_leaves_it_to_the_wrenches_at_hand(
    bench: Bench, named: str
) -> None:
    """A joint that names no wrench of the book takes the best one."""
    assert bench.joint(tighten='"44 N.m"', wrench=f'"{named}"').stages[0].wrench == "click 20-100"


def test_a_user_with_wrenches_of_his_own_gets_no_other(bench: Bench) -> None:
    """The demo's wrenches stand in only for somebody who has none."""
    own(bench, "my click", 10, 60)
    worked = bench.joint(tighten='"15 N.m, 75 N.m"', wrench='"click 20-100"').stages
    assert [(one.wrench, one.covered) for one in worked] == [("my click", True), ("", False)]
    assert worked[1].setting is None


def test_named_wrenches_are_the_only_ones() -> None:
    """A stage that they do not cover stays without one; an unknown name is asked back."""
    assert stages("8 N.m, 30 N.m", "click 20-100") == [
        ("8 N·m", "", None),
        ("30 N·m", "click 20-100", Quantity(30.0, "N.m")),
    ]
    with pytest.raises(NotUnderstood, match="click 20-100"):
        at_hand(BOOK, ["clik 20-100"])


@pytest.mark.parametrize(
    ("text", "shown", "setting", "aim"),
    [
        ("60-70 N.m", "60–70 N·m", 65.0, "the middle of the range"),
        ("80 ±8 N.m", "80 ±8 N·m", 80.0, "the nominal value"),
        ("min 50 N.m", "min 50 N·m", 50.0, "the least"),
        ("max 50 N.m", "max 50 N·m", 50.0, "the most"),
        ("50 N.m", "50 N·m", 50.0, ""),
        ("60.1-60.2 N.m", "60.1–60.2 N·m", 60.15, "the middle of the range"),
        ("60.01-60.02 N.m", "60.01–60.02 N·m", 60.015, "the middle of the range"),
    ],
)
def test_a_range_is_aimed_at_its_middle(text: str, shown: str, setting: float, aim: str) -> None:
    """The setting says what of the printed value it is, and never leaves the range."""
    (found,) = worked_stages(notation.read(text), "N.m", at_hand(BOOK, ["click 20-100"]))
    assert (found.shown, found.setting, found.aim) == (shown, Quantity(setting, "N.m"), aim)


@pytest.mark.parametrize(("text", "set_to"), [("min 30 N.m", 22.13), ("max 44 N.m", 32.45)])
def test_rounding_never_passes_a_limit(text: str, set_to: float) -> None:
    """30 N·m is 22.127 lbf·ft, 44 N·m is 32.453; three figures would be 22.1 and 32.5."""
    ((_, _, setting),) = stages(text, "click 20-150 lbf.ft")
    assert setting == Quantity(set_to, "lbf.ft")


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    [
        ("46 lbf.ft", "N.m", "62.4 N·m"),
        ("100 N.m", "lbf.ft", "73.8 lbf·ft"),
        ("22.14 ft lb (30 Nm)", "N.m", "30 N·m"),
        ("22.14 ft lb (30 Nm)", "lbf.ft", "22.14 lbf·ft"),
        ("44 ±4 lbf.ft (60 N.m)", "N.m", "59.7 ±5.42 N·m"),
    ],
)
def test_a_torque_is_shown_in_the_unit_of_the_job(text: str, unit: str, shown: str) -> None:
    """As printed where the sheet has that unit, else converted to three figures."""
    (stage,) = notation.read(text)
    assert isinstance(stage, notation.Torque)
    assert notation.write((in_unit(stage, unit),)) == shown


def test_the_setting_is_in_the_unit_of_the_scale() -> None:
    """10 kgf·m is 72.3 lbf·ft (98.0665 N·m / 1.3558179)."""
    ((shown, wrench, setting),) = stages("10 kgf.m", "click 20-150 lbf.ft", unit="N.m")
    assert (shown, wrench, setting) == ("98.1 N·m", "click 20-150 lbf.ft", Quantity(72.3, "lbf.ft"))


@pytest.mark.parametrize(
    ("text", "window"),
    [
        ("30 N.m, +60 deg", True),
        ("30 N.m, +60 deg, wait 5 min", True),
        ("30 N.m, +60 deg, 40 N.m", False),
    ],
)
def test_the_last_angle_has_a_window(bench: Bench, text: str, *, window: bool) -> None:
    """After an angle the wrench shows a torque within the band that was computed."""
    worked = bench.joint(tighten=f'"{text}"')
    turn = worked.stages[1]
    assert (turn.wrench, turn.covered, turn.setting) == ("", True, None)
    assert bool(turn.window) is window
    if turn.window:
        assert worked.answer.turned is not None
        low, _, high = worked.answer.turned.torque_nm
        assert [end.si for end in turn.window] == pytest.approx([low, high], rel=0.006)
        assert low < high


def test_an_angle_of_an_unknown_class_has_none(bench: Bench) -> None:
    """Nobody knows how such a bolt stretches."""
    worked = bench.joint(fastener='{thread: "M10"}', tighten='"30 N.m, +60 deg"')
    assert worked.stages[1].window is None
