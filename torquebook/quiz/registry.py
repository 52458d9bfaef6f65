"""Every family of questions, by slug; a new one is listed in its module's ``FAMILY``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, Protocol

from torquebook.errors import NotUnderstood
from torquebook.quiz import (
    banked,
    conversions,
    finishing,
    fits,
    orders,
    printed,
    ranges,
    steps,
    strengths,
    torques,
    wrenches,
)
from torquebook.quiz.levels import ANGLES_FROM, FULL

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw
    from torquebook.quiz.model import Question


class Family(Protocol):
    """Makes one question of a kind."""

    def __call__(self, draw: Draw, book: Book, level: int, unit: str) -> Question:
        """Return a question of a level, in a country's unit."""


FAMILIES: Final[dict[str, Family]] = {
    slug: family
    for module in (
        strengths, torques, conversions, wrenches, ranges, finishing, orders, fits, printed, banked,
        steps,
    )
    for slug, family in module.FAMILY
}  # fmt: skip
#: The level from which on a family is asked; the others are asked from the first on.
FROM: Final = {
    "angle-units": ANGLES_FROM,
    "thread-advance": ANGLES_FROM,
    "finishing-torque": ANGLES_FROM,
    "drag-added": ANGLES_FROM,
    "table-factor": FULL,
}


def families_of(level: int, slugs: Sequence[str] = ()) -> tuple[str, ...]:
    """Return the families that a level's sheets are made of.

    Parameters
    ----------
    level : int
    slugs : sequence of str
        Those that are wanted; all of the level if empty.

    Raises
    ------
    NotUnderstood
        If there is no such family, or it is above the level.
    """
    known = tuple(slug for slug in FAMILIES if FROM.get(slug, 1) <= level)
    for slug in slugs:
        if slug not in FAMILIES:
            raise NotUnderstood(slug, "no family of questions", _near(slug) or known)
        if slug not in known:
            raise NotUnderstood(slug, f"asked from level {FROM[slug]} on, not at {level}")
    return tuple(dict.fromkeys(slugs)) or known


def _near(slug: str) -> tuple[str, ...]:
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    return tuple(get_close_matches(slug.casefold(), FAMILIES, 3))
