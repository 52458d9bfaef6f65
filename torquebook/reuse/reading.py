"""Read a fastener as somebody says it: ``M10x1.25 10.9 stretch``, ``M8 nylon-insert nut``."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, NamedTuple, NoReturn

from torquebook import units
from torquebook.catalogue.lookup import near, plain
from torquebook.errors import NotUnderstood
from torquebook.reuse.words import (
    DOUBTFUL,
    FEATURES,
    HEADS,
    HISTORIES,
    IDLE,
    MOST_WORDS,
    NOT,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.shelves import Thread
    from torquebook.records.reuse import Feature, History

#: A comma between digits belongs to a number; any other parts words.
_COMMA: Final = re.compile(r"(?<!\d),|,(?!\d)|[;/](?=\s)")
_EXAMPLES: Final = ("M10x1.25 10.9 stretch", "M8 nylon-insert nut")
_LONGEST: Final = 500
_SIZE_WORDS: Final = 3
_MOST_TIMES: Final = 1000


class Said(NamedTuple):
    """A fastener as its words say it."""

    thread: Thread | None
    strength_class: str
    features: frozenset[Feature]
    history: frozenset[History]


def read_fastener(text: str, book: Book) -> Said:
    """Return the fastener that a text describes.

    Parameters
    ----------
    text : str
        Thread, strength class, and what is special, in any order.
    book : Book

    Raises
    ------
    NotUnderstood
        If there is nothing, a word is not known, means more than one thing, or comes twice
        with different meanings; with the words that come near.
    """
    if len(text) > _LONGEST:
        raise NotUnderstood(f"{text[:40]}...", f"more than {_LONGEST} characters")
    words = _COMMA.sub(" ", text).split()
    if not words:
        raise NotUnderstood(text, "no fastener", _EXAMPLES)
    reader = _Reader(text, book)
    at = 0
    while at < len(words):
        at += reader.take(words[at:])
    return reader.said()


class _Reader:
    """Takes the words of one text, the longest run that means something first."""

    def __init__(self, text: str, book: Book) -> None:
        self._text = text
        self._book = book
        self._thread: Thread | None = None
        self._class = ""
        self._features: set[Feature] = set()
        self._history: set[History] = set()

    def take(self, words: Sequence[str]) -> int:
        """Take the first words, and return how many."""
        if plain(words[0]) in NOT:
            raise NotUnderstood(self._text, f'"{words[0]}": leave out what it does not have')
        for count in range(min(MOST_WORDS, len(words)), 0, -1):
            if self._special(plain(" ".join(words[:count]))):
                return count
        for count in range(min(_SIZE_WORDS, len(words)), 0, -1):
            if self._size(" ".join(words[:count])):
                return count
        if plain(words[0]) in HEADS and words[1:] and plain(words[1]) == "head":
            return 2
        if plain(words[0]) not in IDLE:
            self._refuse(words[0])
        return 1

    def said(self) -> Said:
        """Return all that was taken."""
        thread = self._thread
        if thread is not None and self._class:
            self._book.strength(self._class, thread.d_mm, thread.family)
        return Said(thread, self._class, frozenset(self._features), frozenset(self._history))

    def _special(self, words: str) -> bool:
        """Take words for what is special on a fastener, or what it went through."""
        singular = words.removesuffix("s")
        for name in (words, singular):
            if name in DOUBTFUL:
                raise NotUnderstood(words, "may mean more than one thing", DOUBTFUL[name])
            if name in FEATURES:
                self._features.add(FEATURES[name])
                return True
            if name in HISTORIES:
                self._history.add(HISTORIES[name])
                return True
        return False

    def _size(self, words: str) -> bool:
        """Take words for a class or a thread."""
        try:
            found = self._book.class_named(words)
        except NotUnderstood:
            pass
        else:
            if self._class not in {"", found}:
                raise NotUnderstood(self._text, "two classes", (self._class, found))
            self._class = found
            return True
        try:
            every = self._book.candidates(words)
        except NotUnderstood:
            return False
        thread = every[0] if len(every) == 1 else self._book.thread(words)
        if self._thread not in {None, thread}:
            raise NotUnderstood(self._text, "two threads", _EXAMPLES)
        self._thread = thread
        return True

    def _refuse(self, word: str) -> NoReturn:
        """Raise what the book says of a word that means nothing."""
        if re.match(r"m\s*\d|\d.*[-/x]", word, re.IGNORECASE | re.ASCII):
            self._book.thread(word)
        elif word[:1].isdigit() or re.match(r"a\d", word, re.IGNORECASE | re.ASCII):
            self._book.class_named(word)
        what = "no word for a thread, a class, or what is special on a fastener"
        raise NotUnderstood(word, what, near(word, (*FEATURES, *HISTORIES), _EXAMPLES))


def read_history(words: Sequence[str]) -> frozenset[History]:
    """Return what a fastener has been through, by its words.

    Raises
    ------
    NotUnderstood
        If one of them is not known.
    """
    found = set()
    for word in words:
        if plain(word) not in HISTORIES:
            names = dict.fromkeys(HISTORIES.values())
            raise NotUnderstood(word, "no such history", near(word, HISTORIES, names))
        found.add(HISTORIES[plain(word)])
    return frozenset(found)


def read_length(text: str) -> float | None:
    """Return a length, None for an empty text [mm].

    Raises
    ------
    NotUnderstood
        If it is none, or not above 0.
    """
    if not text:
        return None
    length = units.read(text, "length").si
    if length <= 0:
        raise NotUnderstood(text, "a length is more than 0")
    return length


def read_drag(text: str) -> float | None:
    """Return a prevailing torque, None for an empty text [N·m]."""
    return units.read(text, "torque").si if text else None


def read_times(text: str, least: int) -> int | None:
    """Return how often something was done, None for an empty text.

    Raises
    ------
    NotUnderstood
        If it is no whole number, or below the least.
    """
    if not text:
        return None
    if not re.fullmatch(r"\d{1,4}", text.strip(), re.ASCII):
        raise NotUnderstood(text, "no number of times", ("1", "4"))
    times = int(text)
    if not least <= times <= _MOST_TIMES:
        raise NotUnderstood(text, f"{least} to {_MOST_TIMES} times are counted")
    return times
