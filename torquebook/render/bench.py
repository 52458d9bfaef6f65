"""The answer of ``bench``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook import units
from torquebook.render.cautions import CAUTION
from torquebook.render.figures import figures, span

if TYPE_CHECKING:
    from torquebook.answers.benches import BenchState
    from torquebook.render.paper import Paper


def text(answer: BenchState, paper: Paper) -> None:
    """Write the wrenches and all else, and what is overdue."""
    bench = answer.bench
    paper.heading("My bench")
    if bench.wrenches:
        rows = [("wrench", "scale", "step", "deviation", "calibrated", "uses")]
        for one in bench.wrenches:
            ends = units.with_unit(span(figures(one.low), figures(one.high)), one.unit)
            share = f"±{figures(one.deviation * 100)} %"
            calibrated = one.calibrated or "not known"
            rows.append((one.name, ends, figures(one.step), share, calibrated, str(one.uses)))
        paper.columns(rows)
    else:
        paper.text("no wrench; the invented ones of the demo stand in", 2)
    for adapter in bench.adapters:
        paper.text(f"adapter {adapter.name}: {figures(adapter.extension_mm)} mm", 2, 4)
    for what, said in (
        ("unit", bench.unit),
        ("prefers", ", ".join(bench.prefer)),
        ("own records", ", ".join(bench.books)),
    ):
        if said:
            paper.text(f"{what}: {said}", 2, 4)
    if answer.overdue:
        paper.heading("To be calibrated (ISO 6789:2003: 12 months or 5000 uses)")
        for name, why in answer.overdue.items():
            paper.text(f"{name}: {why}", 2, 4)
    paper.gap()
    where = "kept in" if answer.kept else "nothing is kept yet; its file will be"
    paper.text(f"{where} {answer.path}", 0, 2)
    paper.gap()
    paper.text(CAUTION)


def data(answer: BenchState) -> dict[str, Any]:
    """Return the answer for a program."""
    bench = answer.bench
    return {
        "path": answer.path,
        "kept": answer.kept,
        "wrenches": [one._asdict() for one in bench.wrenches],
        "adapters": [one._asdict() for one in bench.adapters],
        "unit": bench.unit,
        "prefer": list(bench.prefer),
        "books": list(bench.books),
        "overdue": answer.overdue,
        "caution": CAUTION,
    }
