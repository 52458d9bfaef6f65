"""Lines of a torque list whose torque says nothing of a preload.

Real lists hold plugs, sensors and drag values between the bolts; their torque is low on
purpose. The ``kind`` column names them; a joint's name may only hint at one.
"""

from __future__ import annotations

import re

BOLTS = frozenset({"", "bolt", "screw", "nut", "stud", "bolt or nut"})

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

# What a joint's name gives away (common practice: words of torque lists).
_HINTS = (
    ("breakaway", r"break-?\s?away"),
    ("prevailing", r"prevailing|drag torque|running torque"),
    ("adjusting", r"adjust|slip torque|bearing preload|end[- ]float|lash"),
    ("plug", r"\bplugs?\b"),
    ("sensor", r"\b(sensor|sender|switch|probe)\b(?!.*\b(screw|bolt|nut)s?\b)"),
    ("nozzle", r"\b(nozzle holder|injectors?|injection nozzles?)\b(?!.*\b(screw|bolt|nut)s?\b)"),
    ("pipe nut", r"(sleeve|pipe|union|flare|tube|line)[\w\s,/-]*\bnuts?\b|\bpipe retaining\b"),
)
_HINT_PATTERNS = tuple((kind, re.compile(pattern, re.IGNORECASE)) for kind, pattern in _HINTS)


def hinted_kind(joint: str) -> str | None:
    """Return the kind that a joint's name hints at, or None for an ordinary bolt."""
    for kind, pattern in _HINT_PATTERNS:
        if pattern.search(joint):
            return kind
    return None
