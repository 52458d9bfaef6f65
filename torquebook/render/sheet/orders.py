"""The orders of a joint in the numbers of its drawing: the turns that first reach each bolt."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import cycle
from typing import TYPE_CHECKING, Final

from torquebook.render.sheet.model import OrderRow

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.jobs.model import WorkedJoint, WorkedPass

_NO_ORDER: Final = 2  # one or two positions
_SHAPES: Final = ("round", "square", "square on a corner", "double rim")
"""How a drawing tells groups apart, from the first on."""


@dataclass
class Round:
    """A way over positions; the passes of groups that follow each other are one round.

    Parameters
    ----------
    stages : tuple of int
    order : list of int
        Positions from 1 up.
    groups : list of str
    """

    stages: tuple[int, ...]
    order: list[int]
    groups: list[str] = field(default_factory=list)

    def takes(self, one: WorkedPass) -> bool:
        """Return whether a pass goes on with this round: another group at the same stages."""
        return bool(
            one.group
            and self.groups
            and one.stages == self.stages
            and not set(one.order) & set(self.order)
        )

    def add(self, one: WorkedPass) -> None:
        """Go on with another group."""
        self.order += one.order
        self.groups.append(one.group)


def rounds(joint: WorkedJoint) -> tuple[Round, ...]:
    """Return the rounds of a joint in the order of the work."""
    found: list[Round] = []
    for one in joint.passes:
        if found and found[-1].takes(one):
            found[-1].add(one)
        else:
            found.append(Round(one.stages, list(one.order), [one.group] if one.group else []))
    return tuple(found)


def drawn(joint: WorkedJoint) -> tuple[list[int], dict[str, list[int]]]:
    """Return the positions in the turns of the drawing, and those that each group reaches first."""
    order: list[int] = []
    groups: dict[str, list[int]] = {}
    for one in joint.passes:
        new = [position for position in one.order if position not in order]
        order += new
        if new:
            groups.setdefault(one.group, []).extend(new)
    return order, groups


def order_rows(joint: WorkedJoint) -> Iterator[OrderRow]:
    """Yield what the drawing does not say of the orders; rounds that go alike are one row."""
    every = rounds(joint)
    if not every or joint.held.record.count <= _NO_ORDER:
        return
    rows: list[tuple[list[str], str]] = []
    for one in every:
        said = _said(one, joint)
        if rows and rows[-1][1] == said:
            rows[-1][0].append("+".join(map(str, one.stages)))
        else:
            rows.append((["+".join(map(str, one.stages))], said))
    if len(rows) == 1:
        if rows[0][1]:
            yield OrderRow("", rows[0][1])
        return
    gone: set[str] = set()
    for stages, said in rows:
        again = ", once more" if gone & set(stages) else ""
        gone.update(stages)
        many = "s" if len(stages) > 1 else ""
        yield OrderRow(f"stage{many} {', '.join(stages)}{again}", said or "as drawn")


def _said(one: Round, joint: WorkedJoint) -> str:
    """Return a round in words; empty where it goes as drawn and that is all."""
    if not joint.spots:
        groups = f", {', then '.join(one.groups)}" if one.groups else ""
        return f"{order_text(one.order)} by position{groups}"
    order, groups_drawn = drawn(joint)
    if not one.groups:
        return "" if one.order == order else as_drawn(one.order, joint)
    shapes = dict(zip(groups_drawn, cycle(_SHAPES), strict=False))
    names = [f"{name} ({shapes[name]})" if name in shapes else name for name in one.groups]
    said = "as drawn" if one.order == order else as_drawn(one.order, joint)
    return f"{said}, {', then '.join(names)}"


def as_drawn(order: Sequence[int], joint: WorkedJoint) -> str:
    """Return an order in the numbers of a joint's drawing."""
    turns = {position: turn for turn, position in enumerate(drawn(joint)[0], 1)}
    return order_text([turns[position] for position in order])


def loosening_text(order: Sequence[int], joint: WorkedJoint) -> str:
    """Return an order of loosening: as the drawing of a step numbers it, or by position."""
    if len(order) <= _NO_ORDER:
        return ""
    tightened = drawn(joint)[0]
    if not (joint.number and joint.spots and set(order) <= set(tightened)):
        return f"{order_text(order)} by position"
    if list(order) == tightened[::-1]:
        return f"in reverse of step {joint.number}"
    return f"{as_drawn(order, joint)} as numbered at step {joint.number}"


def order_text(order: Sequence[int]) -> str:
    """Return an order as sheets print it: ``1-3-2-4``."""
    return "-".join(map(str, order))
