"""The spec that a line names: a joint's record, as a line of a plan."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.plans.fromspec import joint_line
from torquebook.records.joint import JointRecord

if TYPE_CHECKING:
    from torquebook.catalogue.library import Library
    from torquebook.plans.model import PlanLine


@dataclass(frozen=True)
class Spec:
    """A named spec.

    Parameters
    ----------
    line : PlanLine or None
        What the record says; None where there is none, or it cannot be read.
    source : str
        Where the record's facts come from.
    trouble : NotUnderstood or Unreadable or None
        Why there is no line.
    """

    line: PlanLine | None = None
    source: str = ""
    trouble: NotUnderstood | Unreadable | None = None


def read_spec(text: str, library: Library) -> Spec:
    """Return the joint's record of an id, a name or a file."""
    try:
        held = library.one("joints", JointRecord, text)
    except (NotUnderstood, Unreadable) as trouble:
        return Spec(trouble=trouble)
    return Spec(joint_line(held), held.record.source.line)
