"""The answer of ``size``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.render.cautions import CAUTION
from torquebook.render.figures import figures, kilonewtons, millimetres, three_digits

if TYPE_CHECKING:
    from torquebook.answers.sizes import Loads, SizePage
    from torquebook.catalogue.shelves import HeadSize
    from torquebook.render.paper import Paper

_INCH_MM: Final = 25.4


def text(answer: tuple[SizePage, ...], paper: Paper) -> None:
    """Write a page for each thread, and the sources once."""
    for page in answer:
        _title(page, paper)
        _dimensions(page, paper)
        _heads(page, paper)
        _holes(page, paper)
        _loads(page, paper)
    paper.gap()
    paper.text(f"Sources: {'; '.join(_sources(answer))}.")
    paper.gap()
    paper.text(CAUTION)


def _title(page: SizePage, paper: Paper) -> None:
    thread = page.thread
    paper.heading(f"{thread.size}  {thread.family} thread, {thread.series}")
    if page.others:
        names = ", ".join(f"{other.size} {other.series}" for other in page.others)
        paper.text(f"same diameter: {names}", 2, 4)


def _dimensions(page: SizePage, paper: Paper) -> None:
    thread = page.thread
    inch = thread.family == "inch"
    pitch = f"{millimetres(thread.pitch_mm)} mm"
    diameter = f"{millimetres(thread.d_mm)} mm"
    if inch:
        pitch += f", {figures(_INCH_MM / thread.pitch_mm)} per inch"
        diameter += f", {figures(thread.d_mm / _INCH_MM, 4)} in"
    paper.gap()
    paper.columns(
        [
            ("diameter", "d", diameter),
            ("pitch", "P", pitch),
            ("pitch diameter", "d2", f"{millimetres(thread.d2_mm)} mm"),
            ("minor diameter", "D1", f"{millimetres(thread.minor_mm)} mm"),
            ("root of the bolt", "d3", f"{millimetres(thread.d3_mm)} mm"),
            ("stress area", "As", f"{three_digits(thread.stress_area_mm2)} mm²"),
        ]
    )


def _heads(page: SizePage, paper: Paper) -> None:
    if not page.heads:
        return
    alike: dict[tuple[str, float | None, float | None], list[HeadSize]] = {}
    for head in page.heads:
        alike.setdefault((head.head, head.across_flats_mm, head.key_mm), []).append(head)
    paper.heading("Spanner and key")
    rows = [
        (
            name,
            f"spanner {millimetres(flats)} mm" if flats else f"key {millimetres(key or 0)} mm",
            ", ".join(dict.fromkeys(head.standard for head in group)),
        )
        for (name, flats, key), group in alike.items()
    ]
    paper.columns(rows)


def _holes(page: SizePage, paper: Paper) -> None:
    rows = []
    if page.hole:
        hole = page.hole
        names = ("fine", "medium", "coarse")
        series = zip(names, (hole.fine_mm, hole.medium_mm, hole.coarse_mm), strict=True)
        shown = ", ".join(f"{name} {millimetres(size)} mm" for name, size in series)
        rows.append(("clearance", shown))
    if page.drill_mm:
        rows.append(("tapping drill", f"{millimetres(page.drill_mm)} mm"))
    if rows:
        paper.heading("Holes")
        paper.columns(rows)


def _loads(page: SizePage, paper: Paper) -> None:
    if not page.loads:
        return
    paper.heading("Loads")
    rows = [("proof kN", "yield kN", "ultimate kN", "class")]
    rows += [
        (
            kilonewtons(loads.proof_n),
            kilonewtons(loads.yield_n),
            kilonewtons(loads.ultimate_n),
            ", ".join(dict.fromkeys(one.name for one in loads.classes)),
        )
        for loads in page.loads
    ]
    paper.columns(rows, right={0, 1, 2})


def _sources(answer: tuple[SizePage, ...]) -> dict[str, None]:
    """Return the documents that the pages rest on; heads name their standards themselves."""
    found: dict[str, None] = {}
    for page in answer:
        found[page.thread.source] = None
        if page.hole:
            found[page.hole.source] = None
        found.update((one.source, None) for loads in page.loads for one in loads.classes)
    return found


def data(answer: tuple[SizePage, ...]) -> dict[str, Any]:
    """Return the answer for a program."""
    return {"threads": [_data(page) for page in answer], "caution": CAUTION}


def _data(page: SizePage) -> dict[str, Any]:
    thread = page.thread
    return {
        "size": thread.size,
        "family": thread.family,
        "series": thread.series,
        "d_mm": thread.d_mm,
        "pitch_mm": thread.pitch_mm,
        "d2_mm": thread.d2_mm,
        "minor_mm": thread.minor_mm,
        "d3_mm": thread.d3_mm,
        "stress_area_mm2": thread.stress_area_mm2,
        "source": thread.source,
        "heads": [head._asdict() for head in page.heads],
        "hole": page.hole and page.hole._asdict(),
        "drill_mm": page.drill_mm,
        "loads": [row for loads in page.loads for row in _load_rows(loads)],
        "others": [other.size for other in page.others],
    }


def _load_rows(loads: Loads) -> list[dict[str, Any]]:
    return [
        {
            "class": one.name,
            "proof_n": loads.proof_n,
            "yield_n": loads.yield_n,
            "ultimate_n": loads.ultimate_n,
            "source": one.source,
        }
        for one in loads.classes
    ]
