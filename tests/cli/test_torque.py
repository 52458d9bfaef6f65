"""``torquebook torque``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from torquebook.cli.exits import Exit

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from conftest import Runner


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("torque-default", ("M10", "8.8")),
        ("torque-given", ("3/8-16", "SAE 8", "--torque", "44 lbf.ft", "--friction", "oiled")),
        (
            "torque-share-ascii",
            ("M8x1", "8.8", "--utilisation", "70%", "--friction", "0.12", "--ascii"),
        ),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one and fits 80 columns."""
    ran = cli("torque", *words)
    golden(f"{name}.txt", ran.out)
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "--ascii" not in words or ran.out.isascii()


def test_assembly_torque_is_that_of_the_printed_table(cli: Runner) -> None:
    """M8x1, 8.8, mu 0.12: 26.1 N·m and 20.2 kN (VDI 2230-1:2003, table of fine threads)."""
    answer = json.loads(cli("torque", "M8x1", "8.8", "--friction", "0.12", "--json").out)
    aim = answer["for_yield_with_torsion"]
    assert aim["torque_nm"]["at_nominal_friction"] == pytest.approx(26.1, rel=0.01)
    assert aim["preload_n"]["at_nominal_friction"] == pytest.approx(20200, rel=0.01)


def test_pitch_left_open_is_asked_back(cli: Runner) -> None:
    """A torque needs one thread."""
    ran = cli("torque", "3/8", "SAE 8")
    assert ran.code == 2
    assert "3/8-16 UNC or 3/8-24 UNF" in " ".join(ran.err.split())


@pytest.mark.parametrize(
    ("torque", "mark"),
    [("20 N.m", None), ("60 N.m", "! The high end of the band"), ("120 N.m", "!! The whole band")],
)
def test_marks_of_the_proof_load(torque: str, mark: str | None, cli: Runner) -> None:
    """A band that passes the proof load with its high end, and one that does as a whole.

    M10, 8.8: 33 700 N (ISO 898-1:2013, table 5).
    """
    words = ("M10", "8.8", "--friction", "dry", "--torque", torque)
    ends = json.loads(cli("torque", *words, "--json").out)["tightenings"][0]["preload_n"]
    passes = [ends["low"] > 33700, ends["high"] > 33700]
    shown = [line.strip() for line in cli("torque", *words).out.splitlines()]
    said = [line for line in shown if line.startswith(("! ", "!! "))]
    assert [line.startswith(mark or "nothing") for line in said] == [True] * bool(mark)
    assert passes == [mark == "!! The whole band", mark is not None]
    marked = [line.split()[-1] for line in shown if line.startswith(torque.partition(" ")[0])]
    assert (marked == [mark.split()[0]]) if mark else ("!" not in marked[0])


def test_an_angle_is_answered_and_drawn(cli: Runner, tmp_path: Path) -> None:
    """The answer holds what stands at the end of the angle; the drawing goes to its file."""
    path = tmp_path / "m10.svg"
    ran = cli(
        "torque", "M10", "10.9", "--friction", "oiled", "--tighten", "40 N.m + 90 deg",
        "--clamp-length", "40", "--curve", str(path),
    )  # fmt: skip
    assert ran.code == Exit.CLEAN
    assert "At the end of 40 N·m, +90°, clamp length 40 mm" in ran.out
    assert path.read_text(encoding="utf-8").startswith("<svg ")
    given = cli("torque", "M10", "10.9", "--tighten", "40 N.m + 90 deg", "--json").out
    assert json.loads(given)["at_end"]["clamp_length_mm"] is None


def test_a_drawing_that_cannot_be_written_is_told(cli: Runner, tmp_path: Path) -> None:
    """One message names the file; without stages the option is refused."""
    words = ("torque", "M10", "10.9", "--curve", str(tmp_path / "none" / "m10.svg"))
    ran = cli(*words, "--tighten", "40 N.m + 90 deg")
    assert ran.code == Exit.UNUSABLE
    assert "there is no folder" in ran.err
    assert cli(*words).code == Exit.UNUSABLE


@pytest.mark.parametrize(
    ("tighten", "clamp", "message"),
    [
        ("60 N.m + 0 deg", "", "an angle is more than 0; write 60 N.m + 90 deg"),
        ("200 N.m + 90 deg", "", "the snug torque alone is more than M10 10.9 carries"),
        ("60 N.m + 90 deg", "-40", '"-40": a length is more than 0'),
        ("60 N.m + 90 deg", "0.1", "a clamp length is one pitch or more, here 1.5 mm"),
    ],
)
def test_what_no_bolt_can_be_turned_to_is_refused(
    tighten: str, clamp: str, message: str, cli: Runner, tmp_path: Path
) -> None:
    """One message says what is wrong, and nothing is drawn."""
    path = tmp_path / "q.svg"
    words = ("--tighten", tighten, "--clamp-length", clamp, "--curve", str(path))
    ran = cli("torque", "M10", "10.9", *words)
    assert ran.code == Exit.UNUSABLE
    assert message in " ".join(ran.err.split())
    assert not path.exists()


@pytest.mark.parametrize(
    ("tighten", "sentences"),
    [
        ("40 N.m + 30 deg", []),
        ("60 N.m + 90 deg", ["! It may neck or part before the end"]),
        ("60 N.m + 900 deg", ["!! It necks or parts before the end"]),
        (
            "85 N.m + 30 deg",
            [
                "! The snug torque alone may pass what the bolt carries",
                "! It may neck or part before the end",
            ],
        ),
        (
            "120 N.m + 30 deg",
            [
                "!! The snug torque alone likely passes what the bolt carries",
                "!! It likely necks or parts before the end",
            ],
        ),
    ],
)
def test_necking_is_said_in_text_json_and_drawing(
    tighten: str, sentences: list[str], cli: Runner, tmp_path: Path
) -> None:
    """Each of the three forms of the answer has the same sentences."""
    path = tmp_path / "h.svg"
    words = ("torque", "M10", "10.9", "--tighten", tighten)
    shown = [line.strip() for line in cli(*words, "--curve", str(path)).out.splitlines()]
    said = [line for line in shown if line.startswith("!")]
    assert [line.partition(":")[0] for line in said] == sentences
    at_end = json.loads(cli(*words, "--json").out)["at_end"]
    bare = [sentence.lstrip("! ") for sentence in sentences]
    assert [sentence.partition(":")[0] for sentence in at_end["warnings"]] == bare
    assert (at_end["snug_necks"] != "no") == ("The snug" in "".join(bare))
    assert (at_end["necks"] != "no") == bool(bare)
    drawing = path.read_text(encoding="utf-8")
    assert all(sentence in drawing for sentence in at_end["warnings"])
    assert ("neck or part" in drawing or "necks or parts" in drawing) == bool(sentences)


def test_to_yield_takes_no_aim(cli: Runner) -> None:
    """A tool that stops at yield is asked for no share and no torque; its answer has no mark."""
    ran = cli("torque", "M10", "10.9", "--method", "to yield", "--torque", "60 N.m")
    assert ran.code == 2
    assert "aims at no torque" in " ".join(ran.err.split())
    answer = cli("torque", "M10", "10.9", "--method", "to yield", "--friction", "oiled").out
    assert "±12 %" in answer
    assert "!" not in answer
