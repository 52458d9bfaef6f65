"""The answer of ``job tools``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook import units
from torquebook.render.cautions import CAUTION, demo_wrenches
from torquebook.render.figures import millimetres

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.jobs.tools import Setting, Spanner, Tools
    from torquebook.render.paper import Paper

CROW_FOOT = "crow's foot"


def text(answer: Tools, paper: Paper) -> None:
    """Write the wrenches with their settings, what none covers, spanners and gauges."""
    paper.heading(f"{answer.job.held.record.name}: what to work with")
    for use in answer.wrenches:
        paper.heading(f"Torque wrench {use.wrench.name}, {use.wrench.drive}")
        paper.columns([(_set(one), one.stage.shown, one.joint) for one in use.settings])
    if answer.uncovered:
        paper.heading("No wrench covers")
        for one in answer.uncovered:
            paper.text(f"{one.stage.shown}: {one.joint}", 2, 4)
    _spanners(answer, paper)
    if answer.gauges:
        paper.heading("Gauges")
        for tool, names in answer.gauges.items():
            paper.text(f"{tool}: {'; '.join(names)}", 2, 4)
    invented = [use.wrench.name for use in answer.wrenches if use.wrench.invented]
    if invented:
        paper.gap()
        paper.text(demo_wrenches(", ".join(invented), len(invented)))
    paper.gap()
    paper.text(CAUTION)


def _spanners(answer: Tools, paper: Paper) -> None:
    paper.heading("Sockets and keys")
    for spanner in answer.spanners:
        paper.text(f"{spanner_text(spanner)}: {'; '.join(spanner.joints)}", 2, 4)
    if answer.unsized:
        paper.text(f"measure, no width is stated or listed: {'; '.join(answer.unsized)}", 2, 4)
    if answer.crow_feet:
        said = f"{CROW_FOOT}, and set what torquebook wrench --extension says for it"
        paper.text(f"{said}: {'; '.join(answer.crow_feet)}", 2, 4)
    if any(spanner.other_mm for spanner in answer.spanners):
        paper.text("of two widths the first is by ISO, the second by older DIN standards", 2, 4)
    if any(len(spanner.drives) > 1 for spanner in answer.spanners):
        paper.text("with two drives: a socket for each, or an adapter between them", 2, 4)


def _set(one: Setting) -> str:
    return f"set {units.write(one.stage.setting)}" if one.stage.setting else ""


def spanner_text(spanner: Spanner) -> str:
    """Return a socket or key with its size, and the other sizes that such heads have."""
    sizes = [millimetres(size) for size in (spanner.size_mm, *spanner.other_mm)]
    said = f"{spanner.kind} {' or '.join(sizes)} mm"
    said += f", drive {' and '.join(spanner.drives)}" if spanner.drives else ""
    said += ", to hold the nut" if spanner.kind == "spanner" else ""
    return said + (", if the head is a hexagon, which is not stated" if spanner.assumed else "")


def rows(answer: Tools) -> Iterator[tuple[str | float | None, ...]]:
    """Yield the tools as rows of one table."""
    yield (
        "list", "tool", "set", "set_unit", "stage", "size_mm", "other_mm", "drive", "assumed", "for"
    )  # fmt: skip
    for use in answer.wrenches:
        for one in use.settings:
            value, unit = one.stage.setting or (None, "")
            drive = use.wrench.drive
            yield (
                "wrench", use.wrench.name, value, unit, one.stage.shown, None, "", drive, "",
                one.joint,
            )  # fmt: skip
    for one in answer.uncovered:
        yield ("uncovered", "", None, "", one.stage.shown, None, "", "", "", one.joint)
    for spanner in answer.spanners:
        sizes = (spanner.size_mm, " or ".join(map(millimetres, spanner.other_mm)))
        assumed = "a hexagon" if spanner.assumed else ""
        about = (*sizes, "; ".join(spanner.drives), assumed, "; ".join(spanner.joints))
        yield ("spanner", spanner.kind, None, "", "", *about)
    others = {
        "unsized": {"": answer.unsized} if answer.unsized else {},
        "adapter": {CROW_FOOT: answer.crow_feet} if answer.crow_feet else {},
        "gauge": answer.gauges,
    }
    for name, found in others.items():
        for tool, needed in found.items():
            yield (name, tool, None, "", "", None, "", "", "", "; ".join(needed))


def data(answer: Tools) -> dict[str, Any]:
    """Return the tools for a program."""
    return {
        "job": answer.job.held.id,
        "wrenches": [
            {
                "wrench": use.wrench.name,
                "invented": use.wrench.invented,
                "settings": [_setting(one) for one in use.settings],
            }
            for use in answer.wrenches
        ],
        "uncovered": [_setting(one) for one in answer.uncovered],
        "spanners": [
            {
                "kind": spanner.kind,
                "size_mm": spanner.size_mm,
                "other_mm": list(spanner.other_mm),
                "drives": list(spanner.drives),
                "assumed": spanner.assumed,
                "joints": list(spanner.joints),
            }
            for spanner in answer.spanners
        ],
        "unsized": list(answer.unsized),
        "crow_feet": list(answer.crow_feet),
        "gauges": {tool: list(names) for tool, names in answer.gauges.items()},
        "caution": CAUTION,
    }


def _setting(one: Setting) -> dict[str, Any]:
    setting = one.stage.setting
    return {
        "joint": one.joint,
        "stage": one.stage.number,
        "shown": one.stage.shown,
        "setting": setting and setting._asdict(),
    }
