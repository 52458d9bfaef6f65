"""Family `work`: whether a job's steps name joints that there are, each where it belongs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.rules.basis import say
from torquebook.rules.basis.orders import covered
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.records import JobCase


@rule(
    "joint-unknown",
    Severity.STOP,
    source="the records of joints in the book and in the user's folders",
    fires="steps: [{joint: joints/brigade/flywhel}]",
    passes="steps: [{joint: joints/brigade/flywheel}]",
    about=("job",),
)
def joint_unknown(case: JobCase) -> Iterator[Remark]:
    """Is there a record of every joint that the job names?

    Why
    ---
    A step without its joint is a step that nobody does.

    Mend
    ----
    Name the joint by its record's id, or write its record.

    Known gaps
    ----------
    None.
    """
    removal = ((("removal", at, "joint"), one.joint) for at, one in enumerate(case.record.removal))
    steps = ((("steps", at, "joint"), name) for at, name in case.steps)
    for path, name in (*removal, *steps):
        trouble = case.joints[name]
        if isinstance(trouble, NotUnderstood):
            yield Remark(str(trouble), place=case.at(*path), instead=say.nearest(trouble))


@rule(
    "joint-twice",
    Severity.ASK,
    source="common practice",
    fires="steps: [{joint: joints/brigade/starter}, {joint: joints/brigade/starter}]",
    passes="steps: [{joint: joints/brigade/starter}, {joint: joints/brigade/flywheel}]",
    about=("job",),
)
def joint_twice(case: JobCase) -> Iterator[Remark]:
    """Does a joint stand in the steps only once?

    Why
    ---
    A joint that stands twice mostly stands where another one belongs.

    Mend
    ----
    Look which joint was meant; a second tightening is a stage or a recheck of its record.

    Known gaps
    ----------
    None.
    """
    first: dict[str, int] = {}
    for index, name in case.steps:
        held = case.joints[name]
        key = name if isinstance(held, NotUnderstood) else held.id
        if key in first:
            line = case.at("steps", first[key], "joint").line
            place = case.at("steps", index, "joint")
            yield Remark(f"{name} stands in line {line} already", place=place)
        first.setdefault(key, index)


@rule(
    "removal-unplanned",
    Severity.ASK,
    source="common practice",
    fires=("removal: [{joint: joints/brigade/starter}]\nsteps: [{joint: joints/brigade/flywheel}]"),
    passes=(
        "removal: [{joint: joints/brigade/flywheel}]\nsteps: [{joint: joints/brigade/flywheel}]"
    ),
    about=("job",),
)
def removal_unplanned(case: JobCase) -> Iterator[Remark]:
    """Is everything that is taken off put back?

    Why
    ---
    What is loosened and in no step of the job is what is found in the box afterwards.

    Mend
    ----
    Put the joint into the steps, or take it out of the removal.

    Known gaps
    ----------
    The other way round is no fault: not every joint needs an order of loosening.
    """
    planned = {held.id for _, held in case.tightened}
    for index, one in enumerate(case.record.removal):
        held = case.joints[one.joint]
        if not isinstance(held, NotUnderstood) and held.id not in planned:
            place = case.at("removal", index, "joint")
            yield Remark(f"{held.record.name} is taken off and never put back", place=place)


@rule(
    "removal-misses",
    Severity.ASK,
    source="common practice",
    fires='removal: [{joint: joints/brigade/clutch-cover, order: "6-3-5-2-4"}]',
    passes='removal: [{joint: joints/brigade/clutch-cover, order: "6-3-5-2-4-1"}]',
    about=("job",),
)
def removal_misses(case: JobCase) -> Iterator[Remark]:
    """Does an order of loosening reach every position, each once?

    Why
    ---
    The one bolt that stays tight bends the part when the others are out.

    Mend
    ----
    Write the order of tightening in reverse.

    Known gaps
    ----------
    None.
    """
    for index, one in enumerate(case.record.removal):
        held = case.joints[one.joint]
        if one.order is None or isinstance(held, NotUnderstood):
            continue
        groups = [group.positions for group in held.record.groups]
        positions = range(1, held.record.count + 1)
        for _, message in covered(one.order, positions, case.book, groups):
            yield Remark(message, place=case.at("removal", index, "order"))


FAMILY = (joint_unknown, joint_twice, removal_unplanned, removal_misses)
