"""``torquebook wrench``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import Runner


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("wrench-plain", ("110 N.m",)),
        ("wrench-adapter", ("40 lbf.ft", "--length", "12in", "--extension", "4in")),
        (
            "wrench-angle-ascii",
            ("60 N.m", "--length", "400mm", "--extension", "50mm", "--angle", "45", "--ascii"),
        ),
        ("wrench-none", ("900 N.m", "--wrench", "big click")),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one and fits 80 columns."""
    ran = cli("wrench", *words)
    golden(f"{name}.txt", ran.out)
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "--ascii" not in words or ran.out.isascii()


def test_setting_is_that_of_the_manual(cli: Runner) -> None:
    """40 lbf·ft, wrench 12 in, adapter 4 in: set 30 lbf·ft (TM 9-2350-277-40&P, p. 44)."""
    words = ("40 lbf.ft", "--length", "12in", "--extension", "4in", "--json")
    answer = json.loads(cli("wrench", *words).out)
    assert answer["setting"] == {"value": pytest.approx(30.0), "unit": "lbf.ft"}


def test_one_length_alone_is_asked_back(cli: Runner) -> None:
    """An adapter without its second length is no adapter."""
    ran = cli("wrench", "60 N.m", "--extension", "50mm")
    assert ran.code == 2
    assert "both lengths" in ran.err


MINE = """\
kind: wrench
title: "My own"
name: "my long one"
low: 40
high: 210
unit: N.m
deviation: 0.03
drive: "1/2 in"
source: {kind: measured, title: "certificate", provenance: "read"}
"""


def test_invented_wrenches_say_so(cli: Runner, tmp_path: Path) -> None:
    """The demo book's wrenches are nobody's, and the answer says so; the user's own are real."""
    said = "of the demo book, invented; name your own with torquebook bench."
    assert f"These wrenches are {said}" in " ".join(cli("wrench", "60 N.m").out.split())
    one = cli("wrench", "60 N.m", "--wrench", "big click").out
    assert f"This wrench is {said}" in " ".join(one.split())
    (tmp_path / "mine.yaml").write_text(MINE, encoding="utf-8")
    words = ("wrench", "60 N.m", "--book", str(tmp_path))
    assert "invented" not in cli(*words).out
    both = cli(*words, "--wrench", "my long one", "--wrench", "dial 1-10").out
    assert f"dial 1-10 is {said}" in " ".join(both.split())


def test_adapter_back_to_the_hand(cli: Runner) -> None:
    """A turned adapter that is too long is refused in words and in the units that were typed."""
    words = ("60 N.m", "--length", "100mm", "--extension", "6in", "--angle", "180")
    ran = cli("wrench", *words)
    said = " ".join(ran.err.split())
    assert ran.code == 2
    assert "an adapter of 6 in, turned by 180 degrees, reaches back to the hand" in said
    assert said.endswith("shorter than 3.937 in")
    assert "TM 9-254" not in said
