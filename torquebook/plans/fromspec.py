"""The line of a plan that a joint's record stands for: every cell at its value in the YAML."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.findings import Place
from torquebook.plans.cells import plan_line
from torquebook.plans.model import Cell

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.library import Held
    from torquebook.catalogue.strict import Positions, ValuePath
    from torquebook.plans.model import PlanLine
    from torquebook.records.joint import JointRecord

_STRETCH: Final = "stretch"


def joint_line(held: Held[JointRecord]) -> PlanLine:
    """Return a joint as a line of a plan.

    Parameters
    ----------
    held : Held of JointRecord

    Returns
    -------
    PlanLine
        Its number is the line where the record starts; its cells stand where the record has
        their values.
    """
    positions = held.positions()
    cells = {
        column: Cell(text, where(held, path, positions)) for column, text, path in _cells(held)
    }
    return plan_line(where(held, (), positions), cells, {})


def where(held: Held[Any], path: ValuePath, positions: Positions) -> Place:
    """Return the place of a record's value, or of what holds it where it has none itself."""
    while (spot := positions.get(path)) is None and path:
        path = path[:-1]
    return Place(str(held.path), *(spot or (1, 1)))


def _cells(held: Held[JointRecord]) -> Iterator[tuple[str, str, ValuePath]]:
    """Yield column, text and path of every value that the record states."""
    record, bolt = held.record, held.record.fastener
    stated: tuple[tuple[str, Any, ValuePath], ...] = (
        ("joint", record.name, ("name",)),
        ("kind", *_kind(record)),
        ("thread", bolt.thread, ("fastener", "thread")),
        ("class", bolt.strength_class, ("fastener", "strength_class")),
        ("count", record.count, ("count",)),
        ("tighten", record.tighten, ("tighten",)),
        ("friction", record.friction, ("friction",)),
        ("head", bolt.head, ("fastener", "head")),
        ("under", record.stack[0].material if record.stack else None, ("stack", 0, "material")),
        ("into", record.into, ("into",)),
        ("engagement", _mm(record.engagement_mm), ("engagement_mm",)),
        ("hole_depth", _mm(record.hole_depth_mm), ("hole_depth_mm",)),
        ("clamp_length", _mm(sum(layer.thickness_mm for layer in record.stack)), ("stack",)),
        ("length", _mm(bolt.length_mm), ("fastener", "length_mm")),
        ("nut", bolt.nut, ("fastener", "nut")),
        ("state", *_state(record)),
        ("order", *_order(record)),
        ("wrench", record.wrench, ("wrench",)),
        ("source", record.source.line, ("source", "title")),
        ("note", record.note, ("note",)),
    )
    for column, value, path in stated:
        if value:
            yield column, f"{value}", path


def _mm(value: float | None) -> str:
    """Return a length as a cell holds it, empty for none."""
    return f"{value:g} mm" if value else ""


def _kind(record: JointRecord) -> tuple[str | None, ValuePath]:
    features = record.fastener.features
    if record.fastener.kind is None and _STRETCH in features:
        return _STRETCH, ("fastener", "features", features.index(_STRETCH))
    return record.fastener.kind, ("fastener", "kind")


def _state(record: JointRecord) -> tuple[str, ValuePath]:
    """Return what is known of the fasteners' past: nothing says that they are used or new."""
    if record.reuse is not None and record.reuse.always_new:
        return "new", ("reuse", "always_new")
    return ("used" if record.fastener.history else ""), ("fastener", "history")


def _order(record: JointRecord) -> tuple[str, ValuePath]:
    """Return the order over all positions that comes first; groups have orders of their own."""
    first = record.passes[0] if record.passes else None
    if record.order is None and first is not None and first.group is None:
        return first.order, ("passes", 0, "order")
    return record.order or "", ("order",)
