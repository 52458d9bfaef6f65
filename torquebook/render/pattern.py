"""The drawing of an order: positions as they lie, numbers in the order of tightening.

Written by hand, in millimetres, black on white: it prints sharp on any laser.
"""

from __future__ import annotations

from html import escape
from itertools import combinations, pairwise
from math import hypot
from typing import TYPE_CHECKING, Final

from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.patterns.layout import Spot

_RADIUS: Final = 2.7  # of a bolt, in mm on paper
_APART: Final = 6.4  # least distance of two bolts on paper
_EDGE: Final = 3.8  # from the outermost bolt's middle to the paper's edge
_HEAD: Final = 1.5  # length of an arrow's head
_TEXT: Final = 3.4
_STYLE: Final = 'fill="none" stroke="#000" stroke-width="0.3"'
_LABEL: Final = f'font-family="sans-serif" font-size="{_TEXT}" text-anchor="middle"'


def drawing(
    spots: Sequence[Spot],
    order: Sequence[int],
    *,
    title: str = "",
    size_mm: float = 34.0,
    second: Sequence[int] = (),
) -> str:
    """Return one pass as an SVG element.

    Parameters
    ----------
    spots : sequence of (float, float)
        Where the positions lie, x to the right and y up; in any unit.
    order : sequence of int
        Positions from 1 up, in the order of tightening; those that it leaves out are drawn
        empty.
    title : str
        What a screen reader says first.
    size_mm : float
        The longer side on paper; it grows where the bolts would touch.
    second : sequence of int
        Positions of a second group, drawn as squares.

    Returns
    -------
    str
        Numbers are the turn of each bolt, arrows the way of the pass, a dot marks position 1.
    """
    places, width, height = _on_paper(spots, size_mm)
    turns = {position: turn for turn, position in enumerate(order, 1)}
    way = [places[position - 1] for position in order]
    said = f"{inert(title)}: " if title else ""
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width:.1f}mm" '
        f'height="{height:.1f}mm" viewBox="0 0 {width:.1f} {height:.1f}">',
        f"<title>{escape(said)}order {'-'.join(map(str, order))}</title>",
        *(_arrow(start, end) for start, end in pairwise(way)),
    ]
    for position, place in enumerate(places, 1):
        parts.append(_bolt(place, square=position in second))
        if position in turns:
            parts.append(_number(place, turns[position]))
    parts.append(_first(places))
    return "\n".join([*parts, "</svg>"])


def _on_paper(spots: Sequence[Spot], size_mm: float) -> tuple[list[Spot], float, float]:
    """Return the places on paper, y down, and the paper's width and height [mm]."""
    xs, ys = zip(*spots, strict=True)
    left, top = min(xs), max(ys)
    across, down = max(xs) - left, top - min(ys)
    near = min((hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(spots, 2)), default=1.0)
    scale = max((size_mm - 2 * _EDGE) / (max(across, down) or 1.0), _APART / near)
    places = [((x - left) * scale + _EDGE, (top - y) * scale + _EDGE) for x, y in spots]
    return places, across * scale + 2 * _EDGE, down * scale + 2 * _EDGE


def _bolt(place: Spot, *, square: bool) -> str:
    x, y = place
    if square:
        side = 2 * _RADIUS
        at = f'x="{x - _RADIUS:.2f}" y="{y - _RADIUS:.2f}" width="{side}" height="{side}"'
        return f'<rect {at} fill="#fff" stroke="#000" stroke-width="0.4"/>'
    at = f'cx="{x:.2f}" cy="{y:.2f}" r="{_RADIUS}"'
    return f'<circle {at} fill="#fff" stroke="#000" stroke-width="0.4"/>'


def _number(place: Spot, turn: int) -> str:
    x, y = place
    return f'<text x="{x:.2f}" y="{y + 0.36 * _TEXT:.2f}" {_LABEL}>{turn}</text>'


def _first(places: Sequence[Spot]) -> str:
    """Return the dot beside position 1, on the side away from the middle."""
    (x, y), count = places[0], len(places)
    middle = sum(place[0] for place in places) / count, sum(place[1] for place in places) / count
    away = x - middle[0], y - middle[1]
    length = hypot(*away) or 1.0
    reach = (_RADIUS + _EDGE) / 2 / length
    dot = f'cx="{x + away[0] * reach:.2f}" cy="{y + away[1] * reach:.2f}" r="0.5"'
    return f"<circle {dot}/>"


def _arrow(start: Spot, end: Spot) -> str:
    """Return an arrow from rim to rim."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    ux, uy = dx / length, dy / length
    tip = end[0] - ux * _RADIUS, end[1] - uy * _RADIUS
    foot = tip[0] - ux * _HEAD, tip[1] - uy * _HEAD
    half = _HEAD / 3
    left = f"{foot[0] - uy * half:.2f} {foot[1] + ux * half:.2f}"
    right = f"{foot[0] + uy * half:.2f} {foot[1] - ux * half:.2f}"
    return (
        f'<path d="M{start[0]:.2f} {start[1]:.2f}L{foot[0]:.2f} {foot[1]:.2f}" {_STYLE}/>'
        f'<path d="M{tip[0]:.2f} {tip[1]:.2f}L{left}L{right}Z"/>'
    )
