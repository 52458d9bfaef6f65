"""An order of tightening against the positions that it is for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.patterns.measures import faults

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_NUMBERED = re.compile(r"[0-9]{1,4}(?:\s*[-–,\s]\s*[0-9]{1,4})*")


def covered(order: str, positions: Sequence[int]) -> Iterator[tuple[Severity, str]]:
    """Yield what is wrong with an order of some positions, with how serious it is.

    Parameters
    ----------
    order : str
        Positions, ``1-3-2-4``; any other text is a pattern's name, which covers by itself.
    positions : sequence of int
        Those of the group, or of the joint.
    """
    if not _NUMBERED.fullmatch(order):
        return
    found = [int(number) for number in re.findall(r"[0-9]+", order)]
    missed, twice, strange = faults(found, positions)
    if missed:
        reached = f"{len(positions) - len(missed)} of {len(positions)} positions"
        yield Severity.STOP, f"the order reaches {reached}; {listed(missed)} is missing"
    if twice:
        yield Severity.ASK, f"{listed(twice)} stands twice in one pass"
    if strange:
        yield Severity.ASK, f"{listed(strange)} is none of the positions that the order is for"


def listed(numbers: Sequence[int]) -> str:
    """Return numbers as a message names them, no more than ten."""
    return ", ".join(map(str, numbers[:10]))


def named(positions: Sequence[int]) -> str:
    """Return positions as a message names them: ``position 3``, ``positions 3, 4``."""
    return f"position{'s' if len(positions) > 1 else ''} {listed(positions)}"
