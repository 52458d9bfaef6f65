"""The answer of ``job parts``."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING, Any

from torquebook.numerals import limits_text
from torquebook.render.cautions import CAUTION
from torquebook.render.figures import millimetres
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.jobs.parts import First, Item, Order, Parts
    from torquebook.render.paper import Paper

_HEADS = ("count", "what", "for", "why")
_WIDTHS = (5, 25, 20, 22)


def text(answer: Parts, paper: Paper) -> None:
    """Write what to order, what to have ready, and what to measure first."""
    paper.heading(f"{answer.job.held.record.name}: before you begin")
    paper.heading("To order")
    if answer.orders:
        rows = [
            (str(order.count), item_text(order.item), "; ".join(order.joints), order.why)
            for order in answer.orders
        ]
        paper.grid(rows, _HEADS, _WIDTHS, right={0})
        sources: dict[str, list[str]] = {}
        for order in answer.orders:
            sources.setdefault(order.source, []).extend(order.joints)
        for source, names in sources.items():
            paper.text(f"source for {'; '.join(dict.fromkeys(names))}: {source}", 2, 4)
    else:
        paper.text("nothing", 2)
    if answer.supplies:
        paper.heading("To have ready")
        for supply in answer.supplies:
            paper.text(f"{supply.what}: {'; '.join(supply.joints)}", 2, 4)
    if answer.firsts:
        paper.heading("To measure first")
        for first, after in zip_longest(answer.firsts, answer.firsts[1:]):
            paper.text(f"{first.name}: {first_text(first)}", 2, 4)
            paper.text(first.why, 4)
            if first.failing and (after is None or after.failing != first.failing):
                count, item = first.failing.count, item_text(first.failing.item)
                paper.text(f"for one that fails, of {count} in the joint, order {item}", 4)
    paper.gap()
    paper.text(CAUTION)


def item_text(item: Item) -> str:
    """Return a thing as a shop is asked for it."""
    if item.is_small:
        return f"{item.what}, for {item.thread}"
    said = [f"{item.what} {item.thread}"]
    if item.length_mm is not None:
        said[0] += f" × {millimetres(item.length_mm)}"
    said += [part for part in (item.strength_class, item.head) if part]
    if item.what == "bolt":
        said += [f"with nut {item.nut}"] if item.nut else []
        said += ["length not stated"] if item.length_mm is None else []
    return ", ".join(said)


def first_text(first: First) -> str:
    """Return what is measured, within which limits, with what."""
    said = first.what
    if first.measure:
        ends = limits_text(first.measure.low, first.measure.high)
        said += f", {with_unit(ends, first.measure.unit)}"
    return f"{said} ({first.tool})" if first.tool else said


def rows(answer: Parts) -> Iterator[tuple[str | float | None, ...]]:
    """Yield the lists as rows of one table."""
    yield (
        "list", "count", "what", "thread", "length_mm", "class", "head", "nut", "for", "low",
        "high", "unit", "tool", "why", "source",
    )  # fmt: skip
    for order in answer.orders:
        what, names = order.item.what, "; ".join(order.joints)
        about = _about(order.item)
        yield (
            "order", order.count, what, *about, names, None, None, "", "", order.why, order.source
        )  # fmt: skip
    for supply in answer.supplies:
        names = "; ".join(supply.joints)
        yield ("ready", None, supply.what, "", None, "", "", "", names, None, None, "", "", "", "")
    for first in answer.firsts:
        measure = first.measure
        ends = (measure.low, measure.high, measure.unit) if measure else (None, None, "")
        count: int | None = None
        about, source = _about(None), ""
        if failing := first.failing:
            count, about, source = failing.count, _about(failing.item), failing.source
        where = (first.what, *about, first.name)
        yield ("measure", count, *where, *ends, first.tool, first.why, source)


def _about(item: Item | None) -> tuple[str, float | None, str, str, str]:
    if item is None:
        return "", None, "", "", ""
    return item.thread, item.length_mm, item.strength_class, item.head, item.nut


def data(answer: Parts) -> dict[str, Any]:
    """Return the lists for a program."""
    return {
        "job": answer.job.held.id,
        "order": [_order(order) for order in answer.orders],
        "ready": [{"what": one.what, "joints": list(one.joints)} for one in answer.supplies],
        "measure": [
            {
                "name": first.name,
                "what": first.what,
                "low": first.measure and first.measure.low,
                "high": first.measure and first.measure.high,
                "unit": first.measure and first.measure.unit,
                "tool": first.tool,
                "why": first.why,
                "failing": first.failing and _order(first.failing),
            }
            for first in answer.firsts
        ],
        "caution": CAUTION,
    }


def _order(order: Order) -> dict[str, Any]:
    item = order.item
    return {
        "count": order.count,
        "what": item.what,
        "thread": item.thread,
        "length_mm": item.length_mm,
        "class": item.strength_class,
        "head": item.head,
        "nut": item.nut,
        "joints": list(order.joints),
        "why": order.why,
        "source": order.source,
    }
