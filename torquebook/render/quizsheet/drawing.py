"""The drawings of questions: bolts on a circle, a bolt's head, a wrench with an adapter.

Written by hand, in millimetres, black on white, as the drawing of an order.
"""

from __future__ import annotations

from functools import lru_cache
from html import escape
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING, Final

from torquebook.patterns.layout import circle_spots
from torquebook.quiz.model import AdapterWrench, BoltCircle
from torquebook.render import pattern

if TYPE_CHECKING:
    from torquebook.patterns.layout import Spot
    from torquebook.quiz.model import Drawing, HeadMark

CIRCLE_MM: Final = 30.0
_ARROWS_MM: Final = 38.0  # where arrows have to be seen between many bolts
_MANY: Final = 6
_HEAD: Final = 11.0  # radius of a head's corners, in mm on paper
_CHAMFER: Final = 0.9 * _HEAD * cos(pi / 6)
_ROUND: Final = 12.0  # radius of a head with a socket
_SOCKET: Final = 5.2  # radius of its socket's corners
_LEVER: Final = 36.0  # from the drive to the middle of the grip
_REACHES: Final = (12.0, 18.0)  # what an adapter may measure on paper
_GRIP: Final = 6.0  # half the grip's length
_SQUARE: Final = 90
_AXIS: Final = 17.0  # how far the wrench's own line goes on beyond the drive
_ARC: Final = 5.0
_OFF: Final = 8.5  # from the middle of a lever to the line of its length
_TEXT: Final = 3.6  # 10 pt
_WIDTH: Final = 0.66 * _TEXT  # of a letter, on the whole, in a wide font
_EDGE: Final = 0.6
_STROKE: Final = 'fill="#fff" stroke="#000" stroke-width="0.4"'
_THIN: Final = 'fill="none" stroke="#000" stroke-width="0.25"'
_AXIAL: Final = f'{_THIN} stroke-dasharray="2 0.8 0.4 0.8"'


@lru_cache(maxsize=512)
def drawn(drawing: Drawing) -> str:
    """Return a question's drawing as an SVG element."""
    if isinstance(drawing, BoltCircle):
        return _circle(drawing)
    if isinstance(drawing, AdapterWrench):
        return _Wrench(drawing).svg()
    return _head(drawing)


def _circle(circle: BoltCircle) -> str:
    spots = circle_spots(circle.count, start_deg=circle.start_deg, clockwise=circle.clockwise)
    if circle.order:
        size = CIRCLE_MM if circle.count <= _MANY else _ARROWS_MM
        return pattern.drawing(spots, circle.order, size_mm=size)
    return pattern.positions(spots, size_mm=CIRCLE_MM)


def _head(head: HeadMark) -> str:
    if head.head == "socket":
        rim = _ROUND + _EDGE
        parts = [
            f'<circle r="{_ROUND}" {_STROKE}/>',
            f'<polygon points="{_hexagon((0.0, 0.0), _SOCKET)}" {_STROKE}/>',
            _text((0.0, -(_ROUND + _SOCKET) / 2), head.mark, "middle"),
        ]
    else:
        rim = _HEAD + _EDGE
        parts = [
            f'<polygon points="{_hexagon((0.0, 0.0), _HEAD)}" {_STROKE}/>',
            f'<circle r="{_CHAMFER:.2f}" {_THIN}/>',
            _text((0.0, 0.0), head.mark, "middle"),
        ]
    said = f"a bolt's head with a {head.head}, marked {head.mark}"
    return _svg((-rim, -rim, rim, rim), said, parts)


def _hexagon(middle: Spot, radius: float) -> str:
    corners = ((radius * cos(at * pi / 3), radius * sin(at * pi / 3)) for at in range(6))
    return " ".join(f"{middle[0] + x:.2f},{middle[1] + y:.2f}" for x, y in corners)


def _text(place: Spot, said: str, anchor: str) -> str:
    x, y = place
    at = f'x="{x:.2f}" y="{y + 0.36 * _TEXT:.2f}"'
    font = f'font-size="{_TEXT}" font-family="sans-serif" text-anchor="{anchor}"'
    return f"<text {at} {font}>{escape(said)}</text>"


def _svg(box: tuple[float, float, float, float], said: str, parts: list[str]) -> str:
    left, top, right, bottom = box
    wide, high = right - left, bottom - top
    size = f'width="{wide:.1f}mm" height="{high:.1f}mm"'
    view = f'viewBox="{left:.2f} {top:.2f} {wide:.2f} {high:.2f}"'
    opened = f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size} {view}>'
    return "\n".join([opened, f"<title>{escape(said)}</title>", *parts, "</svg>"])


class _Wrench:
    """A wrench with an adapter: its drive at (0, 0), the grip on the left, y down."""

    def __init__(self, wrench: AdapterWrench) -> None:
        self._wrench = wrench
        turn = radians(wrench.angle_deg)
        self._along: Spot = (cos(turn), -sin(turn))
        low, high = _REACHES
        self._reach = min(max(_LEVER * wrench.adapter_mm / wrench.lever_mm, low), high)
        self._xs: list[float] = []
        self._ys: list[float] = []

    def svg(self) -> str:
        """Return the drawing."""
        wrench = self._wrench
        bolt = self._on(self._reach)
        parts = [
            f'<path d="{self._line((_AXIS, 0.0), (-_LEVER - _GRIP, 0.0))}" {_AXIAL}/>',
            self._bar((0.0, 0.0), (-_LEVER, 0.0), 1.2),
            self._bar((-_LEVER - _GRIP, 0.0), (-_LEVER + _GRIP, 0.0), 2.2),
            f'<circle r="3.4" {_STROKE}/>',
            self._bar((0.0, 0.0), bolt, 1.6),
            f'<circle cx="{bolt[0]:.2f}" cy="{bolt[1]:.2f}" r="3.4" {_STROKE}/>',
            f'<polygon points="{_hexagon(bolt, 2.2)}" {_STROKE}/>',
            f'<rect x="-1.5" y="-1.5" width="3" height="3" {_STROKE}/>',
            *self._length((0.0, 0.0), (-_LEVER, 0.0), (0.0, 1.0), f"L {wrench.lever_text}"),
            *self._length((0.0, 0.0), bolt, self._aside(), f"E {wrench.adapter_text}"),
            *self._angle(),
        ]
        for x, y in ((-_LEVER - _GRIP, 0.0), bolt):
            self._reaches((x - 3.4, y - 3.4), (x + 3.4, y + 3.4))
        box = min(self._xs), min(self._ys), max(self._xs), max(self._ys)
        left, top, right, bottom = (
            end + _EDGE * way for end, way in zip(box, (-1, -1, 1, 1), strict=True)
        )
        said = (
            f"a wrench, L {wrench.lever_text}, with an adapter, E {wrench.adapter_text}, at "
            f"{wrench.angle_deg:g}°; not to scale"
        )
        return _svg((left, top, right, bottom), said, parts)

    def _on(self, far: float) -> Spot:
        return (self._along[0] * far, self._along[1] * far)

    def _aside(self) -> Spot:
        """Return to which side of the adapter its length is drawn: where nothing else is."""
        x, y = self._along
        return (y, -x) if self._wrench.angle_deg < _SQUARE else (-y, x)

    def _reaches(self, *places: Spot) -> None:
        """Note places that the paper has to hold."""
        self._xs += [x for x, _ in places]
        self._ys += [y for _, y in places]

    def _line(self, here: Spot, there: Spot) -> str:
        self._reaches(here, there)
        return f"M{here[0]:.2f} {here[1]:.2f}L{there[0]:.2f} {there[1]:.2f}"

    def _bar(self, here: Spot, there: Spot, half: float) -> str:
        """Return a bar from place to place, of a width of twice ``half``."""
        black, white = 2 * half, 2 * half - 0.8
        way = self._line(here, there)
        return (
            f'<path d="{way}" stroke="#000" stroke-width="{black:.1f}" stroke-linecap="square"/>'
            f'<path d="{way}" stroke="#fff" stroke-width="{white:.1f}" stroke-linecap="square"/>'
        )

    def _length(self, here: Spot, there: Spot, aside: Spot, said: str) -> list[str]:
        """Return a length: a line beside a bar, from middle to middle, and what it measures."""
        ends = [(x + aside[0] * _OFF, y + aside[1] * _OFF) for x, y in (here, there)]
        ways = [
            self._line(place, (end[0] + aside[0], end[1] + aside[1]))
            for place, end in zip((here, there), ends, strict=True)
        ]
        line = f'<path d="{"".join(ways)}{self._line(*ends)}" {_THIN}/>'
        heads = [_tip(ends[0], ends[1]), _tip(ends[1], ends[0])]
        middle = [(ends[0][at] + ends[1][at]) / 2 + 2.8 * aside[at] for at in (0, 1)]
        return [line, *heads, self._said((middle[0], middle[1]), said, aside[0])]

    def _angle(self) -> list[str]:
        """Return the mark of the adapter's angle; nothing where it lengthens the wrench."""
        angle = self._wrench.angle_deg
        if not 0 < angle < 2 * _SQUARE:
            return []
        if angle == _SQUARE:
            return [f'<path d="M5 0L5 -5L0 -5" {_THIN}/>']
        x, y = self._on(_ARC)
        arc = f'<path d="M{_ARC} 0A{_ARC} {_ARC} 0 0 0 {x:.2f} {y:.2f}" {_THIN}/>'
        return [arc, self._said((5.5, 2.8), f"{angle:g}°", 1.0)]

    def _said(self, place: Spot, said: str, beside: float) -> str:
        """Return text beside a place: on its right, on its left, or over it."""
        wide = _WIDTH * len(said)
        anchor, left = ("middle", place[0] - wide / 2)
        if abs(beside) > 0.3:  # noqa: PLR2004 - steeper than that it would be crossed
            anchor, left = ("start", place[0]) if beside > 0 else ("end", place[0] - wide)
        self._reaches((left, place[1] - 0.6 * _TEXT), (left + wide, place[1] + 0.6 * _TEXT))
        return _text(place, said, anchor)


def _tip(tip: Spot, other: Spot) -> str:
    """Return the head of an arrow that comes from another place."""
    dx, dy = other[0] - tip[0], other[1] - tip[1]
    length = (dx * dx + dy * dy) ** 0.5
    ux, uy = dx / length * 1.6, dy / length * 1.6
    foot = tip[0] + ux, tip[1] + uy
    left = f"{foot[0] - uy / 3:.2f} {foot[1] + ux / 3:.2f}"
    right = f"{foot[0] + uy / 3:.2f} {foot[1] - ux / 3:.2f}"
    return f'<path d="M{tip[0]:.2f} {tip[1]:.2f}L{left}L{right}Z"/>'
