"""Make the sheets of a class: the same ones from the same seed, on every machine."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.errors import TorquebookError
from torquebook.quiz.draws import Draw
from torquebook.quiz.levels import checked
from torquebook.quiz.model import LEVELS, Quiz, Sheet
from torquebook.quiz.registry import FAMILIES, FROM, families_of
from torquebook.quiz.stock import Unfounded, founded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.book import Book
    from torquebook.quiz.model import Drawing, Grid, Question
    from torquebook.quiz.registry import Family

    Said = tuple[str, Drawing | None, Grid | None]

MOST_QUESTIONS: Final = 100
MOST_SHEETS: Final = 500
_TRIES: Final = 12  # draws of one question before a family is taken to be used up


def question(family: Family, draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Return one question of a family.

    Raises
    ------
    Unfounded
        If its key would rest on a value from memory or on invented data.
    """
    made = family(draw, book, level, unit)
    for source in made.sources:
        if not founded(source):
            raise Unfounded(f"{made.family}: no key rests on this source: {source}")
    return made


def make_quiz(
    book: Book,
    families: Sequence[str] = (),
    *,
    level: int,
    count: int,
    sheets: int,
    seed: str,
    unit: str = "N.m",
    class_name: str = "",
    date: str = "",
) -> Quiz:
    """Return the sheets of a class.

    Parameters
    ----------
    book : Book
    families : sequence of str
        Slugs of ``registry.FAMILIES``; all of the level if empty.
    level : int
        1 to 3.
    count : int
        Questions on each sheet.
    sheets : int
    seed : str
        The same seed gives the same sheets, letter by letter.
    unit : str
        The country's unit of torque.
    class_name, date : str
        Printed on the sheets; nothing is drawn from them.

    Returns
    -------
    Quiz
        Sheets of which no two are alike. On a sheet no question comes twice; and from sheet to
        sheet none does as long as its family has another.

    Raises
    ------
    NotUnderstood
        If there is no such family or unit.
    Unfounded
        If the book bears no key for a family.
    TorquebookError
        If the level or a number is out of range, or the families are too few for so many sheets.
    """
    name = checked(level, unit)
    for what, number, most in (
        ("questions", count, MOST_QUESTIONS),
        ("sheets", sheets, MOST_SHEETS),
    ):
        if not 1 <= number <= most:
            raise TorquebookError(f"{number} {what}: 1 to {most} can be made")
    slugs = families_of(level, families)
    maker = _Maker(book, slugs, level, name)
    made = tuple(
        Sheet(number, maker.sheet(Draw(f"{seed}|{number}"), number, count))
        for number in range(1, sheets + 1)
    )
    return Quiz(class_name, date, name, level, seed, slugs, made)


class Listed(NamedTuple):
    """A family as a list of them has it: its slug, its first level, what its questions teach."""

    slug: str
    level: int
    aim: str


def listed(book: Book, unit: str = "N.m") -> tuple[Listed, ...]:
    """Return all families; each says its aim by a question that it makes."""
    levels = {slug: FROM.get(slug, LEVELS[0]) for slug in FAMILIES}
    return tuple(
        Listed(slug, levels[slug], question(family, Draw(slug), book, levels[slug], unit).aim)
        for slug, family in FAMILIES.items()
    )


class _Maker:
    """Makes sheet after sheet, and remembers what was asked."""

    def __init__(self, book: Book, slugs: tuple[str, ...], level: int, unit: str) -> None:
        self._book, self._slugs, self._level, self._unit = book, slugs, level, unit
        self._asked: set[Said] = set()
        self._spent: set[str] = set()  # families that hardly have a question left that is new
        self._sheets: set[tuple[Said, ...]] = set()

    def sheet(self, draw: Draw, number: int, count: int) -> tuple[Question, ...]:
        """Return the questions of one sheet; every family once before one comes twice."""
        for _ in range(_TRIES):
            slugs: list[str] = []
            while len(slugs) < count:
                slugs += draw.mixed(self._slugs)
            found: dict[Said, Question] = {}
            for slug in slugs[:count]:
                said, new = self._one(draw, slug, found)
                found[said] = new
            order = tuple(found)
            if order not in self._sheets:
                self._sheets.add(order)
                self._asked.update(order)
                return tuple(found.values())
        raise TorquebookError(
            f"sheet {number} comes out like another; name more families, or make fewer sheets"
        )

    def _one(self, draw: Draw, slug: str, here: dict[Said, Question]) -> tuple[Said, Question]:
        """Return a question that is not on this sheet, and if possible on no other."""
        spare = None
        for _ in range(_TRIES):
            made = question(FAMILIES[slug], draw, self._book, self._level, self._unit)
            said = _said(made)
            if said in here:
                continue
            if said not in self._asked or slug in self._spent:
                return said, made
            spare = spare or (said, made)
        self._spent.add(slug)
        if spare is None:
            raise TorquebookError(
                f"{slug} has no further question for one sheet; name more families, or ask fewer"
            )
        return spare


def _said(made: Question) -> Said:
    """Return what makes two questions alike for who reads them."""
    return made.text, made.drawing, made.grid
