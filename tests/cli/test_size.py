"""``torquebook size``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from torquebook.render.cautions import CAUTION

if TYPE_CHECKING:
    from collections.abc import Callable

    from conftest import Runner


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("size-metric", ("M10",)),
        ("size-class-ascii", ("M10x1.25", "10.9", "--ascii")),
        ("size-inch", ("3/8", "SAE 8")),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one, ends in the caution, and fits 80 columns."""
    ran = cli("size", *words)
    golden(f"{name}.txt", ran.out)
    assert CAUTION in " ".join(ran.out.split())
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "--ascii" not in words or ran.out.isascii()


def test_m10_hexagon_names_both_widths_with_their_standards(cli: Runner) -> None:
    """A technician sees that 16 mm is ISO 4014 and 17 mm the old DIN 931."""
    lines = [" ".join(line.split()) for line in cli("size", "M10").out.splitlines()]
    assert "hexagon spanner 16 mm ISO 4014" in lines
    assert "hexagon old DIN spanner 17 mm DIN 931" in lines


def test_json_carries_units_in_its_keys(cli: Runner) -> None:
    """M10: 1.5 mm, 58.0 mm², proof load of 8.8 33 700 N as printed (ISO 898-1:2013, table 5)."""
    (page,) = json.loads(cli("size", "M10", "8.8", "--json").out)["threads"]
    assert page["pitch_mm"] == 1.5
    assert page["stress_area_mm2"] == pytest.approx(58.0, rel=0.001)
    (load,) = page["loads"]
    assert load["class"] == "8.8"
    assert load["proof_n"] == pytest.approx(33700, rel=0.003)


def test_open_pitch_shows_every_thread(cli: Runner) -> None:
    """``3/8`` may be UNC or UNF, and both are shown."""
    pages = json.loads(cli("size", "3/8", "--json").out)["threads"]
    assert [page["size"] for page in pages] == ["3/8-16", "3/8-24"]
