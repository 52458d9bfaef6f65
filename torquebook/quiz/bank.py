"""The bank: what the rules say of lists and fasteners, written down by ``build``."""

from __future__ import annotations

import json
import os.path
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from torquebook.quiz.draws import Draw

BANK: Final = os.path.join(os.path.dirname(__file__), "bank.jsonl")  # noqa: PTH118, PTH120 - as the index
LISTS: Final = "list"
REUSE: Final = "reuse"
RENEW: Final = "renew"


class Judged(NamedTuple):
    """A torque list with one mistake, and what the rules say of it.

    Parameters
    ----------
    columns : list of str
    cells : list of list of str
    wrong : int
        Which row, from 0.
    kind : str
        What the mistake is called.
    rule : str
        The rule that found it.
    steps : list of str
        What the rule says, and what would be right.
    source : str
    shares : list
        The preload of each row as per cent of its proof load; None where that is not known.
    """

    columns: list[str]
    cells: list[list[str]]
    wrong: int
    kind: str
    rule: str
    steps: list[str]
    source: str
    shares: list[int | None]


class Ruled(NamedTuple):
    """A fastener that came out, and what the reuse rulebook says of it.

    Parameters
    ----------
    said : str
        The fastener in a sentence.
    verdict : str
    steps : list of str
        The comparisons in numbers, and why.
    source : str
    prefer : str
        The source that the workshop goes by; empty for the strictest.
    asks : list of str
        What a table demands that the question has to state.
    """

    said: str
    verdict: str
    steps: list[str]
    source: str
    prefer: str
    asks: list[str]


@lru_cache(maxsize=1)
def _lines() -> tuple[str, ...]:
    """Return the bank's lines.

    Raises
    ------
    Unreadable
        If the installation lacks it.
    """
    try:
        with open(BANK, encoding="utf-8") as file:  # noqa: PTH123 - as the index
            return tuple(file)
    except (OSError, ValueError) as error:
        right = "install torquebook again, or run python -m torquebook.quiz.build"
        raise Unreadable(BANK, "the bank of questions is missing or damaged", right) from error


@lru_cache(maxsize=64)
def _lists(level: int, unit: str) -> tuple[str, ...]:
    return _starting([LISTS, level, unit])


@lru_cache(maxsize=64)
def _fasteners(level: int, unit: str) -> dict[str, tuple[str, ...]]:
    """Return by verdict the entries of a level and below, without a unit and in a country's own."""
    known = [(each, name) for each in range(1, level + 1) for name in ("", unit)]
    found: dict[str, tuple[str, ...]] = {}
    for line in (line for each, name in known for line in _starting([REUSE, each, name])):
        verdict = Ruled(*_entry(line)).verdict
        found[verdict] = (*found.get(verdict, ()), line)
    return found


def _starting(key: list[Any]) -> tuple[str, ...]:
    start = json.dumps(key, separators=(",", ":"))[:-1] + ","
    return tuple(line for line in _lines() if line.startswith(start))


@lru_cache(maxsize=4096)
def _entry(line: str) -> list[Any]:
    found: list[Any] = json.loads(line)
    return found[3:]


def judged(draw: Draw, level: int, unit: str) -> Judged:
    """Return one torque list of a level, in a country's unit."""
    return Judged(*_entry(draw.pick(_lists(level, unit))))


def ruled(draw: Draw, level: int, unit: str) -> Ruled:
    """Return one fastener of a level, with what was measured in a country's unit."""
    found = _fasteners(level, unit)
    # Most that comes out is renewed; who always says so is not to be right most of the time.
    verdict = draw.pick([RENEW, *found])
    return Ruled(*_entry(draw.pick(found[verdict])))
