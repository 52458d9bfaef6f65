"""Family `positions`: whether a joint's groups and passes reach every bolt, stage by stage."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.catalogue.lookup import near
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.patterns.layout import spots_of
from torquebook.patterns.making import cross_over
from torquebook.patterns.measures import MOST_PULL, check
from torquebook.patterns.reading import order_of, passes_of
from torquebook.rules.basis.orders import covered, listed, named, named_orders
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.records import JointCase


@rule(
    "layout-differs",
    Severity.ASK,
    source="common practice",
    fires="count: 5\nlayout: {rows: {lengths: [2, 2], along_mm: 60, between_mm: 40}}",
    passes="count: 4\nlayout: {rows: {lengths: [2, 2], along_mm: 60, between_mm: 40}}",
    about=("joint",),
)
def layout_differs(case: JointCase) -> Iterator[Remark]:
    """Has the layout as many positions as the joint has bolts?

    Why
    ---
    Orders speak of positions; one that the drawing does not show is not tightened.

    Mend
    ----
    Count the bolts, then write the rows or the points for that number.

    Known gaps
    ----------
    A circle has any number of positions.
    """
    layout, count = case.record.layout, case.record.count
    if layout is None:
        return
    try:
        spots_of(layout, count)
    except NotUnderstood as trouble:
        yield Remark(trouble.what, place=case.at("layout", "points" if layout.points else "rows"))


@rule(
    "group-overlaps",
    Severity.ASK,
    source="common practice",
    fires='count: 4\ngroups: [{name: "a", positions: [1, 2]}, {name: "b", positions: [2, 3, 4]}]',
    passes='count: 4\ngroups: [{name: "a", positions: [1, 2]}, {name: "b", positions: [3, 4]}]',
    about=("joint",),
)
def group_overlaps(case: JointCase) -> Iterator[Remark]:
    """Does each position belong to one group only?

    Why
    ---
    A bolt of two groups is tightened twice, once in the wrong turn.

    Mend
    ----
    Take the position out of the group that it does not belong to.

    Known gaps
    ----------
    None.
    """
    first: dict[int, str] = {}
    for index, group in enumerate(case.record.groups):
        for at, position in enumerate(group.positions):
            if position in first:
                where = f"in {first[position]} too" if first[position] != group.name else "twice"
                yield Remark(
                    f"position {position} of {group.name} stands {where}",
                    place=case.at("groups", index, "positions", at),
                )
            first.setdefault(position, group.name)


@rule(
    "group-misses",
    Severity.STOP,
    source="common practice",
    fires='count: 4\ngroups: [{name: "a", positions: [1, 2]}, {name: "b", positions: [3]}]',
    passes='count: 4\ngroups: [{name: "a", positions: [1, 2]}, {name: "b", positions: [3, 4]}]',
    about=("joint",),
)
def group_misses(case: JointCase) -> Iterator[Remark]:
    """Do the groups hold every position, and none that the joint does not have?

    Why
    ---
    A bolt that is in no group is in no pass of a group, and stays as it was put in.

    Mend
    ----
    Put the missing position into its group; or mend the count.

    Known gaps
    ----------
    None.
    """
    count, groups = case.record.count, case.record.groups
    held = {position for group in groups for position in group.positions}
    missed = sorted(set(range(1, count + 1)) - held)
    if groups and missed:
        yield Remark(
            f"{named(missed)} of {count} {'is' if len(missed) == 1 else 'are'} in no group",
            place=case.at("groups"),
            numbers={"count": float(count), "missed": float(len(missed))},
        )
    beyond = sorted(held - set(range(1, count + 1)))
    if beyond:
        yield Remark(
            f"the groups speak of {named(beyond)}; the joint has {count}",
            place=case.at("groups"),
            severity=Severity.ASK,
        )


@rule(
    "group-unknown",
    Severity.ASK,
    source="common practice",
    fires=(
        'groups: [{name: "upper", positions: [1, 2]}, {name: "lower", positions: [3, 4]}]\n'
        'passes: [{stages: [1, 2], order: "1-2", group: "uppers"}]'
    ),
    passes=(
        'groups: [{name: "upper", positions: [1, 2]}, {name: "lower", positions: [3, 4]}]\n'
        'passes: [{stages: [1, 2], order: "1-2", group: "upper"}, '
        '{stages: [1, 2], order: "3-4", group: "lower"}]'
    ),
    about=("joint",),
)
def group_unknown(case: JointCase) -> Iterator[Remark]:
    """Does every pass name a group that there is?

    Why
    ---
    Nobody knows which bolts such a pass is for.

    Mend
    ----
    Name the group as it is written under groups, or leave it out for all positions.

    Known gaps
    ----------
    None.
    """
    names = [group.name for group in case.record.groups]
    for index, one in enumerate(case.record.passes):
        if one.group is not None and one.group not in names:
            alike = near(one.group, names)
            yield Remark(
                f'no group of the name "{one.group}"; there is {" and ".join(names) or "none"}',
                place=case.at("passes", index, "group"),
                instead=alike[0] if alike else None,
            )


@rule(
    "pass-misses",
    Severity.STOP,
    source="common practice",
    fires='passes: [{stages: [1], order: "1-3-2-4"}, {stages: [2], order: "1-3-2"}]',
    passes='passes: [{stages: [1], order: "1-3-2-4"}, {stages: [2], order: "1-2-3-4"}]',
    about=("joint",),
)
def pass_misses(case: JointCase) -> Iterator[Remark]:
    """Does every pass reach every position of its group, each once?

    Why
    ---
    A bolt that a pass leaves out is left at the torque of the pass before.

    Mend
    ----
    Put the missing position where the pattern has it.

    Known gaps
    ----------
    The joint's own order, which is that of its first pass where none is written, is judged
    as a plan's is: position-missed, position-twice, count-differs.
    """
    record = case.record
    for index, one in enumerate(record.passes):
        positions = case.parts.get(one.group) if one.group else None
        if one.group and positions is None:
            continue  # group-unknown
        if index == 0 and record.order is None and one.group is None:
            continue
        reached = positions or range(1, record.count + 1)
        groups = () if one.group else case.groups
        for severity, message in covered(one.order, reached, case.book, groups):
            yield Remark(message, place=case.at("passes", index, "order"), severity=severity)


@rule(
    "pass-skips-stage",
    Severity.STOP,
    source="common practice",
    fires='passes: [{stages: [1], order: "1-3-2-4"}]',
    passes='passes: [{stages: [1], order: "1-3-2-4"}, {stages: [2], order: "1-2-3-4"}]',
    about=("joint",),
)
def pass_skips_stage(case: JointCase) -> Iterator[Remark]:
    """Do the passes do every stage, one after the other?

    Why
    ---
    A stage that no pass does is never tightened to, and the joint stays at the one before.

    Mend
    ----
    Write a pass for each stage of `tighten`; the last one may be done again, round.

    Known gaps
    ----------
    Not judged where `tighten` cannot be read.
    """
    total = case.stage_count
    if not total or not case.record.passes:
        return
    for part in case.parts:
        done = [
            (stage, index, at)
            for index, one in enumerate(case.record.passes)
            if one.group in {None, part}
            for at, stage in enumerate(one.stages)
        ]
        of = f" of {part}" if part else ""
        missed = sorted(set(range(1, total + 1)) - {stage for stage, _, _ in done})
        if missed:
            yield Remark(
                f"no pass{of} does stage {listed(missed)} of {total}",
                place=case.at("passes"),
                numbers={"stages": float(total), "missed": float(len(missed))},
            )
        yield from _out_of_turn(case, done, of)


def _out_of_turn(case: JointCase, done: list[tuple[int, int, int]], of: str) -> Iterator[Remark]:
    """Yield the stages that come after a later one, or that there are not."""
    reached, total = 0, case.stage_count
    for stage, index, at in done:
        place = case.at("passes", index, "stages", at)
        if stage > total:
            said = f"a pass{of} does stage {stage}; tighten has {total}"
            yield Remark(said, place=place, severity=Severity.ASK)
        elif stage < reached:
            said = f"stage {stage}{of} comes after stage {reached}"
            yield Remark(said, place=place, severity=Severity.ASK)
        reached = max(reached, stage)


@rule(
    "first-pass-uneven",
    Severity.ASK,
    source="metric: inference, from the published orders of 4 to 16 positions",
    fires='count: 8\nlayout: {circle: {diameter_mm: 80}}\norder: "1-3-5-7-2-4-6-8"',
    passes='count: 8\nlayout: {circle: {diameter_mm: 80}}\norder: "1-5-3-7-2-6-4-8"',
    about=("joint",),
)
def first_pass_uneven(case: JointCase) -> Iterator[Remark]:
    """Does the first pass over a circle pull from side to side?

    Why
    ---
    Add up the directions of the bolts tightened so far: published orders never come out
    above one bolt's worth. An order that does closes the joint crooked.

    Mend
    ----
    Follow each bolt by the one opposite, as 1-5-3-7-2-6-4-8 does for eight. If the maker
    prints this order, his counts.

    Known gaps
    ----------
    An order that goes round from bolt to bolt is reported by round-the-circle. Rows, free
    coordinates and groups are not judged: makers' orders go round their middle.
    """
    record = case.record
    if record.layout is None or record.layout.circle is None:
        return
    first = record.passes[0] if record.passes else None
    text = first.order if first else record.order
    if text is None or (first and first.group):
        return
    spots = spots_of(record.layout, record.count)
    try:
        order = order_of(passes_of(text)[0], spots, named_orders(case.book), case.groups)
    except NotUnderstood:
        return  # word-unknown or pass-misses
    [found] = check([order], spots)
    if found.pull is not None and not found.even and not found.round:
        yield Remark(
            f"the first pass pulls to one side by {found.pull:.2f} bolts; good orders stay "
            f"within {MOST_PULL:.2f}",
            place=case.at("passes", 0, "order") if first else case.at("order"),
            numbers={"pull": found.pull, "most": MOST_PULL},
            instead="-".join(map(str, cross_over(record.count))),
        )


FAMILY = (
    layout_differs,
    group_overlaps,
    group_misses,
    group_unknown,
    pass_misses,
    pass_skips_stage,
    first_pass_uneven,
)
