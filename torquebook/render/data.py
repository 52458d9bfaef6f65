"""JSON for programs: named values with their units, and never a NaN."""

from __future__ import annotations

import json
from math import isfinite
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from torquebook.bands import Band

_LINE: Final = json.JSONEncoder(allow_nan=False).encode


def json_text(answer: Any) -> str:
    """Return a JSON document of ASCII only, so that no text in it can act on a terminal."""
    return json.dumps(_sound(answer), indent=2, allow_nan=False) + "\n"


def json_line(answer: Any) -> str:
    """Return a JSON object on a line of its own, as :func:`json_text`."""
    try:
        return _LINE(answer) + "\n"
    except ValueError:  # a number that is none
        return _LINE(_sound(answer)) + "\n"


def band(value: Band | None) -> dict[str, float] | None:
    """Return a band as an object, None where nothing is known."""
    return None if value is None else dict(value._asdict())


def _sound(value: Any) -> Any:
    """Return a value with null for numbers that are none."""
    if isinstance(value, dict):
        return {key: _sound(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_sound(item) for item in value]
    if isinstance(value, float) and not isfinite(value):
        return None
    return value
