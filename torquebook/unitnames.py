"""Unit names: one plain name for each unit, its exact factor, and every spelling of it.

Source of the factors: NIST SP 811 (2008), appendix B; all follow from the pound of
0.453 592 37 kg, standard gravity 9.806 65 m/s2 and the inch of 25.4 mm, exact by definition.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final, Literal

from torquebook.errors import NotUnderstood

Kind = Literal["torque", "force", "length", "angle"]

# NIST SP 811 (2008): B.8 (pound, inch), section 1 of appendix B (gravity); all exact.
_KGF_N: Final = 9.80665
_LBF_N: Final = 0.45359237 * _KGF_N
_IN_M: Final = 0.0254

FACTORS: Final[dict[str, tuple[Kind, float]]] = {
    "N.m": ("torque", 1.0),
    "cN.m": ("torque", 0.01),
    "dN.m": ("torque", 0.1),
    "daN.m": ("torque", 10.0),
    "kgf.m": ("torque", _KGF_N),
    "kgf.cm": ("torque", _KGF_N / 100),
    "lbf.ft": ("torque", _LBF_N * _IN_M * 12),
    "lbf.in": ("torque", _LBF_N * _IN_M),
    "ozf.in": ("torque", _LBF_N * _IN_M / 16),
    "ozf.ft": ("torque", _LBF_N * _IN_M * 12 / 16),
    "N": ("force", 1.0),
    "kN": ("force", 1000.0),
    "lbf": ("force", _LBF_N),
    "kgf": ("force", _KGF_N),
    "mm": ("length", 1.0),
    "cm": ("length", 10.0),
    "in": ("length", _IN_M * 1000),
    "deg": ("angle", 1.0),
    "turn": ("angle", 360.0),
    "flat": ("angle", 60.0),  # one side of a hexagon
}
"""Kind of each unit, and its size in N·m, N, mm or degrees."""

LONGEST: Final = 200
"""Longest text, in characters, that is taken for one quantity."""

_FORCES: Final = {
    "N": "n newton newtons",
    "cN": "cn",
    "dN": "dn",
    "daN": "dan",
    "kgf": "kgf kg kgs kp kilogram kilograms kilogramforce kilogramsforce kilopond kiloponds",
    "lbf": "lbf lb lbs lbfs pound pounds poundforce poundsforce",
    "ozf": "ozf oz ounce ounces ounceforce",
}
_LENGTHS: Final = {
    "m": "m metre metres meter meters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "ft": "ft foot feet",
    "in": "in ins inch inches",
}
_OTHERS: Final = {
    "kN": "kn kilonewton kilonewtons",
    "mm": "mm millimetre millimetres millimeter millimeters",
    "deg": "° º ˚ deg degs degree degrees grad gradi grado grados degré degrés",
    "turn": "turn turns rev revs revolution revolutions umdrehung umdrehungen tour tours",
    "flat": "flat flats face faces",
}
# Half a torque unit, or a mass where a force belongs: what each may have meant.
_HALVES: Final = {
    "lbf": ("lbf.ft", "lbf.in"),
    "kgf": ("kgf.m", "kgf.cm"),
    "ozf": ("ozf.in", "ozf.ft"),
    "N": ("N.m", "cN.m"),
    "cN": ("cN.m",),
    "dN": ("dN.m",),
    "daN": ("daN.m",),
    "m": ("N.m", "kgf.m"),
    "cm": ("kgf.cm",),
    "ft": ("lbf.ft", "ozf.ft"),
    "in": ("lbf.in", "ozf.in"),
}
LONG_LENGTHS: Final = {
    word: (unit, times)
    for half, unit, times in (("m", "mm", 1000), ("ft", "in", 12))
    for word in _LENGTHS[half].split()
}
"""Lengths that no fastener but a wrench has, as so many of a smaller unit."""
USUAL: Final[dict[Kind, tuple[str, ...]]] = {
    "torque": ("N.m", "lbf.ft", "lbf.in", "kgf.m"),
    "force": ("N", "kN", "lbf", "kgf"),
    "length": ("mm", "in"),
    "angle": ("deg", "turn", "flat"),
}


def _spellings() -> tuple[dict[str, str], dict[str, str]]:
    """Return spelling -> unit, and spelling -> half of a torque unit; keys lack separators."""
    whole: dict[str, str] = {'"': "in", "″": "in", "''": "in"}
    half: dict[str, str] = {"mn": "N"}  # mN: N.m written backwards, or a thousandth of a newton
    for force, length in [unit.split(".") for unit in FACTORS if "." in unit] + [["N", "cm"]]:
        name = "cN.m" if (force, length) == ("N", "cm") else f"{force}.{length}"
        for f in _FORCES[force].split():
            for n in _LENGTHS[length].split():
                whole[f + n] = whole[n + f] = name
    for unit, words in (_FORCES | _LENGTHS).items():
        half.update((word, unit) for word in words.split())
    del whole["mn"]
    for unit, words in _OTHERS.items():
        whole.update((word, unit) for word in words.split())
    return whole, half


_WHOLE, _HALF = _spellings()
# A mass is no force but where one is wanted; a metre or foot is half a torque.
_BARE: Final = frozenset(("lb", "lbs", "pound", "pounds", "kg", "kgs", "kilogram", "kilograms"))
_JOIN: Final = r"[ \u00a0.·⋅•∙∘‧・*×‐‑–-]{1,3}"
_PHRASE: Final = re.compile(rf"""[°º˚"″]|''|[^\W\d_]+(?:{_JOIN}[^\W\d_]+){{0,3}}""")
_PER: Final = re.compile(r"k(?:gf?|p) ?/ ?m(?!\w)", re.IGNORECASE)  # printed for kgf.m
_UNKNOWN: Final = re.compile(r"[^\W\d_]+(?: ?/ ?[^\W\d_]+|[.·⋅*×-][^\W\d_]+){0,3}")
_TIE: Final = re.compile(r" ?([.·⋅*/]) ?([^\W\d_]+)")
_WORD: Final = re.compile(r"[^\W\d_]+")


def unit_at(text: str, offset: int = 0, kind: Kind | None = None) -> tuple[str, int] | None:
    """Return the unit whose spelling starts at an offset and where it ends, or None.

    The longest spelling counts: "lb ft" before "lb".

    Parameters
    ----------
    text : str
    offset : int
        Where the spelling begins, counted from 0.
    kind : str, optional
        What the unit has to measure.

    Raises
    ------
    NotUnderstood
        If the spelling may mean more than one unit ("lb"), or is one of another kind.
    """
    if per := _PER.match(text, offset):
        return "kgf.m", per.end()
    phrase = _PHRASE.match(text, offset)
    if not phrase:
        return None
    ends = [word.end() for word in _WORD.finditer(text, offset, phrase.end())] or [phrase.end()]
    for end in reversed(ends):
        key = _key(text[offset:end])
        if unit := _named(key, kind):
            _refuse_other_kind(text, unit, kind, offset)
            closed = text[end : end + 1] == "." and not text[end + 1 : end + 2].isdigit()
            return unit, end + closed
        if key in _HALF and not _joined(text, key, end):
            readings = _HALVES[_HALF[key]] + (
                (_HALF[key],) if kind is None and key in _BARE else ()
            )
            what = f"{text[offset:end]} may be more than one unit"
            raise NotUnderstood(text, what, readings, offset)
    return None


def _joined(text: str, key: str, end: int) -> bool:
    """Return whether half a unit is tied to the next word: "mN.m", "ft/lb"."""
    tie = _TIE.match(text, end)
    return tie is not None and (tie[1] != "/" or key + tie[2].lower() in _WHOLE)


def _key(spelling: str) -> str:
    """Return a spelling without what joins its words, in small letters."""
    return "".join(_WORD.findall(spelling)).lower() or spelling


def _named(key: str, kind: Kind | None) -> str | None:
    """Return the unit that a key names by itself, for a kind."""
    if key in _WHOLE:
        return _WHOLE[key]
    unit = _HALF.get(key)
    if unit not in FACTORS or key == "mn" or kind == "torque":
        return None
    return unit if kind == "force" or key not in _BARE else None


def _refuse_other_kind(text: str, unit: str, kind: Kind | None, offset: int) -> None:
    """Raise where a unit is not of the kind that is wanted."""
    found = FACTORS[unit][0]
    if kind is not None and found != kind:
        a, of_all = "an" if found == "angle" else "a", ", ".join(USUAL[kind])
        what = f"{unit} measures {a} {found}; {kind} goes in {of_all}"
        raise NotUnderstood(text, what, offset=offset)


def unknown_at(text: str, offset: int = 0) -> tuple[str, str | None] | None:
    """Return the words that stand where a unit belongs, and the unit that they come near.

    "ft/lbs" comes near lbf.ft, since a torque is a product; None where no word stands.
    """
    words = _UNKNOWN.match(text, offset)
    return (words[0], _WHOLE.get(_key(words[0]))) if words else None


@lru_cache(maxsize=1024)
def unit_named(text: str, kind: Kind | None = None) -> str:
    """Return the plain name of a unit, however it is spelled.

    Parameters
    ----------
    text : str
        The spelling: "Nm", "ft·lb", "in.-lbs.", "mkp", "°".
    kind : str, optional
        What it has to measure; makes "lb" a force.

    Raises
    ------
    NotUnderstood
        If the spelling is unknown, of another kind, or means more than one unit.
    """
    refuse_long(text)
    start = len(text) - len(text.lstrip())
    found = unit_at(text, start, kind)
    if found and found[1] == len(text.rstrip()):
        return found[0]
    shown = text.strip()
    near = None if re.search(r"\d", text) else _WHOLE.get(_key(text))
    what = f"{shown} is no unit".lstrip() + (f" of {kind}" if kind else "")
    if near:
        raise NotUnderstood(text, what, (near,), start)
    usual = ", ".join(USUAL[kind or "torque"])
    raise NotUnderstood(text, f"{what}; usual are {usual}", (), start)


def refuse_long(text: str) -> None:
    """Raise where a text is too long to be a quantity."""
    if len(text) > LONGEST:
        raise NotUnderstood(f"{text[:40]}...", f"longer than {LONGEST} characters")
