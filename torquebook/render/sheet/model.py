"""What stands on a sheet: safe text only, ready to be set by any renderer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Alert:
    """A finding of the validator: its word, the step it belongs to (0 is none), what it says."""

    word: str
    step: int
    joint: str
    text: str
    instead: str
    rule: str
    note: int


@dataclass(frozen=True)
class Blank:
    """A line that is written on: what goes there, its unit, and its limits."""

    what: str
    unit: str
    limits: str = ""


@dataclass(frozen=True)
class GateCard:
    """A gate: a reading between limits, or a question with yes and no."""

    number: int
    name: str
    question: str
    reading: Blank | None
    tool: str
    blocks: bool
    why: str
    is_gate: Literal[True] = True


@dataclass(frozen=True)
class StageRow:
    """A stage: what to do, and on which wrench to set what or what it should then show."""

    number: int
    shown: str
    setting: str
    wrench: str
    window: str
    missing: str


@dataclass(frozen=True)
class OrderRow:
    """An order of positions, and for which stages and positions it holds."""

    what: str
    order: str


@dataclass(frozen=True)
class ReuseBox:
    """What becomes of the fasteners: verdict, what is looked at, what is measured, who says so.

    ``letter`` stands for what is looked at where the sheet says it once for several joints.
    """

    verdict: str
    looks: tuple[str, ...]
    letter: str
    blanks: tuple[Blank, ...]
    otherwise: tuple[str, ...]
    doubts: tuple[str, ...]
    others: str
    notes: tuple[int, ...]


@dataclass(frozen=True)
class JointCard:
    """A joint: fastener, drawing, stages, order, conditions, reuse, value and ticks."""

    number: int
    name: str
    fastener: str
    drawing: str
    stages: tuple[StageRow, ...]
    orders: tuple[OrderRow, ...]
    before: tuple[str, ...]
    snug: str
    have: tuple[str, ...]
    reuse: ReuseBox
    alerts: tuple[Alert, ...]
    value: Blank
    count: int
    note: int
    is_gate: Literal[False] = False


@dataclass(frozen=True)
class Loosening:
    """A step of taking apart."""

    joint: str
    order: str
    note: str


@dataclass(frozen=True)
class Later:
    """What is looked at again after the work."""

    step: int
    joint: str
    what: str
    after: str


@dataclass(frozen=True)
class Sheet:
    """All that is printed of a job, in the order of the work.

    Parameters
    ----------
    title, name : str
        The job's.
    invented : str
        What the sheet says where its data are invented; empty where none is.
    note : int
        The number of the job's own source.
    alerts : tuple of Alert
        What has to be settled first, the worst first.
    loosening : tuple of Loosening
    reading : tuple of pairs of str
        How to read the cards: a word and what it stands for.
    cards : tuple of GateCard and JointCard
    later : tuple of Later
    assumed, cautions, sources : tuple of str
        Sources are numbered from 1, as the notes on the cards count them.
    """

    title: str
    name: str
    invented: str
    note: int
    alerts: tuple[Alert, ...]
    loosening: tuple[Loosening, ...]
    reading: tuple[tuple[str, str], ...]
    cards: tuple[GateCard | JointCard, ...]
    later: tuple[Later, ...]
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
