"""An order by itself: made or read for a layout or a joint, measured and checked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.jobs.working import bench_of, worked_joint
from torquebook.patterns.layout import circle_spots, row_spots
from torquebook.patterns.making import centre_out, cross_over
from torquebook.patterns.measures import MOST_PULL, check
from torquebook.patterns.reading import order_of, passes_of
from torquebook.records.joint import JointRecord
from torquebook.rules.basis.orders import named_orders, told
from torquebook.rules.judge_records import judged

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Library
    from torquebook.catalogue.shelves import Pattern
    from torquebook.patterns.layout import Spot
    from torquebook.patterns.measures import Checked


@dataclass(frozen=True)
class OrderedPass:
    """One pass with what the check found.

    Parameters
    ----------
    order : tuple of int
        Positions from 1 up.
    found : Checked
    stages : tuple of int
        Of the joint, from 1; empty without one.
    group : str
        The group of positions that it is for; empty for all.
    """

    order: tuple[int, ...]
    found: Checked
    stages: tuple[int, ...] = ()
    group: str = ""


@dataclass(frozen=True)
class Ordering:
    """Orders over the positions of a layout.

    Parameters
    ----------
    name : str
        Of the joint, or what the layout is.
    layout : str
        Where the positions lie, in words.
    spots : tuple of (float, float)
    is_circle : bool
    passes : tuple of OrderedPass
    groups : mapping of str to tuple of int
        The positions of each group of the joint; empty where there are none.
    published : tuple of Pattern
        The orders that the book holds for such a circle.
    """

    name: str
    layout: str
    spots: tuple[Spot, ...]
    is_circle: bool
    passes: tuple[OrderedPass, ...]
    groups: Mapping[str, tuple[int, ...]]
    published: tuple[Pattern, ...]

    @property
    def first_round(self) -> tuple[OrderedPass, ...]:
        """The passes that reach the positions for the first time: one, or one for each group."""
        reached: set[int] = set()
        found = []
        for one in self.passes:
            if set(one.order) & reached:
                break
            reached |= set(one.order)
            found.append(one)
        return tuple(found)

    @property
    def loosening(self) -> tuple[int, ...]:
        """The first round from its end; empty where it misses a position, or something is wrong."""
        order = tuple(position for one in self.first_round for position in one.order)
        return order[::-1] if len(order) == len(self.spots) and not self.remarks else ()

    @property
    def remarks(self) -> tuple[tuple[Severity, str], ...]:
        """What is wrong with the passes, each with how serious it is."""
        return tuple(self._remarks())

    def _remarks(self) -> Iterator[tuple[Severity, str]]:
        every = tuple(range(1, len(self.spots) + 1))
        for number, one in enumerate(self.passes, 1):
            found = one.found
            for severity, message in told(found.faults, self.groups.get(one.group, every)):
                yield severity, f"pass {number}: {message}"
            if self.is_circle and not one.group and found.pull and not found.even:
                how = "goes round the circle" if found.round else "is uneven"
                within = f"good first passes stay within {MOST_PULL:.2f}"
                far = f"it pulls to one side by {found.pull:.2f} bolts, and {within}"
                yield Severity.ASK, f"pass {number} {how}: {far}"


def over_circle(count: int, written: str, book: Book) -> Ordering:
    """Return an order over a circle: as written, else crosswise.

    Raises
    ------
    NotUnderstood
        If the order cannot be read.
    """
    orders = _read(written, circle_spots(count), book) or (cross_over(count),)
    layout = "counted clockwise from the top"
    return _checked(f"circle of {count}", layout, circle_spots(count), orders, book, circle=True)


def over_rows(lengths: Sequence[int], written: str, book: Book) -> Ordering:
    """Return an order over rows, all distances taken as alike: as written, else centre outward.

    Raises
    ------
    NotUnderstood
        If the order cannot be read.
    OutOfRange
        If a row is empty.
    """
    spots = row_spots(lengths, 1.0, 1.0)
    orders = _read(written, spots, book) or (centre_out(spots),)
    layout = "counted along the rows from the upper left, as far apart along them as between them"
    name = f"rows of {' and '.join(map(str, lengths))}"
    return _checked(name, layout, spots, orders, book, circle=False)


def of_joint(library: Library, book: Book, text: str, written: str) -> Ordering:
    """Return the orders of a joint's record, or another one over its positions.

    Raises
    ------
    NotUnderstood
        If there is no such joint, or the order cannot be read.
    Unreadable
        If the record has a fault that leaves no order.
    """
    held = library.one("joints", JointRecord, text)
    record = held.record
    bench = bench_of(library, book, "N.m")
    joint = worked_joint(bench, 0, held, judged(held, book, library).answers[0])
    spots = joint.spots or circle_spots(record.count)
    circle = record.layout is None or record.layout.circle is not None or not joint.spots
    layout = "as its layout says" if joint.spots else "no layout to go by: taken as a circle"
    groups = {group.name: tuple(group.positions) for group in record.groups}
    orders = _read(written, spots, book, tuple(groups.values()))
    if orders:
        other = _checked(record.name, layout, spots, orders, book, circle=circle)
        return replace(other, groups=groups)
    reached: set[int] = set()
    passes = []
    for one in joint.passes:
        positions = groups.get(one.group, ())
        [found] = check([one.order], spots, positions)
        first = not set(one.order) <= reached
        passes.append(OrderedPass(one.order, found._replace(first=first), one.stages, one.group))
        reached |= set(one.order)
    return Ordering(
        record.name,
        layout,
        spots,
        circle,
        tuple(passes),
        groups,
        _published(len(spots), book, circle=circle),
    )


def _read(
    written: str, spots: tuple[Spot, ...], book: Book, groups: tuple[tuple[int, ...], ...] = ()
) -> tuple[tuple[int, ...], ...]:
    """Return the passes of an order as it is written; none if it is not."""
    names = passes_of(written.strip()) if written.strip() else []
    return tuple(order_of(name, spots, named_orders(book), groups) for name in names)


def _checked(
    name: str,
    layout: str,
    spots: tuple[Spot, ...],
    orders: Sequence[tuple[int, ...]],
    book: Book,
    *,
    circle: bool,
) -> Ordering:
    checked = zip(orders, check(orders, spots), strict=True)
    passes = tuple(OrderedPass(order, found) for order, found in checked)
    published = _published(len(spots), book, circle=circle)
    return Ordering(name, layout, spots, circle, passes, {}, published)


def _published(count: int, book: Book, *, circle: bool) -> tuple[Pattern, ...]:
    """Return the published orders over so many positions of a circle."""
    return tuple(
        pattern
        for pattern in book.patterns()
        if circle and pattern.shape == "circle" and len(pattern.order) == count
    )
