"""A drawing of torque and preload over the angle, as SVG: shades of grey, no script.

Two panels share the angle: what the wrench shows above, what clamps below. The band is
shaded; the likely course is the line; snug, yield and end are marked. Where the likely
course has used up its uniform strain, line and band end at a mark.
"""

from __future__ import annotations

from bisect import bisect_left
from html import escape
from math import floor, log10
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.bands import Band

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.mechanics.yield_bands import TightenedBand

WIDTH: Final = 640
_PANEL: Final = 190  # height of a panel
_LEFT, _RIGHT, _TOP, _GAP = 64, 24, 74, 46
_TICKS: Final = 5
_WORD: Final = 46  # room for a word on the axis, and a line of it
_LINE: Final = 20
_STYLE: Final = (
    "text{font:13px sans-serif;fill:#000}.s{font-size:11px}.t{font-size:15px;font-weight:bold}"
    ".a{stroke:#000;fill:none}.g{stroke:#ccc;fill:none}.b{fill:#d4d4d4}"
    ".l{stroke:#000;stroke-width:2;fill:none}.y{stroke:#000;stroke-dasharray:5 4;fill:none}"
    ".n{stroke:#000;stroke-width:3;fill:none}"
)


class _Panel(NamedTuple):
    """One panel: its place, and the scales of its two axes."""

    top: float
    most_angle: float
    most: float

    def x(self, angle: float) -> float:
        """Return where an angle lies, from the left."""
        return _LEFT + (WIDTH - _LEFT - _RIGHT) * angle / self.most_angle

    def y(self, value: float) -> float:
        """Return where a value lies, from the top."""
        return self.top + _PANEL * (1 - value / self.most)


def curve_svg(title: str, notes: Sequence[str], course: Sequence[TightenedBand]) -> str:
    """Return the drawing.

    Parameters
    ----------
    title : str
        What is tightened, and how.
    notes : sequence of str
        What it rests on, a line each below the panels.
    course : sequence of TightenedBand
        From snug to the end, in rising order of angle.

    Returns
    -------
    str
        An SVG document; whatever stands in title and notes is escaped.
    """
    height = _TOP + 2 * _PANEL + 2 * _GAP + 18 * len(notes) + 8
    torque = [state.torque_nm for state in course]
    preload = [state.preload_n.scaled(1e-3) for state in course]
    angles = [state.angle_deg.nominal for state in course]
    necks = _necks(course)
    upper = _panel(_TOP, angles, torque, "torque at the wrench, N·m", necks)
    lower = _panel(_TOP + _PANEL + _GAP, angles, preload, "preload, kN", necks)
    marks = [_marks(course[-1], panel, necks) for panel, _ in (upper, lower)]
    rows = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img">',
        f"<title>{escape(title)}</title><style>{_STYLE}</style>",
        f'<rect width="{WIDTH}" height="{height}" fill="#fff"/>',
        _text(_LEFT, 26, title, "t"),
        _text(
            _LEFT, 44, "line: likely; shaded: over friction, wrench, angle, grip and strength", "s"
        ),
        upper[1],
        marks[0],
        lower[1],
        marks[1],
        _text(WIDTH / 2, lower[0].top + _PANEL + 34, "angle from snug, °", "", "middle"),
        *(
            _text(_LEFT, lower[0].top + _PANEL + 54 + 18 * index, note, "s")
            for index, note in enumerate(notes)
        ),
        "</svg>",
    ]
    return "\n".join(rows) + "\n"


def _panel(
    top: float, angles: Sequence[float], values: Sequence[Band], label: str, necks: float | None
) -> tuple[_Panel, str]:
    panel = _Panel(top, angles[-1], _most(max(value.high for value in values)))
    points = list(zip(angles, values, strict=True))
    if necks is not None:
        points = _until(necks, points)
    there = [f"{panel.x(angle):.1f},{panel.y(value.high):.1f}" for angle, value in points]
    back = [f"{panel.x(angle):.1f},{panel.y(value.low):.1f}" for angle, value in reversed(points)]
    line = [f"{panel.x(angle):.1f},{panel.y(value.nominal):.1f}" for angle, value in points]
    parts = [f'<polygon class="b" points="{" ".join(there + back)}"/>']
    for index in range(_TICKS + 1):
        value = panel.most * index / _TICKS
        y = panel.y(value)
        parts.append(f'<path class="g" d="M{_LEFT} {y:.1f}H{WIDTH - _RIGHT}"/>')
        parts.append(_text(_LEFT - 8, y + 4, f"{value:g}", "s", "end"))
    for angle in _angles(angles[-1]):
        x = panel.x(angle)
        parts.append(f'<path class="a" d="M{x:.1f} {top + _PANEL}v5"/>')
        parts.append(_text(x, top + _PANEL + 18, f"{angle:g}", "s", "middle"))
    parts.append(f'<polyline class="l" points="{" ".join(line)}"/>')
    parts.append(f'<path class="a" d="M{_LEFT} {top}V{top + _PANEL}H{WIDTH - _RIGHT}"/>')
    parts.append(_text(_LEFT, top - 6, label, "s"))
    return panel, "\n".join(parts)


def _necks(course: Sequence[TightenedBand]) -> float | None:
    """Return the angle at which the likely course has used up its uniform strain, or None."""
    shares = [state.strain_share.nominal for state in course]
    at = bisect_left(shares, 1.0)
    if at == len(course):
        return None
    after = course[at].angle_deg.nominal
    if at == 0:
        return after
    before = course[at - 1].angle_deg.nominal
    return before + (after - before) * (1 - shares[at - 1]) / (shares[at] - shares[at - 1])


def _until(angle: float, points: Sequence[tuple[float, Band]]) -> list[tuple[float, Band]]:
    """Return the points up to an angle, with the one that lies there."""
    at = bisect_left(points, angle, key=lambda point: point[0])
    if at == 0:
        return list(points[:1])
    (left, before), (right, after) = points[at - 1 : at + 1]
    share = (angle - left) / (right - left)
    there = (a + (b - a) * share for a, b in zip(before, after, strict=True))
    return [*points[:at], (angle, Band(*there))]


def _marks(end: TightenedBand, panel: _Panel, necks: float | None) -> str:
    """Return snug and end on the axis, and where the bolt yields and necks, if it does."""
    words = panel.top + _PANEL - 6
    parts = [
        _text(panel.x(0) + 6, words, "snug", "s"),
        _text(panel.x(panel.most_angle) - 4, words, "end", "s", "end"),
    ]
    yields = max(end.yield_angle_deg.nominal, 0.0)
    if yields < panel.most_angle:
        parts.append(_upright(panel, yields, "y", "yield", 14))
    if necks is not None:
        parts.append(_upright(panel, necks, "n", "likely necks", 30))
    return "\n".join(parts)


def _upright(panel: _Panel, angle: float, style: str, word: str, down: float) -> str:
    """Return a line at an angle, short of the words on the axis, and its word beside it."""
    x = panel.x(angle)
    free = panel.x(0) + _WORD < x < panel.x(panel.most_angle) - _WORD
    line = f'<path class="{style}" d="M{x:.1f} {panel.top}v{_PANEL if free else _PANEL - _LINE}"/>'
    if x > WIDTH - 2 * _WORD - _RIGHT:
        return line + _text(x - 5, panel.top + down, word, "s", "end")
    return line + _text(x + 5, panel.top + down, word, "s")


def _text(x: float, y: float, text: str, style: str, anchor: str = "start") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" class="{style}" text-anchor="{anchor}">'
        f"{escape(text)}</text>"
    )


def _most(value: float) -> float:
    """Return the least round number above a value that five steps divide well.

    Examples
    --------
    >>> [_most(value) for value in (43.0, 61.0, 129.0)]
    [50.0, 75.0, 150.0]
    """
    size = 10.0 ** floor(log10(value))
    return next(size * step for step in (1, 1.5, 2, 2.5, 3, 4, 5, 7.5, 10) if size * step >= value)


def _angles(most: float) -> list[float]:
    """Return the angles that are written on the axis."""
    step = next(step for step in (15, 30, 45, 90, 180, 360) if most / step <= 8 or step == 360)  # noqa: PLR2004 - room for eight
    return [float(step * index) for index in range(floor(most / step) + 1)]
