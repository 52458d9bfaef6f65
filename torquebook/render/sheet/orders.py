"""The orders of a joint in the numbers of its drawing, which are those of the first round."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from torquebook.render.sheet.model import OrderRow

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.jobs.model import WorkedJoint, WorkedPass

_NO_ORDER: Final = 2  # one or two positions


@dataclass
class Round:
    """A way over positions; the passes of groups that follow each other are one round.

    Parameters
    ----------
    stages : tuple of int
    order : list of int
        Positions from 1 up.
    groups : list of str
    second : list of int
        The positions of all groups but the first.
    """

    stages: tuple[int, ...]
    order: list[int]
    groups: list[str] = field(default_factory=list)
    second: list[int] = field(default_factory=list)

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
        self.second += one.order


def rounds(joint: WorkedJoint) -> tuple[Round, ...]:
    """Return the rounds of a joint in the order of the work."""
    found: list[Round] = []
    for one in joint.passes:
        if found and found[-1].takes(one):
            found[-1].add(one)
        else:
            found.append(Round(one.stages, list(one.order), [one.group] if one.group else []))
    return tuple(found)


def order_rows(joint: WorkedJoint) -> Iterator[OrderRow]:
    """Yield what the drawing does not say of the orders; rounds that go alike are one row."""
    every = rounds(joint)
    if not every or joint.held.record.count <= _NO_ORDER:
        return
    rows: list[tuple[list[str], str]] = []
    for one in every:
        said = _said(one, every[0], joint)
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


def _said(one: Round, first: Round, joint: WorkedJoint) -> str:
    """Return a round in words; empty where it goes as drawn and that is all."""
    if not joint.spots:
        return f"{order_text(one.order)} by position"
    if one.order != first.order:
        return as_drawn(one.order, joint)
    if not one.groups:
        return ""
    names = [f"{one.groups[0]} (round)", *(f"{name} (square)" for name in one.groups[1:])]
    return f"as drawn, {', then '.join(names)}"


def as_drawn(order: Sequence[int], joint: WorkedJoint) -> str:
    """Return an order in the numbers of a joint's drawing."""
    turns = {position: turn for turn, position in enumerate(rounds(joint)[0].order, 1)}
    return order_text([turns.get(position, 0) for position in order])


def loosening_text(order: Sequence[int], joint: WorkedJoint) -> str:
    """Return an order of loosening: as the drawing of a step numbers it, or by position."""
    if len(order) <= _NO_ORDER:
        return ""
    every = rounds(joint)
    if not (joint.number and joint.spots and every and set(order) <= set(every[0].order)):
        return f"{order_text(order)} by position"
    if list(order) == every[0].order[::-1]:
        return f"in reverse of step {joint.number}"
    return f"{as_drawn(order, joint)} as numbered at step {joint.number}"


def order_text(order: Sequence[int]) -> str:
    """Return an order as sheets print it: ``1-3-2-4``."""
    return "-".join(map(str, order))
