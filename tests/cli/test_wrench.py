"""``torquebook wrench``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

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
