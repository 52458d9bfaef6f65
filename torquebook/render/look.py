"""The answer of ``look``: one card, or a list of what was found."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.finding import MOST_FOUND
from torquebook.render.cautions import CAUTION

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.answers.cards import Looked
    from torquebook.catalogue.store.writing import Card
    from torquebook.render.paper import Paper

_OTHERS: Final = 5
_PLAIN: Final = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/-_.:")
#: The modules that write cards; only the one that is needed is imported.
_CARDS: Final = {"joint": "jointcard", "job": "jobcard"}


def text(answer: Looked, paper: Paper) -> None:
    """Write the card with a short list of what else holds the words; or the whole list."""
    found = answer.found
    for word, others in found.instead.items():
        meant = " or ".join(f'"{other}"' for other in others)
        paper.text(f'no record holds "{word}"; looked for {meant}', 0, 2)
    if answer.card is None:
        paper.heading(f"{_count(found.total)} records found")
        _listed(found.cards, found.total, paper)
        paper.gap()
        paper.text(f"Show one: torquebook look {_shown_as(found.cards[0]['id'])}", 0, 2)
        return
    module = _CARDS.get(answer.card["kind"], "plaincard")
    import_module(f"torquebook.render.{module}").text(answer, paper)
    if found.total > 1:
        paper.heading(f"{_count(found.total - 1)} more found")
        _listed(found.cards[1 : _OTHERS + 1], found.total - 1, paper)
    paper.gap()
    paper.text(CAUTION)


def _count(count: int) -> str:
    return f"{count} or more" if count >= MOST_FOUND - 1 else f"{count}"


def _listed(cards: Sequence[Card], count: int, paper: Paper) -> None:
    """Write a numbered list: name and kind, and below them the id."""
    for number, card in enumerate(cards, 1):
        paper.text(f"{number:3}  {card['name']} ({card['kind']})", 0, 5)
        paper.text(card["id"], 5)
    left = count - len(cards)
    if left > 0:
        paper.text(f"and {_count(left)} more; say more of what you look for", 5)


def _shown_as(name: str) -> str:
    """Return an id as a shell takes it for one word, and for nothing else."""
    if _PLAIN.issuperset(name):
        return name
    from shlex import quote  # noqa: PLC0415 - most ids need none

    return quote(name)


def data(answer: Looked) -> dict[str, Any]:
    """Return the answer for a program: the card whole, the others in short."""
    found = answer.found
    return {
        "card": answer.card,
        "settings": [setting and setting._asdict() for setting in answer.settings],
        "found": [{key: card[key] for key in _SHORT} for card in found.cards],
        "total": found.total,
        "or_more": found.total >= MOST_FOUND,
        "instead": {word: list(others) for word, others in found.instead.items()},
        "caution": CAUTION,
    }


_SHORT: Final = ("id", "kind", "name", "title", "source")
