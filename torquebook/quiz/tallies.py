"""What a class has learnt: how many answers were right by family, and which mistakes were made.

Every sheet asks other questions in another order, so that what stands under number 3 is as many
questions as there are sheets. A class is therefore counted by the families of questions.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from torquebook.quiz.marking import Status

if TYPE_CHECKING:
    from collections.abc import Iterable

    from torquebook.quiz.marking import Mark

_FIGURE: Final = re.compile(r"\bM?\d+(?:[.,/x-]\d+)*")


@dataclass(frozen=True)
class Mistake:
    """One mistake in one family, and how many fell for it."""

    text: str
    count: int


@dataclass(frozen=True)
class Tally:
    """What became of one family's questions.

    Parameters
    ----------
    family : str
        Its slug.
    aim : str
        What answering it teaches.
    counts : mapping of Status to int
    mistakes : tuple of Mistake
        The most common first.
    """

    family: str
    aim: str
    counts: Counter[Status]
    mistakes: tuple[Mistake, ...]

    @property
    def asked(self) -> int:
        """How many questions of the family were handed in, answered or not."""
        return self.counts.total()

    @property
    def share(self) -> float:
        """The share of them that is right; what was not read is not right yet."""
        return self.counts[Status.RIGHT] / self.asked


def tallies(marks: Iterable[Mark]) -> tuple[Tally, ...]:
    """Return the families of a class's questions, those with the least share right first."""
    by_family: dict[str, list[Mark]] = {}
    for mark in marks:
        by_family.setdefault(mark.question.family, []).append(mark)
    found = [_tally(slug, held) for slug, held in by_family.items()]
    return tuple(sorted(found, key=lambda one: (one.share, one.family)))


def _tally(slug: str, marks: list[Mark]) -> Tally:
    counts = Counter(mark.status for mark in marks)
    return Tally(slug, marks[0].question.aim, counts, mistakes_of(marks))


def mistakes_of(marks: Iterable[Mark]) -> tuple[Mistake, ...]:
    """Return the mistakes of wrong answers, the most common first.

    Mistakes that differ in their figures alone, as ``the row of M8`` and ``the row of M12``, are
    one; it is told with its figures only where all of them have the same.
    """
    told: dict[str, Counter[str]] = {}
    for mark in marks:
        if mark.status is Status.WRONG:
            told.setdefault(_FIGURE.sub("…", mark.mistake), Counter())[mark.mistake] += 1
    found = [
        Mistake(next(iter(texts)) if len(texts) == 1 else kind, texts.total())
        for kind, texts in told.items()
    ]
    return tuple(sorted(found, key=lambda one: (-one.count, one.text)))
