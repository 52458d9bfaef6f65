"""Notation: the shorthand of service sheets <-> stages.

"30 N.m, 60 N.m, +90°, +1/4 turn", "80 ±8 N.m", "60-70 N.m (44-52 lbf.ft)". What a sheet
leaves open ("30, 60 N.m", "30 N.m + 90") is asked back with its readings, never guessed.

Conventions
-----------
- A comma between two digits is a decimal comma; between stages a space or a unit stands
  before or behind it.
- A comma or point before exactly three digits ("1.350"), unless 0 stands before it, and a
  space or apostrophe there, may mark thousands and is asked back; 1.3560 is a decimal.
- Every stage carries its unit; one unit does not serve several stages.
- "60 +10 N.m" is a tolerance of +10/-0. "60 N.m + 10 N.m" may be a tolerance, a second
  stage or a sum, and is asked back; "20 N.m + 40 N.m" is two stages, since a second torque
  above the first is neither tolerance nor, on a wrench, a sum.
- "min 20 N.m" and "max 20 N.m" have the limit as their band: sheets do not say how far
  beyond, and ``form`` tells on which side they are open.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from torquebook.notation.stages import Angle, Form, Slacken, Stage, Torque, Wait
from torquebook.notation.writing import write

if TYPE_CHECKING:
    from torquebook.notation.reading import read

__all__ = ["Angle", "Form", "Slacken", "Stage", "Torque", "Wait", "read", "write"]


def __getattr__(name: str) -> Any:
    """Return the reader; who only writes stages does not wait for its patterns."""
    if name != "read":
        raise AttributeError(f"module {__name__} has no attribute {name}")
    from torquebook.notation import reading  # noqa: PLC0415 - as the docstring says

    found = globals()["read"] = reading.read
    return found
