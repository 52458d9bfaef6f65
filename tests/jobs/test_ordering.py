"""Orders by themselves: made, read, checked."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.jobs.ordering import of_joint, over_circle, over_rows
from torquebook.render.order import picture

if TYPE_CHECKING:
    from conftest import Bench

GROUPS = """\
groups:
  - {name: "dowels", positions: [1, 4]}
  - {name: "others", positions: [2, 3, 5, 6]}
passes:
  - {stages: [1], order: "1-4", group: "dowels"}
  - {stages: [1], order: "2-5-3-6", group: "others"}
  - {stages: [2], order: "round"}
"""


@pytest.fixture(scope="module")
def book() -> Book:
    """Return our own book."""
    return Book.open()


def test_a_circle_is_crossed(book: Book) -> None:
    """Without an order one is made, which the book publishes; loosening is its reverse."""
    found = over_circle(8, "", book)
    [only] = found.passes
    assert only.order == found.published[0].order == (1, 5, 3, 7, 2, 6, 4, 8)
    assert found.loosening == (8, 4, 6, 2, 7, 3, 5, 1)
    assert found.remarks == ()


def test_rows_go_from_the_centre(book: Book) -> None:
    """Rows have no published order; the middle ones come first and are loosened last."""
    found = over_rows((5, 5), "", book)
    assert found.passes[0].order[:2] == (3, 8)
    assert found.loosening[-2:] == (8, 3)
    assert found.published == ()


def test_a_last_pass_may_go_round(book: Book) -> None:
    """Two passes, the second round the circle: nothing to remark."""
    found = over_circle(6, "1-4-2-5-3-6 / round", book)
    assert [one.order for one in found.passes] == [(1, 4, 2, 5, 3, 6), (1, 2, 3, 4, 5, 6)]
    assert found.remarks == ()


@pytest.mark.parametrize(
    ("order", "severity", "message"),
    [
        ("round", Severity.ASK, "pass 1 goes round the circle: it pulls to one side by 2.61"),
        ("1-3-5-7-2-4-6-8", Severity.ASK, "pass 1 is uneven: it pulls to one side by 1.41"),
        ("1-5-3-7-2-6-4", Severity.STOP, "pass 1: the order reaches 7 of 8 positions; 8 is"),
        ("cross / 1-2-3-4-5-6-7-8-8", Severity.ASK, "pass 2: 8 stands twice"),
        ("1-5-3-7-2-6-4-8-9", Severity.ASK, "pass 1: 9 is none of the positions"),
    ],
)
def test_what_is_wrong_is_told(book: Book, order: str, severity: Severity, message: str) -> None:
    """Faults and an uneven first pass are told by pass; such an order is not turned round."""
    found = over_circle(8, order, book)
    [(serious, said)] = found.remarks
    assert serious is severity
    assert said.startswith(message)
    assert found.loosening == ()


def test_rows_are_not_judged_for_their_pull(book: Book) -> None:
    """Makers' orders go round the middle of rows; the pull is measured all the same."""
    found = over_rows((3, 3), "2-5-6-3-1-4", book)
    assert found.remarks == ()
    assert found.passes[0].found.pull == pytest.approx(1.79, abs=0.01)


def test_an_unknown_order_is_asked_back(book: Book) -> None:
    """With the names that there are."""
    with pytest.raises(NotUnderstood, match="no order of that name"):
        over_circle(8, "spiral", book)


def test_a_joint_has_its_own_orders(bench: Bench) -> None:
    """Its passes come with stages and groups; the groups' passes are one round."""
    bench.record("cover", GROUPS, count="6")
    found = of_joint(bench.library(), bench.book(), "pump cover", "")
    told = [(one.stages, one.group, one.order, one.found.first) for one in found.passes]
    assert told == [
        ((1,), "dowels", (1, 4), True),
        ((1,), "others", (2, 5, 3, 6), True),
        ((2,), "", (1, 2, 3, 4, 5, 6), False),
    ]
    assert len(found.first_round) == 2
    assert found.loosening == (6, 3, 5, 2, 4, 1)
    assert found.groups == {"dowels": (1, 4), "others": (2, 3, 5, 6)}
    assert found.remarks == ()


def test_another_order_is_checked_over_a_joint(bench: Bench) -> None:
    """An order that is asked about takes the place of the joint's own."""
    bench.record("cover")
    found = of_joint(bench.library(), bench.book(), "pump cover", "1-2-3-4")
    assert [severity for severity, _ in found.remarks] == [Severity.ASK]
    assert found.spots[0] == pytest.approx((0, 50))


def test_a_joint_without_a_layout_is_taken_as_a_circle(bench: Bench) -> None:
    """The answer says so."""
    bench.record("cover", layout=None)
    found = of_joint(bench.library(), bench.book(), "pump cover", "")
    assert found.is_circle
    assert "taken as a circle" in found.layout


def test_a_joint_in_rows_is_no_circle(bench: Bench) -> None:
    """No published order is for it."""
    bench.record("cover", layout="{rows: {lengths: [2, 2], along_mm: 60, between_mm: 40}}")
    found = of_joint(bench.library(), bench.book(), "pump cover", "")
    assert not found.is_circle
    assert found.published == ()


def test_a_single_bolt_has_no_pass(bench: Bench) -> None:
    """There is nothing to order."""
    bench.record("cover", count="1")
    found = of_joint(bench.library(), bench.book(), "pump cover", "")
    assert found.passes == ()
    assert found.loosening == ()


def test_groups_are_interleaved_over_a_joint(bench: Bench) -> None:
    """Each pass reaches every position, and the answer still knows the groups."""
    bench.record("cover", GROUPS, count="6")
    found = of_joint(bench.library(), bench.book(), "pump cover", "interleaved")
    [only] = found.passes
    assert only.found.complete
    assert list(found.groups) == ["dowels", "others"]
    assert picture(found).count("<polygon") == 4


def test_a_pass_of_an_unknown_group_is_drawn(bench: Bench) -> None:
    """The validator asks about its name; the drawing needs no group."""
    bench.record("cover", GROUPS.replace('group: "dowels"', 'group: "dowel"'), count="6")
    found = of_joint(bench.library(), bench.book(), "pump cover", "")
    assert "<svg" in picture(found)
