"""The drawing of an order: positions as they lie, numbers in the order of tightening.

Written by hand, in millimetres, black on white: it prints sharp on any laser.
"""

from __future__ import annotations

from html import escape
from itertools import combinations, pairwise
from math import cos, hypot, inf, pi, sin
from typing import TYPE_CHECKING, Final

from torquebook.render.plain import inert

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.patterns.layout import Spot

_RADIUS: Final = 3.2  # of a bolt, in mm on paper
_TEXT: Final = 4.3  # 12 pt: its figures are 3.1 mm high
_SMALL: Final = 3.2
_APART: Final = 7.5  # least distance of two bolts on paper
_APART_NUMBERED: Final = 12.0  # the same with numbers beside them
_EDGE: Final = 4.6  # from the outermost bolt's middle to the paper's edge
_EDGE_NUMBERED: Final = 8.6
_LARGEST: Final = 180.0  # what A4 and Letter have room for
_BESIDE: Final = 5.5  # from a bolt's middle to a figure beside it
_FIGURE: Final = 0.7  # more for each further figure
_MARK: Final = 1.3  # length of the mark of position 1
_HEAD: Final = 1.6  # length of an arrow's head
_CLEAR: Final = _RADIUS + 0.2  # how near an arrow comes to a bolt that it passes
_BEND: Final = 3.0  # by which an arrow is drawn aside, or by a multiple of it
_STEPS: Final = 24  # in which a curve is followed
_ALL_ARROWS: Final = 8  # up to so many positions have an arrow each
_FIRST_ARROWS: Final = 3  # of more positions: enough to show the way
_STYLE: Final = 'fill="none" stroke="#000" stroke-width="0.3"'
_RIM: Final = 'fill="#fff" stroke="#000" stroke-width="0.4"'
_SHAPES: Final = 4  # round, square, square on a corner, round with a second rim
_SQUARE: Final = tuple(
    (0.88 * _RADIUS * x, 0.88 * _RADIUS * y) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))
)
_ON_CORNER: Final = tuple(
    (1.38 * _RADIUS * x, 1.38 * _RADIUS * y) for x, y in ((0, -1), (1, 0), (0, 1), (-1, 0))
)
_LABEL: Final = 'font-family="sans-serif" text-anchor="middle"'


def drawing(
    spots: Sequence[Spot],
    order: Sequence[int],
    *,
    title: str = "",
    size_mm: float = 34.0,
    groups: Sequence[Sequence[int]] = (),
    numbered: bool = False,
) -> str:
    """Return one pass as an SVG element.

    Parameters
    ----------
    spots : sequence of (float, float)
        Where the positions lie, no two on one spot, x to the right and y up; in any unit.
    order : sequence of int
        Positions from 1 up, in the order of tightening; those that it leaves out are drawn
        empty, and those that there are not are passed over.
    title : str
        What a screen reader says first.
    size_mm : float
        The longer side on paper; it grows where the bolts would touch, up to 180.
    groups : sequence of sequence of int
        Positions of further groups. The first group is round, these are square, then square on
        a corner, then round with a second rim, and so on again.
    numbered : bool
        Whether each position's own number stands beside it, smaller.

    Returns
    -------
    str
        The number in a bolt is its turn, a tick on its rim marks position 1. Arrows lead from
        turn to turn; only to the first four where there are more than eight positions, or bolts
        stand in the way, for all would hide the rest.
    """
    places, width, height = _on_paper(spots, size_mm, numbered=numbered)
    reached = [position for position in order if 1 <= position <= len(places)]
    turns: dict[int, int] = {}
    for turn, position in enumerate(reached, 1):
        turns.setdefault(position, turn)
    parts = [
        _opened(width, height),
        *_told(title, reached, len(places)),
        *_arrows(places, [one for one in pairwise(reached) if one[0] != one[1]]),
        *([_tick(places)] if len(places) > 1 and not numbered else ()),
        *(_bolt(place, _shape(at, groups)) for at, place in enumerate(places, 1)),
        *(_number(places[position - 1], turn, _TEXT) for position, turn in turns.items()),
    ]
    if numbered:
        for at in range(len(places)):
            reach = _BESIDE + _FIGURE * (len(str(at + 1)) - 1)
            parts.append(_number(_beside(places, at, reach), at + 1, _SMALL))
    return "\n".join([*parts, "</svg>"])


def positions(spots: Sequence[Spot], *, title: str = "", size_mm: float = 34.0) -> str:
    """Return bolts as they lie, without an order: in each its own number, a tick at number 1.

    Parameters
    ----------
    spots, title, size_mm
        As for :func:`drawing`.
    """
    places, width, height = _on_paper(spots, size_mm, numbered=False)
    said = f"{inert(title)}: " if title else ""
    parts = [
        _opened(width, height),
        f"<title>{escape(said)}{len(places)} positions</title>",
        _tick(places),
        *(_bolt(place, 0) for place in places),
        *(_number(place, at, _TEXT) for at, place in enumerate(places, 1)),
    ]
    return "\n".join([*parts, "</svg>"])


def _opened(width: float, height: float) -> str:
    size = f'width="{width:.1f}mm" height="{height:.1f}mm" viewBox="0 0 {width:.1f} {height:.1f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size}>'


def _told(title: str, order: Sequence[int], count: int) -> tuple[str, str]:
    """Return what a screen reader says of the drawing."""
    said = f"{inert(title)}: " if title else ""
    positions = "1 position" if count == 1 else f"{count} positions"
    return (
        f"<title>{escape(said)}order {'-'.join(map(str, order))}</title>",
        f"<desc>{positions} as they lie; the number in each is its turn.</desc>",
    )


def _on_paper(
    spots: Sequence[Spot], size_mm: float, *, numbered: bool
) -> tuple[list[Spot], float, float]:
    """Return the places on paper, y down, and the paper's width and height [mm]."""
    edge, apart = (_EDGE_NUMBERED, _APART_NUMBERED) if numbered else (_EDGE, _APART)
    xs, ys = zip(*spots, strict=True)
    left, top = min(xs), max(ys)
    across, down = max(xs) - left, top - min(ys)
    longest = max(across, down) or 1.0
    near = min((hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(spots, 2)), default=1.0)
    room = max((size_mm - 2 * edge) / longest, apart / near)
    scale = min(room, (_LARGEST - 2 * edge) / longest)
    places = [((x - left) * scale + edge, (top - y) * scale + edge) for x, y in spots]
    return places, across * scale + 2 * edge, down * scale + 2 * edge


def _shape(position: int, groups: Sequence[Sequence[int]]) -> int:
    """Return the shape of a position's group: 0 for the first one."""
    group = next((at for at, one in enumerate(groups, 1) if position in one), 0)
    return group % _SHAPES


def _bolt(place: Spot, shape: int) -> str:
    x, y = place
    ring = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{_RADIUS}" {_RIM}/>'
    if shape == _SHAPES - 1:
        return f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{_RADIUS + 0.8}" {_RIM}/>{ring}'
    if not shape:
        return ring
    corners = _SQUARE if shape == 1 else _ON_CORNER
    points = " ".join(f"{x + dx:.2f},{y + dy:.2f}" for dx, dy in corners)
    return f'<polygon points="{points}" {_RIM}/>'


def _number(place: Spot, number: int, size: float) -> str:
    x, y = place
    # White round the figures keeps an arrow that passes off them.
    halo = 'stroke="#fff" stroke-width="0.8" paint-order="stroke" ' if size == _SMALL else ""
    at = f'x="{x:.2f}" y="{y + 0.36 * size:.2f}"'
    return f'<text {at} font-size="{size}" {halo}{_LABEL}>{number}</text>'


def _tick(places: Sequence[Spot]) -> str:
    """Return the mark on the rim of position 1."""
    (x, y), end = places[0], _beside(places, 0, _RADIUS + _MARK)
    return (
        f'<path d="M{x:.2f} {y:.2f}L{end[0]:.2f} {end[1]:.2f}" '
        'fill="none" stroke="#000" stroke-width="0.8"/>'
    )


def _beside(places: Sequence[Spot], at: int, reach: float) -> Spot:
    """Return a free place beside a bolt: away from the middle, else where there is most room."""
    (x, y), count = places[at], len(places)
    away = x - sum(a for a, _ in places) / count, y - sum(b for _, b in places) / count
    length = hypot(*away) or 1.0
    ways = [(away[0] / length, away[1] / length) if any(away) else (0.0, -1.0)]
    ways += [(cos(turn * pi / 4), sin(turn * pi / 4)) for turn in (6, 2, 4, 0, 5, 7, 3, 1)]
    found = [(x + dx * reach, y + dy * reach) for dx, dy in ways]
    others = [place for index, place in enumerate(places) if index != at]

    def room(place: Spot) -> float:
        near = (hypot(place[0] - a, place[1] - b) for a, b in others)
        return min(min(near, default=inf), _APART)  # more than enough is enough

    return max(found, key=room)


def _arrows(places: Sequence[Spot], steps: Sequence[tuple[int, int]]) -> list[str]:
    """Return the arrows from rim to rim: all, or the first few where all would be a tangle."""
    if len(places) > _ALL_ARROWS:
        steps = steps[:_FIRST_ARROWS]
    bends = [_bend(places, start - 1, end - 1) for start, end in steps]
    clear = max(map(abs, bends), default=0) <= _BEND
    return [
        _arrow(places[start - 1], places[end - 1], bend)
        for (start, end), bend in zip(steps, bends, strict=True)
    ][: None if clear else _FIRST_ARROWS]


def _arrow(here: Spot, there: Spot, bend: float) -> str:
    aside = _aside(here, there, bend)
    dx, dy = there[0] - aside[0], there[1] - aside[1]
    length = hypot(dx, dy)
    ux, uy = dx / length, dy / length
    tip = there[0] - ux * _RADIUS, there[1] - uy * _RADIUS
    foot = tip[0] - ux * _HEAD, tip[1] - uy * _HEAD
    half = _HEAD / 3
    left = f"{foot[0] - uy * half:.2f} {foot[1] + ux * half:.2f}"
    right = f"{foot[0] + uy * half:.2f} {foot[1] - ux * half:.2f}"
    way = f"M{_at(here)}Q{_at(aside)} {_at(foot)}" if bend else f"M{_at(here)}L{_at(foot)}"
    return f'<path d="{way}" {_STYLE}/><path d="M{_at(tip)}L{left}L{right}Z"/>'


def _at(place: Spot) -> str:
    return f"{place[0]:.2f} {place[1]:.2f}"


def _aside(here: Spot, there: Spot, bend: float) -> Spot:
    """Return the point that draws a curve aside; the curve goes half as far [mm]."""
    dx, dy = there[0] - here[0], there[1] - here[1]
    by = bend / hypot(dx, dy)
    return (here[0] + there[0]) / 2 - dy * by, (here[1] + there[1]) / 2 + dx * by


def _bend(places: Sequence[Spot], start: int, end: int) -> float:
    """Return how far an arrow goes aside to pass the bolts in its way; 0 if none is [mm]."""
    others = [place for at, place in enumerate(places) if at not in {start, end}]
    if not others:
        return 0.0
    xs, ys = zip(*places, strict=True)
    steps = [0.0, *(side * step * _BEND for step in (1, 2, 3, 4) for side in (1, -1))]
    room = {}
    for bend in steps:
        curve = _points(places[start], places[end], bend)
        if bend and not all(
            min(xs) - _RADIUS < x < max(xs) + _RADIUS and min(ys) - _RADIUS < y < max(ys) + _RADIUS
            for x, y in curve
        ):
            continue  # off the paper
        room[bend] = min(hypot(x - a, y - b) for x, y in curve for a, b in others)
        if room[bend] >= _CLEAR:
            return bend  # more than enough is enough
    return max(room, key=lambda bend: room[bend])


def _points(here: Spot, there: Spot, bend: float) -> list[Spot]:
    """Return points of an arrow's curve, near enough to each other to see what it meets."""
    aside = _aside(here, there, bend)
    points = []
    for step in range(1, _STEPS):
        part = step / _STEPS
        one, two, three = (1 - part) ** 2, 2 * part * (1 - part), part**2
        x, y = (one * here[i] + two * aside[i] + three * there[i] for i in (0, 1))
        points.append((x, y))
    return points
