"""Read YAML strictly: few types, no surprises, and a place for every value.

Typed are only ``true``, ``false``, ``null``, decimal whole numbers and decimal numbers;
everything else is text. What other YAML readers take in silence is refused: duplicate
keys, anchors, aliases, tags, directives, tabs, several documents, numbers that are not
finite, and more than a record ever holds. The parser hands over events, so that no nesting
can exhaust the stack.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any, Final

import yaml

from torquebook.catalogue.plaintext import UNREADABLE, excerpt, odd_character, refuse_characters
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterator

#: The way from the top of a file to a value: keys and list positions.
ValuePath = tuple[str | int, ...]
#: Line and column of every value, both counted from 1. The place of a *key* stands under
#: the path of its value with ``KEY`` behind it.
Positions = dict[ValuePath, tuple[int, int]]

KEY: Final = "\0key"
MAX_DEPTH: Final = 100
MAX_DIGITS: Final = 30
MAX_PLACES: Final = 10_000

_HARD_SPACE: Final = "\N{NO-BREAK SPACE}"

# The rules that a text which cannot be read breaks.
BROKEN: Final = "yaml-broken"
UNPLAIN: Final = "yaml-unplain"
TWICE: Final = "key-twice"
NO_NUMBER: Final = "number-unusable"
KEY_NO_TEXT: Final = "number-for-text"

LOADER: Final = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_WHOLE: Final = re.compile(r"[-+]?(?:0|[1-9][0-9]*)\Z", re.ASCII)
_DECIMAL: Final = re.compile(
    r"[-+]?(?:\.[0-9]+|(?:0|[1-9][0-9]*)(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?\Z", re.ASCII
)
_ENDLESS: Final = re.compile(r"[-+]?\.(?:inf|Inf|INF)\Z|\.(?:nan|NaN|NAN)\Z")
_WORDS: Final = {"true": True, "false": False, "null": None, "": None}
_CORE: Final = "tag:yaml.org,2002:"  # what !! stands for
_COLON: Final = "could not find expected ':'"  # noticed below the key that lacks it
_FAULTS: Final = (
    ("nesting depth", "nested more than 100 deep", "nest less"),
    (
        "mapping values are not allowed",
        "a colon stands where no key can be",
        'put text that holds ": " in quotes, and indent keys alike',
    ),
    (
        "cannot start any token",
        "this character cannot begin a plain value",
        "put the value in quotes",
    ),
    ("end of stream", "the file ends inside a list, a mapping or quotes", "close it"),
    ("expected ',' or ']'", "this list is not closed, or a comma is missing", "close it with ]"),
    ("expected ',' or '}'", "this mapping is not closed, or a comma is missing", "close it with }"),
    (_COLON, "a key without a colon", "write key: value"),
    (
        "did not find expected key",
        "this line does not fit the lines above it",
        "indent keys of one mapping alike, and close the quotes above",
    ),
    (
        "did not find expected '-'",
        "this line does not fit the list above it",
        "indent entries of one list alike",
    ),
    ("block sequence entries", "a list entry stands where none can be", "begin it on its own line"),
    ("escape", "this is no escape of quoted text", "write \\\\ for a backslash"),
)


def load(
    text: str, name: str, number_keys: list[tuple[int, int]] | None = None
) -> tuple[Any, Positions]:
    """Read one YAML document.

    Parameters
    ----------
    text : str
        The document.
    name : str
        The file's name, as it stands in messages.
    number_keys : list, optional
        Takes the places of keys that are numbers or truth values; they are then read as the
        text that is written there, where without this list they are refused.

    Returns
    -------
    tuple
        The value, and the line and column of every value and key in it.

    Raises
    ------
    Unreadable
        For whatever the module's first lines refuse, with file, line and column.
    """
    refuse_characters(text, name)
    return _Reader(name, number_keys).read(text)


def _spot(event: yaml.Event) -> tuple[int, int]:
    """Return an event's line and column, counted from 1."""
    mark: Any = event.start_mark
    return mark.line + 1, mark.column + 1


def _number(text: str) -> int | float | str | None:
    """Return the number that a plain scalar stands for, or None if it is text.

    A string as answer says why the number is refused.
    """
    if _WHOLE.match(text):
        return int(text) if len(text) <= MAX_DIGITS else "a number of more than 30 digits"
    if _DECIMAL.match(text):
        value = float(text)
        return value if math.isfinite(value) else "not a finite number"
    return "not a finite number" if _ENDLESS.match(text) else None


class _Frame:
    """One open list or mapping."""

    __slots__ = ("held", "key", "path")

    def __init__(self, held: dict[str, Any] | list[Any], path: ValuePath) -> None:
        self.held = held
        self.path = path
        self.key: str | None = None


class _Reader:
    """Build values and positions from the parser's events."""

    def __init__(self, name: str, number_keys: list[tuple[int, int]] | None) -> None:
        self.name = name
        self.number_keys = number_keys
        self.open: list[_Frame] = []
        self.root: list[Any] = []
        self.positions: Positions = {}

    def read(self, text: str) -> tuple[Any, Positions]:
        """Return the document's value and positions."""
        for event in self._events(text):
            if isinstance(event, yaml.ScalarEvent):
                self._check_node(event)
                self._scalar(event)
            elif isinstance(event, yaml.CollectionStartEvent):
                self._check_node(event)
                self._begin(event, {} if isinstance(event, yaml.MappingStartEvent) else [])
            elif isinstance(event, yaml.CollectionEndEvent):
                self.open.pop()
            elif isinstance(event, yaml.AliasEvent):
                what = f"an alias (*{excerpt(event.anchor or '')})"
                raise self._refusal(event, what, "write the value out", UNPLAIN)
            elif isinstance(event, yaml.DocumentStartEvent):
                self._check_document(event)
        if not self.root:
            raise Unreadable(f"{self.name}:1:1", "holds nothing", "write a record", BROKEN)
        return self.root[0], self.positions

    def _events(self, text: str) -> Iterator[yaml.Event]:
        """Yield the parser's events, with its complaints in our words."""
        try:
            yield from yaml.parse(text, Loader=LOADER)
        except yaml.MarkedYAMLError as error:
            problem = error.problem or "no YAML"
            marks = error.problem_mark, error.context_mark
            mark: Any = next(filter(None, reversed(marks) if _COLON in problem else marks), None)
            where = f"{self.name}:{mark.line + 1}:{mark.column + 1}" if mark else self.name
            self._refuse_hard_space(text, mark)
            for fragment, what, right in _FAULTS:
                if fragment in problem:
                    begun = self._begun(error, mark) if right.startswith("close it") else ""
                    raise Unreadable(where, what + begun, right, BROKEN) from error
            what = f"no YAML ({problem})"
            raise Unreadable(where, what, "mend this line", BROKEN) from error
        except yaml.YAMLError as error:
            raise Unreadable(self.name, "no YAML text", "save it as UTF-8 text", BROKEN) from error

    def _refuse_hard_space(self, text: str, mark: Any) -> None:
        """Refuse a space that looks like one and is none, in a line that cannot be read."""
        lines = text.split("\n")
        line = lines[mark.line] if mark and mark.line < len(lines) else ""
        if (column := line.find(_HARD_SPACE)) >= 0:
            where = f"{self.name}:{mark.line + 1}:{column + 1}"
            what = "a no-break space (U+00A0), which is no space here"
            raise Unreadable(where, what, "type a space in its place", BROKEN)

    @staticmethod
    def _begun(error: yaml.MarkedYAMLError, mark: Any) -> str:
        """Return where what is not closed begins, if it does so in another line."""
        begin = error.context_mark
        return f" (begun in line {begin.line + 1})" if begin and begin.line != mark.line else ""

    def _refusal(self, event: yaml.Event, what: str, right: str, rule: str) -> Unreadable:
        line, column = _spot(event)
        return Unreadable(f"{self.name}:{line}:{column}", what, right, rule)

    def _check_document(self, event: yaml.DocumentStartEvent) -> None:
        if self.root:
            raise self._refusal(event, "a second document", "write one document a file", UNPLAIN)
        if event.version or event.tags:
            raise self._refusal(event, "a % directive", "take it out", UNPLAIN)

    def _check_node(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
        if event.anchor is not None:
            what = f"an anchor (&{excerpt(event.anchor)})"
            raise self._refusal(event, what, "write values out", UNPLAIN)
        if event.tag is not None:
            what = f"a tag ({excerpt(event.tag.replace(_CORE, '!!'))})"
            raise self._refusal(event, what, "take it out", UNPLAIN)

    def _begin(self, event: yaml.CollectionStartEvent, held: dict[str, Any] | list[Any]) -> None:
        if len(self.open) >= MAX_DEPTH:
            raise self._refusal(event, "nested more than 100 deep", "nest less", UNPLAIN)
        frame = self.open[-1] if self.open else None
        if frame and isinstance(frame.held, dict) and frame.key is None:
            raise self._refusal(event, "a list or mapping as a key", "write text as a key", UNPLAIN)
        self.open.append(_Frame(held, self._put(event, held)))

    def _scalar(self, event: yaml.ScalarEvent) -> None:
        value = self._value(event)
        frame = self.open[-1] if self.open else None
        if frame is None or isinstance(frame.held, list) or frame.key is not None:
            self._put(event, value)
            return
        if not isinstance(value, str):
            if self.number_keys is None or value is None:
                what = f"the key {excerpt(event.value) or 'nothing'} is not text"
                right = f'write "{excerpt(event.value)}" in quotes'
                raise self._refusal(event, what, right, KEY_NO_TEXT)
            self.number_keys.append(_spot(event))
            value = event.value
        if value in frame.held:
            line = self.positions[(*frame.path, value, KEY)][0]
            what = f'the key "{excerpt(value)}" stands twice (first in line {line})'
            raise self._refusal(event, what, "keep one of them", TWICE)
        frame.key = value
        self.positions[(*frame.path, value, KEY)] = _spot(event)

    def _value(self, event: yaml.ScalarEvent) -> Any:
        """Return the value that a scalar stands for."""
        text: str = event.value
        if not event.implicit[0]:  # quoted, or a block of text
            if not text.isprintable() and (odd := odd_character(text)):
                what = f"the character U+{ord(odd):04X} cannot stand in text"
                raise self._refusal(event, what, "take it out", UNREADABLE)
            return text
        if text in _WORDS:
            return _WORDS[text]
        number = _number(text)
        if isinstance(number, str):
            what = f"{text[:MAX_DIGITS]} is {number}"
            raise self._refusal(event, what, "write a plain number", NO_NUMBER)
        return text if number is None else number

    def _put(self, event: yaml.Event, value: Any) -> ValuePath:
        """Store a value where it belongs, and return its path."""
        if len(self.positions) >= MAX_PLACES:
            what = f"more than {MAX_PLACES:,} keys and values"
            raise self._refusal(event, what, "split it into several files", UNREADABLE)
        if not self.open:
            self.root.append(value)
            path: ValuePath = ()
        else:
            frame = self.open[-1]
            if isinstance(frame.held, list):
                path = (*frame.path, len(frame.held))
                frame.held.append(value)
            else:
                key = frame.key or ""
                path = (*frame.path, key)
                frame.held[key] = value
                frame.key = None
        self.positions[path] = _spot(event)
        return path
