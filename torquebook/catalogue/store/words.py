"""Words: what a text is searched by, and how what was typed becomes a question to the index.

Every text is cut into words here, when it is put into the index and when it is looked for, so
that a size (``M10x1.25``), a class (``8.8``) and an inch thread (``3/8-16``) are one word each.
A question is made of quoted words only: nothing that is typed can be an operator.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.store.trade import SYNONYMS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

_WORD: Final = re.compile(r"[^\W_]+(?:(?<=\d)[./-](?=\d)[^\W_]+)*")
_ALIKE: Final = str.maketrans({"×": "x", "·": ".", "°": " ", "–": "-", "−": "-"})
#: A beginning of a word is looked for from so many letters on.
LEAST_PREFIX: Final = 3
#: From so many letters on a word may be misspelt, and its plural be meant.
LEAST_SPELLING: Final = 4
MOST_WORDS: Final = 16
_SURE: Final = 6  # a word of so many letters may hold two slips, a shorter one one

#: A group of phrases, one of which must stand in the record.
Group = tuple[str, ...]


def words(text: str) -> list[str]:
    """Return the words of a text, without case and accents.

    Examples
    --------
    >>> words("Öl an M10×1.25, 8.8: 3/8-16!")
    ['ol', 'an', 'm10x1.25', '8.8', '3/8-16']
    """
    text = text.casefold()
    if not text.isascii():
        text = text.translate(_ALIKE)
    if not text.isascii():
        from unicodedata import combining, normalize  # noqa: PLC0415 - most records are ASCII

        letters = normalize("NFKD", text)
        text = "".join(letter for letter in letters if not combining(letter))
    return _WORD.findall(text)


def _synonyms() -> dict[tuple[str, ...], Group]:
    """Return each name of the trade, as words, with all that mean the same."""
    found: dict[tuple[str, ...], Group] = {}
    for group in SYNONYMS:
        for name in group:
            found[tuple(name.split())] = group
    return found


def groups(typed: Sequence[str]) -> list[Group]:
    """Return for each word that was typed, or name of the trade, the phrases that mean it."""
    known = _synonyms()
    longest = max(map(len, known))
    found: list[Group] = []
    at = 0
    while at < len(typed):
        for length in range(min(longest, len(typed) - at), 0, -1):
            name = tuple(typed[at : at + length])
            meant = known.get(name) or known.get((*name[:-1], singular(name[-1])))
            if meant:
                said = " ".join(name)
                found.append((said, *(other for other in meant if other != said)))
                break
        else:
            length, one = 1, singular(typed[at])
            found.append((typed[at],) if one == typed[at] else (typed[at], one))
        at += length
    return found


def singular(word: str) -> str:
    """Return a word without the s of the plural."""
    plural = len(word) >= LEAST_SPELLING and word.endswith("s") and not word.endswith("ss")
    return word[:-1] if plural and word.isalpha() else word


def question(every: Iterable[Group], column: str, kind: str, *, whole: bool) -> str:
    """Return a question for the index, in its own language.

    Parameters
    ----------
    every : iterable of tuple of str
        Groups, of each of which one phrase must stand in the record.
    column : str
        The column to look in; empty for all.
    kind : str
        The kind of record; empty for any.
    whole : bool
        Whether a word must be whole; else the record's word may go on.
    """
    parts = [" OR ".join(_phrases(group, whole=whole)) for group in every]
    asked = " AND ".join(f"({part})" for part in parts)
    asked = f"{{{column}}} : ({asked})" if column else asked
    return f'({asked}) AND "{kind_word(kind)}"' if kind else asked


def kind_word(kind: str) -> str:
    """Return the word that marks a kind of record: nobody's text has a word like it.

    Examples
    --------
    >>> kind_word("reuse rule"), words(kind_word("reuse rule"))
    ('kind-reuserule', ['kind', 'reuserule'])
    """
    return f"kind-{kind.replace(' ', '')}"


def _phrases(group: Group, *, whole: bool) -> Iterator[str]:
    """Yield the phrases of a group, quoted; a number goes on only as a size does."""
    for phrase in group:
        yield f'"{phrase}"'
        if whole or len(phrase) < LEAST_PREFIX - phrase[-1].isdigit():
            continue
        if phrase[-1].isdigit():
            yield f'"{phrase}x" *'
            yield f'"{phrase}-" *'
        else:
            yield f'"{phrase}" *'


def may_be_misspelt(word: str) -> bool:
    """Return whether a word can hold a slip: a number or a size is never put right."""
    return len(word) >= LEAST_SPELLING and word.isalpha()


def slips_allowed(word: str) -> int:
    """Return how many slips of the finger may stand between a word and what was meant."""
    return 2 if len(word) >= _SURE else 1


def slips(first: str, second: str, most: int) -> int:
    """Return how many letters are left out, added, wrong or swapped; ``most + 1`` for more.

    Examples
    --------
    >>> slips("flyweel", "flywheel", 2), slips("gaer", "gear", 2), slips("hub", "nut", 1)
    (1, 1, 2)
    """
    letters, others = set(first), set(second)
    if max(len(letters - others), len(others - letters)) > most:  # a slip mends one at a time
        return most + 1
    before: list[int] = []
    row = list(range(len(second) + 1))
    for i, letter in enumerate(first, 1):
        above, before, row = before, row, [i]
        for j, other in enumerate(second, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == second[j - 2] and first[i - 2] == other:
                cost = min(cost, above[j - 2] + 1)
            row.append(cost)
        if min(row) > most:
            return most + 1
    return min(row[-1], most + 1)
