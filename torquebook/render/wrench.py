"""The answer of ``wrench``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook import units
from torquebook.answers.settings import BEST_HIGH, BEST_LOW, BEST_SOURCE, FORMULA_SOURCE
from torquebook.render.cautions import CAUTION, demo_wrenches
from torquebook.render.figures import figures, percent

if TYPE_CHECKING:
    from torquebook.answers.settings import Adapter, Settings, WrenchSetting
    from torquebook.render.paper import Paper

_RIGHT_ANGLE_DEG: Final = 90.0
_PLACES: Final = {
    "best": "in the middle of its range",
    "low end": "at the low end of its range",
    "high end": "at the high end of its range",
}


def text(answer: Settings, paper: Paper) -> None:
    """Write what to set, how that was found, and the wrenches, best first."""
    if answer.adapter:
        wanted, setting = units.write(answer.torque), units.write(answer.setting)
        paper.heading(f"Set {setting} for {wanted} at the bolt")
        _adapter(answer.adapter, answer, paper)
    else:
        paper.heading(f"{units.write(answer.torque)} at the bolt, no adapter")
    if answer.wrenches:
        _wrenches(answer.wrenches, paper)
    paper.gap()
    paper.text(CAUTION)


def _adapter(adapter: Adapter, answer: Settings, paper: Paper) -> None:
    length, extension = (units.write(q) for q in (adapter.wrench_length, adapter.extension))
    angle = f"{figures(adapter.angle_deg)}°"
    straight = adapter.angle_deg == 0
    cosine = "" if straight else f" × cos {angle}"
    paper.text(f"wrench {length}, adapter {extension}, {'straight on' if straight else angle}", 2)
    paper.text(
        f"{figures(answer.torque.value, 4)} × {length} / ({length} + {extension}{cosine})"
        f" = {figures(answer.setting.value, 4)}",
        2,
    )
    if adapter.angle_deg == _RIGHT_ANGLE_DEG:
        paper.text("square to the wrench an adapter changes nothing", 2)
    paper.text(f"source: {FORMULA_SOURCE}", 2, 4)


def _wrenches(wrenches: tuple[WrenchSetting, ...], paper: Paper) -> None:
    paper.heading("On the wrenches")
    covering = [one for one in wrenches if one.covers]
    if covering:
        rows = [("set", "wrench", "deviation", "")]
        rows += [
            (
                units.write(one.setting),
                one.wrench.name,
                f"±{figures(one.wrench.deviation * 100)} %",
                _PLACES[one.fit],
            )
            for one in covering
        ]
        paper.columns(rows)
    else:
        paper.text("none covers it", 2)
    for fit, what in (("above", "too small"), ("below", "too large")):
        others = [one for one in wrenches if one.fit == fit]
        if others:
            paper.text(f"{what}: {', '.join(map(_scale, others))}", 2, 4)
    if any(one.fit == "best" for one in covering):
        middle = f"{percent(BEST_LOW)} to {percent(BEST_HIGH)} % of its range"
        paper.text(f"A wrench works best at {middle} ({BEST_SOURCE}).", 2)
    invented = [one.wrench.name for one in wrenches if one.wrench.invented]
    if invented:
        which = "These wrenches" if len(invented) > 1 else "This wrench"
        if len(invented) < len(wrenches):
            which = ", ".join(invented)
        paper.text(demo_wrenches(which, len(invented)), 2, 4)


def _scale(one: WrenchSetting) -> str:
    """Return a wrench's name with the ends of its scale."""
    wrench = one.wrench
    ends = [
        figures(units.convert(units.Quantity(end, "N.m"), wrench.unit).value)
        for end in (wrench.low_nm, wrench.high_nm)
    ]
    return f"{wrench.name} ({units.with_unit('–'.join(ends), wrench.unit)})"


def data(answer: Settings) -> dict[str, Any]:
    """Return the answer for a program."""
    adapter = answer.adapter
    return {
        "torque": answer.torque._asdict(),
        "torque_nm": answer.torque.si,
        "adapter": adapter
        and {
            "wrench_length_mm": adapter.wrench_length.si,
            "extension_mm": adapter.extension.si,
            "angle_deg": adapter.angle_deg,
            "source": FORMULA_SOURCE,
        },
        "setting": answer.setting._asdict(),
        "setting_nm": answer.setting.si,
        "wrenches": [
            {
                "wrench": one.wrench.name,
                "setting": one.setting._asdict(),
                "low_nm": one.wrench.low_nm,
                "high_nm": one.wrench.high_nm,
                "deviation": one.wrench.deviation,
                "position": one.position,
                "fit": one.fit,
                "source": one.wrench.source,
            }
            for one in answer.wrenches
        ],
        "caution": CAUTION,
    }
