"""A drawing of torque and preload over the angle, as SVG: shades of grey, no script.

Two panels share the angle: what the wrench shows above, what clamps below. The band is
shaded; the likely course is the line; snug, yield and end are marked.
"""

from __future__ import annotations

from html import escape
from math import floor, log10
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.bands import Band
    from torquebook.mechanics.yield_bands import TightenedBand

WIDTH: Final = 640
_PANEL: Final = 190  # height of a panel
_LEFT, _RIGHT, _TOP, _GAP = 64, 24, 74, 46
_TICKS: Final = 5
_STYLE: Final = (
    "text{font:13px sans-serif;fill:#000}.s{font-size:11px}.t{font-size:15px;font-weight:bold}"
    ".a{stroke:#000;fill:none}.g{stroke:#ccc;fill:none}.b{fill:#d4d4d4}"
    ".l{stroke:#000;stroke-width:2;fill:none}.y{stroke:#000;stroke-dasharray:5 4;fill:none}"
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
    upper = _panel(_TOP, angles, torque, "torque at the wrench, N·m")
    lower = _panel(_TOP + _PANEL + _GAP, angles, preload, "preload, kN")
    marks = [_marks(course, angles, panel) for panel, _ in (upper, lower)]
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
    top: float, angles: Sequence[float], values: Sequence[Band], label: str
) -> tuple[_Panel, str]:
    panel = _Panel(top, angles[-1], _most(max(value.high for value in values)))
    points = list(zip(angles, values, strict=True))
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


def _marks(course: Sequence[TightenedBand], angles: Sequence[float], panel: _Panel) -> str:
    """Return snug and end on the axis, and the angle at which the bolt yields, if it does."""
    end = course[-1]
    parts = [
        _text(panel.x(0) + 6, panel.top + _PANEL - 6, "snug", "s"),
        _text(panel.x(angles[-1]) - 4, panel.top + _PANEL - 6, "end", "s", "end"),
    ]
    if end.yield_angle_deg.nominal < angles[-1]:
        x = panel.x(max(end.yield_angle_deg.nominal, 0.0))
        parts.append(f'<path class="y" d="M{x:.1f} {panel.top}v{_PANEL}"/>')
        parts.append(_text(x + 5, panel.top + 14, "yield", "s"))
    return "\n".join(parts)


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
