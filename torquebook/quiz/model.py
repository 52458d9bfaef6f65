"""What a quiz is made of: sheets of questions, each with its key, its reasons and its sources.

All texts are plain text in Unicode (``N·m``, ``°``, ``µ``) without markup; units in fields are
plain names as ``units.FACTORS`` has them (``N.m``), or ``mm2``, ``%``, ``mm``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from torquebook.errors import TorquebookError
from torquebook.numerals import number_text
from torquebook.units import with_unit

LEVELS: Final = (1, 2, 3)
"""1 is the first year of training, 3 the last."""
_HAIR: Final = 1e-9


def with_decimals(value: float, decimals: int, unit: str) -> str:
    """Return a value with so many decimals and its unit: ``47.2 N·m``, ``58.0 mm²``."""
    figure = f"{value:.{decimals}f}"
    return f"{figure} mm²" if unit == "mm2" else with_unit(figure, unit, many=value > 1)


@dataclass(frozen=True)
class Option:
    """One answer to choose.

    Parameters
    ----------
    text : str
    mistake : str
        What somebody got wrong who chooses it, in half a sentence; empty for the right one.
    """

    text: str
    mistake: str = ""

    @property
    def right(self) -> bool:
        """Whether this is the answer."""
        return not self.mistake


@dataclass(frozen=True)
class Choice:
    """One right answer among several, in the order in which they are printed."""

    options: tuple[Option, ...]

    def __post_init__(self) -> None:
        """Refuse a choice without exactly one right answer, or with two that read alike."""
        if sum(option.right for option in self.options) != 1:
            raise TorquebookError("a choice has exactly one right answer")
        if len({option.text for option in self.options}) < len(self.options):
            raise TorquebookError("two options of a choice read alike")

    @property
    def key(self) -> int:
        """Which option is right, from 0."""
        return next(at for at, option in enumerate(self.options) if option.right)


@dataclass(frozen=True)
class Slip:
    """A number that a known mistake leads to, and the mistake in half a sentence."""

    value: float
    mistake: str


@dataclass(frozen=True)
class Number:
    """A number that is to be worked out.

    Parameters
    ----------
    value : float
        As the key prints it, already rounded to ``decimals``.
    unit : str
        Plain name; the question names it too.
    tolerance : float
        How far an answer may be off either way, in the same unit; 0 where it is to be exact.
    decimals : int
        How many the key prints.
    slips : tuple of Slip
        What the mistakes of the trade lead to; none lies within the tolerance.
    within : str
        The tolerance as the question says it, ``3 %``; the number itself if empty. An amount that
        goes with the key would give the key away.
    """

    value: float
    unit: str
    tolerance: float
    decimals: int
    slips: tuple[Slip, ...] = ()
    within: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        """Refuse a slip that would count as right."""
        for slip in self.slips:
            if self.accepts(slip.value):
                raise TorquebookError(f"{slip.value:g} is a mistake and would count as right")

    def accepts(self, value: float) -> bool:
        """Return whether an answer in the same unit is right within the tolerance."""
        return abs(value - self.value) <= self.tolerance + _HAIR * abs(self.value)

    def write(self, value: float) -> str:
        """Return a value as the key prints it: ``47.2 N·m``."""
        return with_decimals(value, self.decimals, self.unit)

    @property
    def shown(self) -> str:
        """The key in print."""
        return self.write(self.value)

    @property
    def margin(self) -> str:
        """The tolerance as the question prints it, without a sign."""
        return self.within or number_text(self.tolerance)


@dataclass(frozen=True)
class Sequence:
    """Things that are to be put in order.

    Parameters
    ----------
    items : tuple of str
        As they are printed; the positions of a bolt circle are ``1``, ``2`` and so on.
    key : tuple of int
        Indices of ``items`` from 0, in the right order; every item once.
    accepted : tuple of tuple of int
        Other orders that are as right as the key; empty where there is only one.
    """

    items: tuple[str, ...]
    key: tuple[int, ...]
    accepted: tuple[tuple[int, ...], ...] = ()

    def __post_init__(self) -> None:
        """Refuse an order that does not have every item once."""
        for order in (self.key, *self.accepted):
            if sorted(order) != list(range(len(self.items))):
                raise TorquebookError("an order has every item once")

    def accepts(self, order: tuple[int, ...]) -> bool:
        """Return whether an order of the items, as indices from 0, is right."""
        return order == self.key or order in self.accepted

    @property
    def shown(self) -> str:
        """The key in print: positions are joined by a dash, words by an arrow."""
        words = [self.items[at] for at in self.key]
        return ("-" if all(word.isdigit() for word in words) else " → ").join(words)


@dataclass(frozen=True)
class BoltCircle:
    """Bolts on a circle, seen from the head's side.

    Parameters
    ----------
    count : int
    start_deg : float
        Where number 1 lies: 0 is on top, 90 on the right [°].
    clockwise : bool
        Which way they are counted.
    order : tuple of int
        Positions in the order of tightening, where the drawing is to show one; else empty, and
        each bolt carries its own number, and a mark shows number 1 either way.
    """

    count: int
    start_deg: float = 0.0
    clockwise: bool = True
    order: tuple[int, ...] = ()


@dataclass(frozen=True)
class HeadMark:
    """A bolt's head seen from above, with what stands on it.

    Parameters
    ----------
    mark : str
        ``8.8``, ``A2-70``.
    head : str
        ``hexagon`` or ``socket``.
    """

    mark: str
    head: str = "hexagon"


@dataclass(frozen=True)
class AdapterWrench:
    """A wrench with an adapter, seen along the bolt's axis.

    Parameters
    ----------
    lever_mm : float
        From the middle of the square drive to the middle of the grip [mm].
    adapter_mm : float
        From the middle of the square drive to the middle of the bolt [mm].
    angle_deg : float
        Between the adapter and the wrench: 0 lengthens it, 90 stands square to it, 180 points
        back along the handle [°].
    lever_text, adapter_text : str
        The lengths as the drawing prints them, in the question's unit.
    """

    lever_mm: float
    adapter_mm: float
    angle_deg: float
    lever_text: str
    adapter_text: str


Drawing = BoltCircle | HeadMark | AdapterWrench


@dataclass(frozen=True)
class Grid:
    """A small table that the question is about: a part of a printed one, or a torque list."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Answer = Choice | Number | Sequence


@dataclass(frozen=True)
class Question:
    """One question with its key.

    Parameters
    ----------
    family : str
        Slug of the family that made it.
    level : int
        1 to 3.
    aim : str
        What answering it teaches, in one sentence.
    text : str
        The question itself; of a number also its unit and tolerance.
    assumptions : tuple of str
        What the answer rests on, printed with the question; never empty.
    answer : Choice, Number or Sequence
    solution : tuple of str
        The way to the key, step by step.
    sources : tuple of str
        One line for each document that the key rests on.
    drawing : BoltCircle, HeadMark, AdapterWrench or None
    grid : Grid or None
    """

    family: str
    level: int
    aim: str
    text: str
    assumptions: tuple[str, ...]
    answer: Answer
    solution: tuple[str, ...]
    sources: tuple[str, ...]
    drawing: Drawing | None = None
    grid: Grid | None = None

    def __post_init__(self) -> None:
        """Refuse a question that leaves out what its answer rests on."""
        if self.level not in LEVELS:
            raise TorquebookError(f"level {self.level}: there are 1, 2 and 3")
        if not (self.assumptions and self.solution and self.sources):
            raise TorquebookError(f"{self.family}: assumptions, solution or sources are missing")


@dataclass(frozen=True)
class Sheet:
    """One apprentice's sheet, numbered from 1."""

    number: int
    questions: tuple[Question, ...]


@dataclass(frozen=True)
class Quiz:
    """The sheets of one class, all different, with what they can be made again from.

    Parameters
    ----------
    class_name : str
        As the trainer calls his class; may be empty.
    date : str
        ``2026-05-31``, as given; nothing is computed from it.
    unit : str
        Plain name of the country's unit of torque.
    level : int
    seed : str
    families : tuple of str
        Slugs of the families that were drawn from.
    sheets : tuple of Sheet
    """

    class_name: str
    date: str
    unit: str
    level: int
    seed: str
    families: tuple[str, ...]
    sheets: tuple[Sheet, ...]
