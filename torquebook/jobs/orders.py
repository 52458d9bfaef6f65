"""The orders of a joint: as its record writes them, else as its layout asks for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from torquebook import notation
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.model import WorkedPass
from torquebook.patterns.layout import spots_of
from torquebook.patterns.making import balanced, centre_out, cross_over
from torquebook.patterns.reading import order_of
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
    def _published(self) -> tuple[PatternRecord, ...]:
        return tuple(held.record for held in self._library.all("patterns", PatternRecord))

    def spots(self, record: JointRecord) -> Spots:
        """Return where the positions lie; empty without a layout, or for one of another count."""
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
            order = self._read(one.order, positions or _every(record.count), spots, place)
            found.append(WorkedPass(tuple(one.stages), order, name))
        return tuple(found)

    def _one_each(
        self, case: JointCase, stages: Sequence[WorkedStage], spots: Spots
    ) -> tuple[WorkedPass, ...]:
        """Return a pass for each stage at which something is turned."""
        record = case.record
        every = _every(record.count)
        if record.order:
            order = self._read(record.order, every, spots, case.at("order"))
        else:
            order = made(record, spots)
        turned = [one for one in stages if not isinstance(one.stage, notation.Wait)]
        return tuple(WorkedPass((one.number,), order) for one in turned)

    def _read(self, text: str, positions: Order, spots: Spots, place: Place) -> Order:
        """Return an order of some of a joint's positions."""
        try:
            if len(positions) == (len(spots) or len(positions)):
                return order_of(text, spots or len(positions), self._published)
            part = tuple(spots[one - 1] for one in positions)
            return tuple(positions[one - 1] for one in order_of(text, part, self._published))
        except NotUnderstood as trouble:
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
            return self._read(text, every, joint.spots, place)
        first = dict.fromkeys(position for one in joint.passes for position in one.order)
        return tuple(reversed(first)) or every


def made(record: JointRecord, spots: Spots) -> Order:
    """Return an order for a joint whose record has none.

    Crosswise for a circle, and where nothing is known of the layout; from the centre outward
    for rows; balanced for free coordinates.
    """
    if not spots or record.layout is None or record.layout.circle is not None:
        return cross_over(record.count)
    if record.layout.rows is not None:
        return centre_out(spots)
    return balanced(spots)


def unusable(place: Place, trouble: NotUnderstood) -> Unreadable:
    """Return the message for a value of a record that a job cannot do without."""
    right = f"write {' or '.join(trouble.readings)}" if trouble.readings else "see torquebook judge"
    return Unreadable(str(place), f'"{trouble.text}": {trouble.what}', right)


def _every(count: int) -> Order:
    return tuple(range(1, count + 1))
