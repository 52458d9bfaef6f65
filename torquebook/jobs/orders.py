"""The orders of a joint: as its record writes them, else as its layout asks for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from torquebook import notation
from torquebook.catalogue.lookup import plain
from torquebook.errors import NotUnderstood, TorquebookError, Unreadable
from torquebook.jobs.model import WorkedPass
from torquebook.patterns.layout import circle_spots, spots_of
from torquebook.patterns.making import balanced, centre_out, cross_over
from torquebook.patterns.reading import order_of, passes_of
from torquebook.records.pattern import PatternRecord

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.library import Library
    from torquebook.findings import Place
    from torquebook.jobs.model import WorkedJoint, WorkedStage
    from torquebook.records.joint import JointRecord
    from torquebook.rules.basis.records import JointCase

    Order = tuple[int, ...]
    Spots = tuple[tuple[float, float], ...]


class Orders:
    """Reads and makes orders, with the published patterns of a library.

    Parameters
    ----------
    library : Library
    """

    def __init__(self, library: Library) -> None:
        self._library = library

    @cached_property
    def _published(self) -> dict[str, list[int]]:
        every = self._library.all("patterns", PatternRecord)
        return {plain(held.record.name): held.record.order for held in every}

    def spots(self, record: JointRecord) -> Spots:
        """Return where the positions lie; empty where there is no layout to go by."""
        try:
            return spots_of(record.layout, record.count) if record.layout else ()
        except NotUnderstood:
            return ()  # the validator reports it

    def passes(
        self, case: JointCase, stages: Sequence[WorkedStage], spots: Spots
    ) -> tuple[WorkedPass, ...]:
        """Return the ways over the positions: as written, else one for each stage.

        Raises
        ------
        Unreadable
            If an order of the record cannot be read; at its place.
        """
        record = case.record
        if record.count == 1:
            return ()
        if not record.passes:
            return self._one_each(case, stages, spots)
        found = []
        for index, one in enumerate(record.passes):
            name = one.group or ""
            positions = case.parts.get(name) if name else None
            place = case.at("passes", index, "order")
            order = self._read(
                one.order, positions or _every(record.count), spots, place, case.groups
            )
            found.append(WorkedPass(tuple(one.stages), order, name))
        return tuple(found)

    def _one_each(
        self, case: JointCase, stages: Sequence[WorkedStage], spots: Spots
    ) -> tuple[WorkedPass, ...]:
        """Return a pass for each stage at which something is turned."""
        record = case.record
        written = case.line.order
        if isinstance(written, tuple):
            orders = written
        elif record.order:
            every, place = _every(record.count), case.at("order")
            names = passes_of(record.order)
            orders = tuple(self._read(name, every, spots, place, case.groups) for name in names)
        else:
            orders = (self._made(case, spots),)
        turned = [one.number for one in stages if not isinstance(one.stage, notation.Wait)]
        # Each pass that is written has a stage of its own; what is left over is for the last.
        turned += turned[-1:] * (len(orders) - len(turned))
        return tuple(
            WorkedPass((number,), orders[min(at, len(orders) - 1)])
            for at, number in enumerate(turned)
        )

    def _made(self, case: JointCase, spots: Spots) -> Order:
        """Return an order for a joint whose record has none.

        Crosswise for a circle, and where nothing is known of the layout; from the centre outward
        for rows; balanced for free coordinates.
        """
        record = case.record
        if not spots or record.layout is None or record.layout.circle is not None:
            return cross_over(record.count)
        return centre_out(spots) if record.layout.rows is not None else balanced(spots)

    def _read(
        self, text: str, positions: Order, spots: Spots, place: Place, groups: tuple[Order, ...]
    ) -> Order:
        """Return an order of some of a joint's positions."""
        every = spots if max(positions) <= len(spots) else circle_spots(max(positions))
        try:
            if len(positions) == len(every) or not any(map(str.isalpha, text)):
                return order_of(text, every, self._published, groups)
            part = tuple(every[one - 1] for one in positions)
            return tuple(positions[one - 1] for one in order_of(text, part, self._published))
        except TorquebookError as trouble:
            raise unusable(place, trouble) from trouble

    def loosening(self, joint: WorkedJoint, text: str | None, place: Place) -> Order:
        """Return the order of loosening: as written, else that of tightening in reverse.

        Raises
        ------
        Unreadable
            If the order cannot be read.
        """
        every = _every(joint.held.record.count)
        if text is not None:
            groups = tuple(tuple(group.positions) for group in joint.held.record.groups)
            return self._read(text, every, joint.spots, place, groups)
        first = dict.fromkeys(position for one in joint.passes for position in one.order)
        return tuple(reversed(first)) or every


def unusable(place: Place, trouble: TorquebookError) -> Unreadable:
    """Return the message for a value of a record that a job cannot do without."""
    what, _, right = str(trouble).rpartition("; ")
    return Unreadable(str(place), what or right, right if what else "see torquebook judge")


def _every(count: int) -> Order:
    return tuple(range(1, count + 1))
