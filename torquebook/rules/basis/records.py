"""A joint's or a job's record as a whole, with everything that the rules ask of it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

from torquebook.errors import NotUnderstood
from torquebook.plans.fromspec import joint_line, where
from torquebook.records.joint import JointRecord

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Held, Library
    from torquebook.catalogue.strict import Positions
    from torquebook.findings import Place
    from torquebook.plans.model import PlanLine
    from torquebook.records.job import JobRecord


class HeldCase:
    """A record with the places of its values.

    Parameters
    ----------
    held : Held
    book : Book
    library : Library
    """

    def __init__(self, held: Held[Any], book: Book, library: Library) -> None:
        self.held = held
        self.book = book
        self.library = library

    @property
    def joint(self) -> str:
        """The record's name."""
        return str(self.held.record.name)

    @property
    def filed(self) -> str:
        """The path of the file, as it was named."""
        return self.held.path.as_posix()

    @cached_property
    def _positions(self) -> Positions:
        return self.held.positions()

    def at(self, *path: str | int) -> Place:
        """Return the place of a value, or of what holds it where it has none itself."""
        return where(self.held, path, self._positions)

    def place_of(self, column: str) -> Place:
        """Return the place of a key's value at the record's top."""
        return self.at(column)


class JointCase(HeldCase):
    """A joint's record."""

    held: Held[JointRecord]

    @property
    def record(self) -> JointRecord:
        """What the record holds."""
        return self.held.record

    @cached_property
    def line(self) -> PlanLine:
        """The record as a line of a plan."""
        return joint_line(self.held)

    @property
    def stage_count(self) -> int:
        """How many stages ``tighten`` has, 0 if it cannot be read."""
        return len(self.line.stages)

    @cached_property
    def parts(self) -> dict[str | None, tuple[int, ...]]:
        """The positions of each group; under None those of the whole joint, without groups."""
        if not self.record.groups:
            return {None: tuple(range(1, self.record.count + 1))}
        return {group.name: tuple(group.positions) for group in self.record.groups}

    @property
    def groups(self) -> tuple[tuple[int, ...], ...]:
        """The positions of each group; none without groups."""
        return tuple(tuple(group.positions) for group in self.record.groups)


class JobCase(HeldCase):
    """A job's record."""

    held: Held[JobRecord]

    @property
    def record(self) -> JobRecord:
        """What the record holds."""
        return self.held.record

    @cached_property
    def steps(self) -> tuple[tuple[int, str], ...]:
        """The joints in working order, each with its step's index from 0."""
        steps = enumerate(self.record.steps)
        return tuple((index, step.joint) for index, step in steps if step.joint is not None)

    @cached_property
    def joints(self) -> dict[str, Held[JointRecord] | NotUnderstood]:
        """By the name that the job gives it, each joint or why there is none."""
        named = [name for _, name in self.steps] + [one.joint for one in self.record.removal]
        return {name: self._find(name) for name in dict.fromkeys(named)}

    def _find(self, name: str) -> Held[JointRecord] | NotUnderstood:
        try:
            return self.library.named("joints", JointRecord, name)
        except NotUnderstood as trouble:
            return trouble

    @cached_property
    def tightened(self) -> tuple[tuple[int, Held[JointRecord]], ...]:
        """The joints that there are, each once, with the index of its first step."""
        found: dict[str, tuple[int, Held[JointRecord]]] = {}
        for index, name in self.steps:
            held = self.joints[name]
            if not isinstance(held, NotUnderstood):
                found.setdefault(held.id, (index, held))
        return tuple(found.values())
