"""The answer of ``job order``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.patterns.measures import MOST_PULL
from torquebook.render.cautions import CAUTION
from torquebook.render.pattern import drawing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.jobs.ordering import OrderedPass, Ordering
    from torquebook.render.paper import Paper

_PRINTED_MM: Final = 80.0  # the drawing's longer side; it grows where it must


def text(answer: Ordering, paper: Paper) -> None:
    """Write the passes by position, the order of loosening, and what is wrong."""
    paper.heading(f"{answer.name}: order by position")
    if not answer.passes:
        paper.text("one bolt has no order", 2, 4)
        return
    paper.text(answer.layout, 2, 4)
    rows = [(_name(one, at), _pass(one)) for at, one in enumerate(answer.passes, 1)]
    if answer.loosening:
        rows.append(("loosen", _dashed(answer.loosening)))
    rows += [("published", f"{_dashed(p.order)}, {p.source}") for p in answer.published]
    paper.columns(rows)
    for severity, message in answer.remarks:
        paper.gap()
        paper.text(f"{severity.word.upper():4}  {message}", 0, 6)
    paper.gap()
    paper.text(
        "Pull: how far the bolts tightened so far draw to one side, in bolts at the rim. "
        f"Up to {MOST_PULL:.2f} is even."
    )
    paper.text(CAUTION)


def _name(one: OrderedPass, number: int) -> str:
    stages = f"stage {', '.join(map(str, one.stages))}" if one.stages else f"pass {number}"
    return f"{stages}, {one.group}" if one.group else stages


def _pass(one: OrderedPass) -> str:
    pull = one.found.pull
    return _dashed(one.order) + (f"  pull {pull:.2f}" if one.found.first and pull else "")


def _dashed(order: Sequence[int]) -> str:
    return "-".join(map(str, order))


def data(answer: Ordering) -> dict[str, Any]:
    """Return the same for a program."""
    return {
        "name": answer.name,
        "positions": [list(spot) for spot in answer.spots],
        "groups": {name: list(positions) for name, positions in answer.groups.items()},
        "passes": [_data(one) for one in answer.passes],
        "loosen": list(answer.loosening),
        "published": [
            {"name": one.name, "order": list(one.order), "source": one.source}
            for one in answer.published
        ],
        "remarks": [
            {"severity": severity.word, "message": message} for severity, message in answer.remarks
        ],
        "caution": CAUTION,
    }


def _data(one: OrderedPass) -> dict[str, Any]:
    found = one.found
    return {
        "order": list(one.order),
        "stages": list(one.stages),
        "group": one.group or None,
        "first": found.first,
        "pull": found.pull,
        "even": found.even,
        "round": found.round,
        **{name: list(positions) for name, positions in found.faults._asdict().items()},
    }


def picture(answer: Ordering) -> str:
    """Return the first round as SVG: turns in the bolts, positions beside them."""
    first = answer.first_round
    named = [one.group for one in first if one.group in answer.groups] or list(answer.groups)
    return drawing(
        answer.spots,
        [position for one in first for position in one.order],
        title=answer.name,
        size_mm=_PRINTED_MM,
        groups=[answer.groups[name] for name in named[1:]],
        numbered=True,
    )
