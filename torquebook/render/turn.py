"""What an angle makes of a fastener: a part of the answer of ``torque``, and its drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook import notation
from torquebook.answers.turned import CLAMPS_D
from torquebook.catalogue.defaults import ANGLE_SCATTER
from torquebook.mechanics.plastic import tightenings
from torquebook.render.curve import curve_svg
from torquebook.render.data import band
from torquebook.render.figures import kilonewtons, percent, span, three_digits

if TYPE_CHECKING:
    from torquebook.answers.fastening import Fastening
    from torquebook.answers.turned import Turn
    from torquebook.bands import Band
    from torquebook.render.paper import Paper

_BASIS = (
    "VDI 2230-1, tightening past yield; typical strength, clamp length and uniform strain are "
    "inference; no published curve was found to hold it against. Bands: worst case of all "
    f"causes, the preload's no narrower than ±{percent(ANGLE_SCATTER)} % (VDI 2230:1986)"
)
_AT_SNUG: Final = {
    word: f"The snug torque alone {passes} what the bolt carries: it necks before any angle."
    for word, passes in (("may", "may pass"), ("likely", "likely passes"))
}
_NECKS: Final = {
    "may": "It may neck or part before the end: a part of the band uses up its uniform strain.",
    "likely": "It likely necks or parts before the end: the likely bolt uses up its strain.",
    "yes": "It necks or parts before the end: the whole band uses up its uniform strain.",
}


def text(turn: Turn, what: Fastening, paper: Paper) -> None:
    """Write what stands at the end of the angle, each figure as likely (from least to most)."""
    end = turn.end
    paper.heading(f"At the end of {notation.write(turn.stages)}, {_clamp(turn, what)}")
    rows = [
        ("preload", f"{_spread(end.preload_n, kilonewtons)} kN"),
        ("of the proof load", f"{_spread(end.proof_share, percent)} %"),
        ("of yield, with torsion", f"{_spread(end.yield_share, percent)} %"),
        ("torque at the wrench", f"{_spread(end.torque_nm, three_digits)} N·m"),
        ("stays longer by", f"{_spread(end.permanent_mm, _hundredths)} mm"),
        ("of its uniform strain", f"{_spread(end.strain_share, percent)} %"),
        ("such tightenings in all", _times(end.strain_share)),
    ]
    paper.columns(rows, indent=2)
    for mark, sentence in _warnings(turn):
        paper.text(f"{mark} {sentence}", 2, 4)
    if turn.necks == "yes":
        paper.text("Preload and torque are then the most on the way there, not the end's.", 2, 4)
    paper.text(
        "Far less torque at the wrench: stripping or necking. Far more: dry, or bottomed.", 2
    )
    paper.text(f"Basis: {_BASIS}.", 2, 4)


def data(turn: Turn) -> dict[str, Any]:
    """Return the same as plain values."""
    names = ("preload_n", "proof_share", "yield_share", "torque_nm", "permanent_mm", "strain_share")
    end = {name: band(getattr(turn.end, name)) for name in names}
    clamp = band(turn.clamp_length_mm)
    return {
        "tighten": notation.write(turn.stages, plain=True),
        "clamp_length_mm": clamp,
        **end,
        "such_tightenings": _times(turn.end.strain_share),
        "snug_necks": turn.snug_necks,
        "necks": turn.necks,
        "warnings": [sentence for _, sentence in _warnings(turn)],
        "basis": _BASIS,
    }


def drawing(turn: Turn, what: Fastening) -> str:
    """Return the course as SVG."""
    name = f"{what.thread.size} {what.strength.name}: {notation.write(turn.stages)}"
    mu = what.friction.mu_thread
    notes = [
        f"friction {mu.low:g} to {mu.high:g}, {_clamp(turn, what)}",
        *(sentence for _, sentence in _warnings(turn)),
        "Computed; typical strength and uniform strain are inference. Local codes decide.",
        "The maker's data for the exact vehicle come first; this is only a cross-check.",
    ]
    return curve_svg(name, notes, turn.course)


def _warnings(turn: Turn) -> list[tuple[str, str]]:
    """Return what must be said of snug and of the end, each behind its mark."""
    told = ((turn.snug_necks, _AT_SNUG), (turn.necks, _NECKS))
    return [
        ("!" if word == "may" else "!!", sentences[word])
        for word, sentences in told
        if word != "no"
    ]


def _clamp(turn: Turn, what: Fastening) -> str:
    clamp = turn.clamp_length_mm
    if clamp is None:
        low, high = (share * what.thread.d_mm for share in CLAMPS_D[1:])
        return f"clamp length not stated: {low:g} to {high:g} mm"
    return f"clamp length {span(f'{clamp.low:g}', f'{clamp.high:g}')} mm"


def _times(strain_share: Band) -> str:
    least, most = tightenings(strain_share.high), tightenings(strain_share.low)
    if least == float("inf"):
        return "any number: it stays elastic"
    return span(f"{least:g}", "any number" if most == float("inf") else f"{most:g}")


def _hundredths(value: float) -> str:
    return f"{value:.2f}"


def _spread(given: Band, shown: Any) -> str:
    return f"{shown(given.nominal)} ({span(shown(given.low), shown(given.high))})"
