"""``torquebook bench``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Runner

RED = ("red", "100-20 N.m", "20-100 N.m", "", "", "", "2020-01-01", "")
CROW = ("crow", "4 in")
ANSWERS = "\n".join(("N.m", *RED, "", *CROW, "", "AC 43.13-1B", "", ""))


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep the bench in a folder of the test."""
    path = tmp_path / "bench.json"
    monkeypatch.setenv("TORQUEBOOK_BENCH", str(path))
    return path


def test_a_bench_is_asked_for_and_kept(bench: Path, cli: Runner) -> None:
    """The first time it asks, again where an answer cannot be read; then it shows."""
    ran = cli("bench", given=f"{ANSWERS}\n")
    assert ran.code == 0
    assert "a scale goes up" in ran.err
    assert "red     20–100 N·m  1     ±4 %       2020-01-01  0" in ran.out
    assert "To be calibrated" in ran.out
    assert json.loads(bench.read_text())["wrenches"][0]["unit"] == "N.m"
    again = cli("bench", "--json")
    assert json.loads(again.out)["adapters"] == [{"name": "crow", "extension_mm": 101.6}]


def test_the_wrench_is_known_from_then_on(bench: Path, cli: Runner) -> None:
    """``wrench`` answers on my wrenches and adapters, and names an old calibration once."""
    assert bench.parent.exists()
    cli("bench", given=f"{ANSWERS}\n")
    ran = cli("wrench", "54.2 N.m", "--length", "12 in", "--adapter", "crow")
    assert "click" not in ran.out
    assert "Set 40.65 N·m" in ran.out  # 40 lbf·ft on 12 in with 4 in: TM 9-2350-277-40&P, p. 44
    assert "to be calibrated: red" in ran.err
    assert cli("wrench", "54.2 N.m").err == ""


def test_a_wrench_can_be_forgotten(bench: Path, cli: Runner) -> None:
    """What is forgotten is gone from the file; an unknown name offers those that there are."""
    cli("bench", given=f"{ANSWERS}\n")
    ran = cli("bench", "--forget", "blue")
    assert ran.code == 2
    assert "write red or crow" in " ".join(ran.err.split())
    assert cli("bench", "--forget", "red", "--forget", "crow").code == 0
    assert json.loads(bench.read_text())["wrenches"] == []


def test_an_adapter_needs_a_bench(bench: Path, cli: Runner) -> None:
    """Without a bench its adapters are none, and the message says how to begin one."""
    assert not bench.exists()
    ran = cli("wrench", "54 N.m", "--length", "12 in", "--adapter", "crow")
    assert ran.code == 2
    assert "write torquebook bench" in " ".join(ran.err.split())


def test_a_card_shows_the_setting_for_my_wrench(bench: Path, cli: Runner) -> None:
    """``look`` sets a joint's stages on the wrench of my bench that covers them."""
    assert bench.parent.exists()
    cli("bench", given=f"{ANSWERS}\n")
    out = cli("look", "joints/brigade/flywheel").out
    assert "red: set 30 N·m" in out
    assert "click 20-100: set" not in out


def test_answers_that_end_keep_nothing(bench: Path, cli: Runner) -> None:
    """The end of the input is one message, and nothing is written."""
    ran = cli("bench", given="N.m\nred\n")
    assert ran.code == 2
    assert "ended before all was asked; nothing of them is kept" in " ".join(ran.err.split())
    assert not bench.exists()


def test_answers_that_end_keep_what_is_complete(bench: Path, cli: Runner) -> None:
    """A wrench of which all was said is kept, the one after it is not, and the message says so."""
    ran = cli("bench", given="\n".join(("N.m", *RED, "blue", "")))
    assert ran.code == 2
    assert "ended before all was asked; kept: red; torquebook bench --ask" in " ".join(
        ran.err.split()
    )
    held = json.loads(bench.read_text())
    assert [one["name"] for one in held["wrenches"]] == ["red"]
    assert held["unit"] == "N.m"


def test_nothing_is_kept_of_empty_answers(bench: Path, cli: Runner) -> None:
    """Who answers nothing is not told that something is kept."""
    ran = cli("bench", given="\n" * 5)
    assert ran.code == 0
    assert "nothing is kept yet" in ran.out
    assert "kept in" not in ran.out
    assert not bench.exists()


def test_a_mistyped_name_can_be_left_out(bench: Path, cli: Runner) -> None:
    """An empty scale leaves out the wrench, an empty length the adapter."""
    answers = ("", "rde", "", *RED, "", "corw", "", *CROW, "", "", "")
    assert cli("bench", given="\n".join((*answers, ""))).code == 0
    held = json.loads(bench.read_text())
    names = [one["name"] for one in (*held["wrenches"], *held["adapters"])]
    assert names == ["red", "crow"]


def test_what_no_terminal_shows_is_shown(bench: Path, cli: Runner) -> None:
    """Piped answers stand behind their prompts, a complaint on a line of its own, in 80 columns."""
    assert bench.parent.exists()
    lines = cli("bench", "--ascii", given=f"{ANSWERS}\n").err.splitlines()
    at = lines.index("  its scale, such as 20-100 N.m (empty: leave it out): 100-20 N.m")
    assert lines[at + 1].startswith('torquebook: "100-20 N.m": a scale goes up')
    assert all(len(line) <= 80 and line.isascii() for line in lines)
