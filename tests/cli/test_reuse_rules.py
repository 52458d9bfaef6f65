"""Every rule of the reuse rulebook fires, and has a near miss that does not."""

from __future__ import annotations

import csv
import json
import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from conftest import Runner

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "tests" / "reuse"
RULES = {path.stem for path in (ROOT / "specs" / "reuse").glob("*.yaml")}
with (FOLDER / "rules.csv").open(encoding="utf-8", newline="") as file:
    CASES = list(csv.DictReader(file))


def rulings(cli: Runner, line: str) -> tuple[str, dict[str, Any]]:
    """Return the verdict of a command line, and what each rule says."""
    ran = cli("reuse", "--json", "--book", str(FOLDER / "book"), *shlex.split(line))
    assert ran.code == 0, ran.err
    (answer,) = json.loads(ran.out)["fasteners"]
    said = {one["rule"].removeprefix("reuse/"): one["verdict"] for one in answer["rulings"]}
    return answer["verdict"], said


def test_every_rule_has_a_case() -> None:
    """The table has one line for each rule in specs/reuse/, with a near miss."""
    assert len(RULES) == 56
    assert sorted(case["rule"] for case in CASES) == sorted(RULES)
    assert all(case["fires"] and case["passes"] and case["note"] for case in CASES)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["rule"])
def test_rule_fires(case: dict[str, str], cli: Runner) -> None:
    """The rule says what it should, and the whole answer is the strictest of all."""
    verdict, said = rulings(cli, case["fires"])
    assert said[case["rule"]] == case["verdict"]
    assert verdict == case["answer"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["rule"])
def test_near_miss_passes(case: dict[str, str], cli: Runner) -> None:
    """A fastener that differs in one thing does not raise the rule, and raises another."""
    _, said = rulings(cli, case["passes"])
    assert said
    assert case["rule"] not in said
