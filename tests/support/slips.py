"""Slips in a record: by name, what may stand in a place of it instead of what does.

Each slip gives for one place the records that it makes of a sound one; some of them are sound
too, such as a number at a limit. What a slip is not about, it leaves alone.
"""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from torquebook.catalogue.strict import ValuePath

#: Every limit that a model sets, and the next number beyond it.
LIMITS: Final = (
    *(0, -1, 1, 2, 3, 9, 10, 20, 21, 50, 51, 200, 201, 10**6, -(10**6), 10**9, 2**64, -(10**28)),
    *(-0.0, 1e-9, 0.5, 0.51, 1.49, 1.5, 2.01, 999_999.9, -999_999.9, 999_999_999.9, 1e300),
)
LENGTHS: Final = (80, 81, 120, 121, 500, 501)
ODD_NAMES: Final = (
    "a|b",
    "a;b",
    " a",
    "a ",
    "a\nb",
    "A/b",
    "/a",
    "a/",
    "a//b",
    "../a",
    "a/..",
    "ä",
    "|",
    "\n",
    "a\tb",
)
#: Keys that stand somewhere in a record, each with a value that is sound there.
KEYS: Final[dict[str, Any]] = {
    "unknown": 1,
    "yield_": 400,
    "question": "Is it dry?",
    "measure": {"what": "its depth", "unit": "mm", "low": 1},
    "joint": "joints/brigade/flywheel",
    "gate": {"name": "a gate", "question": "Is it dry?", "why": "so that it holds"},
    "circle": {"diameter_mm": 90},
    "points": [[0, 0], [1, 1]],
    "low": 1,
    "high": 10**5,
    "again_least": 1,
    "note": "a note",
}


def places(value: Any, path: ValuePath = ()) -> Iterator[ValuePath]:
    """Yield the path of every value in a record."""
    yield path
    if isinstance(value, dict):
        for key, held in value.items():
            yield from places(held, (*path, key))
    elif isinstance(value, list):
        for index, held in enumerate(value):
            yield from places(held, (*path, index))


def held_at(record: Any, path: ValuePath) -> Any:
    """Return the value at a path."""
    for key in path:
        record = record[key]
    return record


def changed(record: Any, path: ValuePath, value: Any) -> Any:
    """Return a record with another value at a path."""
    if not path:
        return value
    whole = copy.deepcopy(record)
    held_at(whole, path[:-1])[path[-1]] = value
    return whole


def _instead(values: Callable[[Any], tuple[Any, ...]]) -> Callable[[Any, ValuePath], Iterator[Any]]:
    """Return the slip that puts other values in the place of one."""

    def slip(record: Any, path: ValuePath) -> Iterator[Any]:
        for value in values(held_at(record, path)):
            yield changed(record, path, value)

    return slip


def _dropped(record: Any, path: ValuePath) -> Iterator[Any]:
    if path:
        whole = copy.deepcopy(record)
        del held_at(whole, path[:-1])[path[-1]]
        yield whole


def _added(record: Any, path: ValuePath) -> Iterator[Any]:
    held = held_at(record, path)
    if isinstance(held, dict):
        for key in KEYS.keys() - held.keys():
            yield changed(record, (*path, key), KEYS[key])


def _misspelt(record: Any, path: ValuePath) -> Iterator[Any]:
    if path and isinstance(path[-1], str):
        key = path[-1]
        (without,) = _dropped(record, path)
        for wrong in (f"{key}{key[-1]}", key[:-1], key.upper(), f"{key}\n", f" {key}"):
            if wrong not in held_at(without, path[:-1]):
                yield changed(without, (*path[:-1], wrong), held_at(record, path))


def _number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _decimal(value: Any) -> tuple[Any, ...]:
    return (float(value), value + 0.5) if _number(value) and isinstance(value, int) else ()


def _retyped(value: Any) -> tuple[Any, ...]:
    every = ("text", 8.8, 12, True, ["text"], [1], {"text": 1})
    return tuple(other for other in every if type(other) is not type(value))


SLIPS: Final[dict[str, Callable[[Any, ValuePath], Iterator[Any]]]] = {
    "key dropped": _dropped,
    "key added": _added,
    "key misspelt": _misspelt,
    "another type": _instead(_retyped),
    "true for a number": _instead(lambda v: (True, False) if _number(v) else ()),
    "decimal for a whole number": _instead(_decimal),
    "text for a number": _instead(lambda v: (f"{v}", f"{v} mm", f"{v}\n") if _number(v) else ()),
    "number for text": _instead(lambda v: (8.8, 0, 10) if isinstance(v, str) else ()),
    "number at a limit": _instead(lambda v: LIMITS if _number(v) else ()),
    "empty text": _instead(lambda v: ("", " ") if isinstance(v, str) else ()),
    "long text": _instead(
        lambda v: tuple("x" * length for length in LENGTHS) if isinstance(v, str) else ()
    ),
    "line end behind text": _instead(
        lambda v: (f"{v}\n", f"{v}\n\n", f"\n{v}") if isinstance(v, str) else ()
    ),
    "other digits": _instead(lambda v: ("٣", "M１０", "1٣") if isinstance(v, (str, int)) else ()),
    "other word": _instead(
        lambda v: ("unlisted", v.upper(), v.title(), v[:-1]) if isinstance(v, str) else ()
    ),
    "odd name": _instead(lambda v: ODD_NAMES if isinstance(v, str) else ()),
    "list for a mapping": _instead(lambda v: ([v], list(v)) if isinstance(v, dict) else ()),
    "mapping for a list": _instead(
        lambda v: ({f"{i}": held for i, held in enumerate(v)},) if isinstance(v, list) else ()
    ),
    "single value for a list": _instead(lambda v: tuple(v[:1]) if isinstance(v, list) else ()),
    "empty list": _instead(lambda v: ([],) if isinstance(v, list) else ()),
    "empty mapping": _instead(lambda v: ({},) if isinstance(v, dict) else ()),
    "long list": _instead(lambda v: (v * 2, v * 21) if isinstance(v, list) else ()),
    "null": _instead(lambda _: (None,)),
}
