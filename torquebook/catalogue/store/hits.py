"""What is found in an index.

Annotations are not postponed here: a named tuple would compile each of them from its text, at
every start.
"""

from typing import Any, NamedTuple


class Hit(NamedTuple):
    """A card that was found; its id is its own in its layer."""

    id: str
    kind: str
    name: str


class Found(NamedTuple):
    """What answers to some words.

    Parameters
    ----------
    cards : tuple of dict
        The best first, at most ``MOST_SHOWN``.
    total : int
        How many there are; ``MOST_FOUND`` stands for so many or more.
    named : bool
        Whether the first is the one that was named, by its id or a name of its own.
    instead : dict
        For a word that no record holds, those that were looked for instead.
    """

    cards: tuple[dict[str, Any], ...]
    total: int
    named: bool
    instead: dict[str, tuple[str, ...]]
