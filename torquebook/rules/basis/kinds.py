"""Lines of a torque list whose torque says nothing of a preload.

Real lists hold plugs, sensors and drag values between the bolts; their torque is low on
purpose. The ``kind`` column names them; a joint's name may only hint at one.
"""

from __future__ import annotations

import re

BOLTS = frozenset({"", "bolt", "screw", "nut", "stud", "bolt or nut"})

# A bolt made to be tightened past yield; it bears load as any other.
STRETCH = "stretch"

# Why a kind's torque is not judged as a bolt's, by the names of the column `kind`.
REASONS = {
    "plug": "a plug's torque seals, it does not clamp",
    "sensor": "a sensor's torque seals, it does not clamp",
    "nozzle": "a nozzle holder's torque seals, it does not clamp",
    "pipe nut": "a pipe nut's torque seals a cone or sleeve",
    "prevailing": "a prevailing torque is the drag of a locking thread",
    "breakaway": "a breakaway torque is the drag of a locking thread or of a tight bolt",
    "adjusting": "an adjusting torque sets a play or a slip, not a preload",
}

# What a joint's name gives away (common practice: words of torque lists). A bracket, a cover
# or a guard of such a part is held by bolts.
_HELD_BY_BOLTS = r"(?!.*\b(bracket|cover|guard|shield|flange|housing|lock|clamp)s?\b)"
_HINTS = (
    ("breakaway", r"\bbreak-?\s?away\b"),
    ("prevailing", r"\bprevailing\b|\b(drag|running) torque\b"),
    ("adjusting", r"\badjust(er|ing|ment)?\b|\bslip torque\b|\bend[- ]float\b|\b(back)?lash\b"),
    (
        "adjusting",
        r"\b(bearing (preload|play|nuts?)|wheel bearings?|(?<!to )hub nuts?|kingpin nuts?)\b",
    ),
    ("plug", r"\bplugs?\b|\b(drain (screw|bolt)|(drain|sump) (cock|tap))s?\b"),
    ("plug", r"\b(filler|oil|radiator) caps?\b|\bbleed(er)? (screw|valve|nipple)s?\b"),
    ("sensor", r"\b(sensor|sender|switch|probe)s?\b(?!.*\b(screw|bolt|nut)s?\b)"),
    ("nozzle", r"\b(nozzle holders?|injectors?|injection nozzles?)\b(?!.*\b(screw|bolt|nut)s?\b)"),
    ("pipe nut", r"\b(sleeve|pipe|union|flare|tube|line)s?\b[\w\s,/-]*\bnuts?\b"),
    ("pipe nut", r"\bpipe retaining\b|\b(hose|pipe) unions?\b"),
)
_HINT_PATTERNS = tuple(
    (kind, re.compile(f"(?:{pattern}){_HELD_BY_BOLTS}", re.IGNORECASE)) for kind, pattern in _HINTS
)


def hinted_kind(joint: str) -> str | None:
    """Return the kind that a joint's name hints at, or None for an ordinary bolt."""
    return next((kind for kind, pattern in _HINT_PATTERNS if pattern.search(joint)), None)
