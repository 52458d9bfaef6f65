"""``torquebook convert``."""

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
        ("convert-one", ("5.5 kgf.m", "N.m")),
        ("convert-all", ("59 lbf.ft",)),
        ("convert-angle", ("1/4 turn", "--ascii")),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one."""
    golden(f"{name}.txt", cli("convert", *words).out)


def test_json_is_not_rounded(cli: Runner) -> None:
    """Programs get the exact value: 1 kgf·m is 9.80665 N·m (NIST SP 811, 2008, B.8)."""
    answer = json.loads(cli("convert", "1 kgf.m", "N.m", "--json").out)
    assert answer == {
        "given": {"value": 1.0, "unit": "kgf.m"},
        "results": [{"value": 9.80665, "unit": "N.m"}],
    }


@pytest.mark.parametrize(
    ("words", "readings"),
    [
        (("60", "N.m"), 'write "60 N.m" or "60 lbf.ft" N.m'),
        (("60", "N.m", "lbf.ft"), 'write "60 N.m" lbf.ft'),
    ],
)
def test_quantity_without_quotes_is_asked_back(
    words: tuple[str, ...], readings: str, cli: Runner
) -> None:
    """A quantity in two words is not guessed at; the message shows where the quotes go."""
    ran = cli("convert", *words)
    assert ran.code == 2
    assert readings in " ".join(ran.err.split())


def test_no_caution_where_nobody_tightens_by_it(cli: Runner) -> None:
    """One conversion is one line."""
    assert len(cli("convert", "1 N.m", "lbf.in").out.splitlines()) == 1
