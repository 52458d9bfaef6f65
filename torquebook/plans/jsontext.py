"""Strict JSON with a place for every value, in the form that ``catalogue.strict`` gives.

The YAML reader is no reader of JSON: it refuses tabs and takes halves of characters apart.
"""

from __future__ import annotations

import json
import math
import re
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.strict import KEY, MAX_DEPTH
from torquebook.errors import Unreadable
from torquebook.plans.intake import CONTROL, where

if TYPE_CHECKING:
    from torquebook.catalogue.strict import Positions, ValuePath

_DECODER: Final = json.JSONDecoder()
_SPACE: Final = re.compile(r"[ \t\n\r]*")
_NUMBER: Final = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
_WORD: Final = re.compile(r"[-+]?\w+")
_WORDS: Final = {"true": True, "false": False, "null": None}


def load(text: str, name: str) -> tuple[Any, Positions]:
    """Read one JSON document.

    Parameters
    ----------
    text : str
        The document, with line feeds at the ends of its lines.
    name : str
        The file's name, as it stands in messages.

    Returns
    -------
    tuple
        The value, and the line and column of every value and key in it.

    Raises
    ------
    Unreadable
        If it is no JSON, names a key twice, or holds a number that is not finite.
    """
    reader = _Reader(text, name)
    value = reader.value(())
    reader.skip()
    if reader.at < len(text):
        raise reader.refusal("something stands behind the end", "take it out")
    return value, reader.positions


class _Reader:
    def __init__(self, text: str, name: str) -> None:
        self.text = text
        self.name = name
        self.at = 0
        self.positions: Positions = {}
        self._line = 1
        self._line_start = 0

    def refusal(self, what: str, right: str) -> Unreadable:
        """Return the refusal of what stands at the current place."""
        return Unreadable(where(self.name, self.text, self.at), what, right)

    def skip(self) -> str:
        """Go to the next character that is no white space, and return it."""
        start = self.at
        match = _SPACE.match(self.text, start)
        self.at = match.end() if match else start
        return self.text[self.at : self.at + 1]

    def place(self) -> tuple[int, int]:
        """Return the current line and column; places are asked for in ascending order."""
        self._line += self.text.count("\n", self._line_start, self.at)
        self._line_start = self.text.rfind("\n", 0, self.at) + 1
        return self._line, self.at - self._line_start + 1

    def value(self, path: ValuePath) -> Any:
        """Return the value that comes next."""
        first = self.skip()
        self.positions[path] = self.place()
        if first in {"{", "["}:
            if len(path) >= MAX_DEPTH:
                raise self.refusal(f"nested more than {MAX_DEPTH} deep", "nest less")
            self.at += 1
            return self.mapping(path) if first == "{" else self.sequence(path)
        if first == '"':
            return self.string()
        return self.number() if first.isdecimal() or first == "-" else self.word()

    def mapping(self, path: ValuePath) -> dict[str, Any]:
        """Return the members up to the closing brace."""
        held: dict[str, Any] = {}
        while not self.closes("}", first=not held):
            if self.skip() != '"':
                raise self.refusal("a key is text in double quotes", 'write "key": value')
            place, start = self.place(), self.at
            key = self.string()
            if key in held:
                self.at = start
                line = self.positions[(*path, key, KEY)][0]
                what = f'the key "{key}" stands twice (first in line {line})'
                raise self.refusal(what, "keep one of them")
            self.positions[(*path, key, KEY)] = place
            if self.skip() != ":":
                raise self.refusal("a key without a colon", 'write "key": value')
            self.at += 1
            held[key] = self.value((*path, key))
        return held

    def sequence(self, path: ValuePath) -> list[Any]:
        """Return the entries up to the closing bracket."""
        held: list[Any] = []
        while not self.closes("]", first=not held):
            held.append(self.value((*path, len(held))))
        return held

    def closes(self, bracket: str, *, first: bool) -> bool:
        """Go past a closing bracket, or past the comma before what comes next."""
        found = self.skip()
        if found == bracket:
            self.at += 1
            return True
        if not first:
            if found != ",":
                raise self.refusal(f"a comma or {bracket} is missing here", "write it")
            self.at += 1
            if self.skip() == bracket:
                raise self.refusal(f"a comma stands before {bracket}", "take the comma out")
        return False

    def string(self) -> str:
        """Return the text in double quotes that starts here."""
        start = self.at
        try:
            text, self.at = _DECODER.raw_decode(self.text, self.at)
        except json.JSONDecodeError as fault:
            self.at = fault.pos
            what = "this text is not closed, or holds a sign that must be escaped"
            raise self.refusal(
                what, 'end it with "; write \\\\ for \\, \\n for a new line'
            ) from fault
        odd = CONTROL.search(text)
        if odd:
            self.at = start
            raise self.refusal(f"this text holds the character U+{ord(odd[0]):04X}", "take it out")
        return str(text)

    def number(self) -> int | float:
        """Return the number that starts here."""
        match = _NUMBER.match(self.text, self.at)
        if not match or self.text[match.end() : match.end() + 1].isalnum():
            raise self.refusal("this is no number of JSON", "write it as 60 or 0.5, or in quotes")
        value = float(match[0])
        if not math.isfinite(value):
            raise self.refusal("this is no finite number", "write a plain number")
        self.at = match.end()
        return value if re.search(r"[.eE]", match[0]) else int(match[0])

    def word(self) -> bool | None:
        """Return what ``true``, ``false`` or ``null`` stands for."""
        match = _WORD.match(self.text, self.at)
        word = match[0] if match else self.text[self.at : self.at + 1]
        if word not in _WORDS:
            if not word:
                raise self.refusal("the file ends inside a list or mapping", "close it")
            if word.lstrip("-+").casefold() in {"nan", "infinity", "inf"}:
                raise self.refusal(f"{word} is no finite number", "leave the value out")
            raise self.refusal(f"{word[:40]} is no JSON", "put text in double quotes")
        self.at += len(word)
        return _WORDS[word]
