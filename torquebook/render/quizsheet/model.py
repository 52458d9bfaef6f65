"""What stands on the printed papers of a quiz: safe text only, ready to be set by any renderer.

The questions' paper has no field that depends on a key, so nothing set from it can give one away.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Table:
    """A small table that a question is about."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Asked:
    """A question as an apprentice sees it.

    Parameters
    ----------
    number : int
    text : str
    given : tuple of str
        What the answer rests on.
    drawing : str
        SVG; empty without one.
    wide : bool
        Whether the drawing takes a line of its own.
    table : Table or None
    options : tuple of pairs of str
        A letter and what it stands for.
    across : int
        How many options stand beside one another.
    unit : str
        Of a number to be written; empty where none is.
    margin : str
        How far that number may be off, with its sign.
    places : int
        How many boxes an order is written into; 0 where none is.
    """

    number: int
    text: str
    given: tuple[str, ...]
    drawing: str
    wide: bool
    table: Table | None
    options: tuple[tuple[str, str], ...]
    across: int
    unit: str
    margin: str
    places: int


@dataclass(frozen=True)
class AskedSheet:
    """One apprentice's sheet."""

    name: str
    questions: tuple[Asked, ...]


@dataclass(frozen=True)
class QuestionPaper:
    """The sheets of a class, without anything that tells a key.

    Parameters
    ----------
    title : str
    facts : str
        Class, date, level, unit, code: what the head of each sheet says.
    foot : str
        What each page's foot says of the class, with the code.
    reading : str
        How answers are written.
    caution : str
    sheets : tuple of AskedSheet
    """

    title: str
    facts: str
    foot: str
    reading: str
    caution: str
    sheets: tuple[AskedSheet, ...]


@dataclass(frozen=True)
class Keyed:
    """The key of a question.

    Parameters
    ----------
    number : int
    key : str
        A letter with its text, a number with its unit and tolerance, an order.
    wrong : tuple of pairs of str
        A wrong answer, and the mistake that it comes from.
    """

    number: int
    key: str
    wrong: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class KeyedSheet:
    """The keys of one sheet."""

    name: str
    keys: tuple[Keyed, ...]


@dataclass(frozen=True)
class KeyPaper:
    """The keys of all sheets.

    Parameters
    ----------
    title : str
    facts : str
        As on the questions, and what the sheets can be made again from.
    sheets : tuple of KeyedSheet
    orders : tuple of pairs of str
        A letter, and the orders that are as right as any that names it.
    caution : str
    """

    title: str
    facts: str
    sheets: tuple[KeyedSheet, ...]
    orders: tuple[tuple[str, str], ...]
    caution: str


@dataclass(frozen=True)
class Worked:
    """A question worked out: what it teaches, its key, the steps, the numbers of its sources."""

    number: int
    aim: str
    key: str
    steps: tuple[str, ...]
    notes: tuple[int, ...]


@dataclass(frozen=True)
class WorkedSheet:
    """The ways to the keys of one sheet."""

    name: str
    questions: tuple[Worked, ...]


@dataclass(frozen=True)
class SolutionPaper:
    """The ways to all keys; sources are numbered from 1, as the questions' notes count them."""

    title: str
    facts: str
    sheets: tuple[WorkedSheet, ...]
    sources: tuple[str, ...]
    caution: str
