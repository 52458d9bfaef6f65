"""Find cards by words: names before titles before all else, the user's folders before ours."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.catalogue.store import words as w
from torquebook.catalogue.store.hits import Found
from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from torquebook.catalogue.store.hits import Hit
    from torquebook.catalogue.store.layer import Layer
    from torquebook.catalogue.store.writing import Card

#: So many are ranked; whoever finds more has said too little.
MOST_FOUND: Final = 100
MOST_SHOWN: Final = 20
MOST_WORDS: Final = 16
_NEAREST: Final = 3
#: Where the words must stand, best first: the part of the index, its column, and whether the
#: words must be whole.
_TIERS: Final = (
    ("named", "name", True),
    ("named", "name", False),
    ("named", "", False),
    ("words", "", True),
    ("words", "", False),
)
#: What a person at the bench mostly looks for.
_FIRST: Final = {"joint": 0, "job": 1}
#: The kinds of card.
KINDS: Final = (
    "joint",
    "job",
    "reuse rule",
    "prevailing torques",
    "preference",
    "pattern",
    "friction",
    "material",
    "wrench",
    "printed table",
    "thread",
    "class",
    "nut class",
    "heads",
    "holes",
    "tapping drills",
)


def _order(hit: Hit) -> tuple[int, int, str]:
    """Return what goes first among cards that hold the words alike: the work, then short names."""
    return _FIRST.get(hit.kind, len(_FIRST)), len(hit.name), hit.id


class Finder:
    """Looks through layers of the book.

    Parameters
    ----------
    layers : sequence of Layer
        The topmost first.
    kind : str
        One of ``KINDS``, to look for no other; empty for all.
    """

    def __init__(self, layers: Sequence[Layer], kind: str = "") -> None:
        self._layers = tuple(layers)
        self._kind = kind

    def find(self, text: str) -> Found:
        """Return the cards that a text names, or that hold its words.

        Parameters
        ----------
        text : str
            An id, a name, or words; their beginnings will do.

        Raises
        ------
        NotUnderstood
            If no card holds these words, with those that come near.
        """
        text = text.encode("utf-8", "replace").decode()  # what no text can hold, an index cannot
        typed = w.words(text)
        if not typed:
            raise NotUnderstood(text, "no word to look for")
        if len(typed) > MOST_WORDS:
            raise NotUnderstood(text, f"more than {MOST_WORDS} words to look for")
        while True:  # a layer whose files changed is made anew, once
            named = self._uncovered([layer.called(text) for layer in self._layers])
            every = w.groups(typed)
            instead: dict[str, tuple[str, ...]] = {}
            found = [] if self._is_id(named, text) else self._holding(every)
            if not found and not named:
                every, instead = self._respelt(every)
                found = self._holding(every) if instead else []
            found = list(dict.fromkeys([*named, *found]))
            shown = found[:MOST_SHOWN]
            if self._are_current(shown):
                break
        if not found:
            raise NotUnderstood(text, "no record holds this", self._near(every))
        cards = tuple(self._layers[at].card(hit) for at, hit in shown)
        return Found(cards, min(len(found), MOST_FOUND), len(named) == 1, instead)

    def _is_id(self, named: Sequence[tuple[int, Hit]], text: str) -> bool:
        """Return whether an id was named: then nothing else was meant."""
        if len(named) != 1:
            return False
        own = named[0][1].id
        return own == text or ("/" in text and own.endswith(f"/{text}"))

    def one(self, kind: str, name: str) -> Card | None:
        """Return the card of a kind by its name, None where there is none."""
        for layer in self._layers:
            for hit in layer.called(name):
                if hit.kind == kind:
                    return layer.card(hit)
        return None

    def _holding(self, every: Sequence[w.Group]) -> list[tuple[int, Hit]]:
        """Return the cards that hold a phrase of each group, with their layers, the best first."""
        whole, begun = _TIERS[-2:]
        if len(self._tier(every, whole, 2)) <= 1:
            some = self._tier(every, begun, 2)  # it finds all that any finds, but not cheaply
            if len(some) <= 1:  # there is nothing to rank
                return some
        found: dict[tuple[int, Hit], None] = {}
        for tier in _TIERS:
            found.update(dict.fromkeys(self._tier(every, tier, MOST_FOUND)))
            if len(found) >= MOST_FOUND:
                break
        return list(found)

    def _tier(
        self, every: Sequence[w.Group], tier: tuple[str, str, bool], most: int
    ) -> list[tuple[int, Hit]]:
        """Return the cards that hold the words in one part of the index, so many of a layer."""
        table, column, whole = tier
        asked = w.question(every, column, self._kind, whole=whole)
        return self._uncovered([layer.matching(table, asked, most) for layer in self._layers])

    def _uncovered(self, tier: Sequence[Sequence[Hit]]) -> list[tuple[int, Hit]]:
        """Return the hits of all layers, but for those that a layer above covers."""
        return [
            (at, hit)
            for at, hits in enumerate(tier)
            for hit in sorted(hits, key=_order)
            if self._kind in {"", hit.kind}
            and not any(above.covers(hit) for above in self._layers[:at])
        ]

    def _are_current(self, shown: Sequence[tuple[int, Hit]]) -> bool:
        """Return whether cards are as their files are now; if not, look again."""
        current = [
            layer.current([hit for place, hit in shown if place == at])
            for at, layer in enumerate(self._layers)
        ]
        return all(current)

    def _respelt(
        self, every: Sequence[w.Group]
    ) -> tuple[list[w.Group], dict[str, tuple[str, ...]]]:
        """Return groups with the words that no record holds put right, and which these are."""
        right: list[w.Group] = []
        instead = {}
        for group in every:
            near = () if self._is_known(group) else tuple(self._spelt_like(group[0]))
            if near:
                instead[group[0]] = near
            right.append(near or group)
        return right, instead

    def _is_known(self, group: w.Group) -> bool:
        """Return whether a word stands in a record, or may not be put right."""
        if not w.may_be_misspelt(group[0]):
            return True
        return any(layer.knows(phrase) for layer in self._layers for phrase in group)

    def _spelt_like(self, word: str) -> Iterator[str]:
        """Yield the words of the book that are the fewest slips away."""
        most, length = w.slips_allowed(word), len(word)
        near: dict[int, set[str]] = {}
        for layer in self._layers:
            for other in layer.spellings(length - most, length + most):
                count = w.slips(word, other, most)
                near.setdefault(count, set()).add(other)
        best = min((count for count in near if count <= most), default=None)
        if best is not None:
            yield from sorted(near[best], key=lambda other: (other[0] != word[0], other))[:_NEAREST]

    def _near(self, every: Sequence[w.Group]) -> tuple[str, ...]:
        """Return what to look for instead: the words without one that is in the way."""
        fewer = [[*every[:at], *every[at + 1 :]] for at in range(len(every))]
        left = [rest for rest in fewer if rest and self._holding(rest)]
        return tuple(" ".join(group[0] for group in rest) for rest in left[:_NEAREST])
