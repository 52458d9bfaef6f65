"""Family `references`: whether what a contributed record names is there, and is there once."""

from __future__ import annotations

from functools import partial, singledispatch
from typing import TYPE_CHECKING

from torquebook.catalogue.classes import read_class
from torquebook.catalogue.designation import read_designation
from torquebook.catalogue.lookup import near
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.records.classes import StrengthClasses
from torquebook.records.heads import Heads
from torquebook.records.holes import TappingDrills
from torquebook.records.nuts import NutClasses
from torquebook.records.reuse import DragTable, Preference, ReuseRule
from torquebook.records.table import Table
from torquebook.records.threads import InchThreads
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from torquebook.catalogue.strict import ValuePath
    from torquebook.records.base import Record
    from torquebook.rules.basis.contributed import ContributedCase

    #: Where a name stands, the name, and what looks it up.
    Named = tuple[ValuePath, str, Callable[[str], object]]

_EXAMPLE = (
    "kind: printed table\nfriction: {}\nunit: N.m\nunit_as_printed: N.m\n"
    "rows: [{{thread: M8, strength_class: '8.8', low: 25}}]"
)


@rule(
    "reference-dead",
    Severity.ASK,
    source="the names of the book",
    fires=_EXAMPLE.format("oild"),
    passes=_EXAMPLE.format("oiled"),
    about=("record",),
)
def reference_dead(case: ContributedCase) -> Iterator[Remark]:
    """Does everything that the record names exist?

    Why
    ---
    A name that leads nowhere is found out by the one who stands at the bench.

    Mend
    ----
    Write one of the names that the message offers, or contribute what is named as well.

    Known gaps
    ----------
    Joints and jobs have rules of their own for this: word-unknown, size-unlisted, layer-unknown,
    joint-unknown. A class that is well written passes, listed or not: tables print classes that
    no standard at hand lists.
    """
    for path, name, look_up in _named(case.record, case):
        try:
            look_up(name)
        except NotUnderstood as trouble:
            yield Remark(str(trouble), place=case.at(*path), instead=say.nearest(trouble))


@singledispatch
def _named(_record: Record, _case: ContributedCase) -> Iterator[Named]:
    """Yield every name in a record that must lead somewhere."""
    yield from ()


@_named.register(Table)
def _(table: Table, case: ContributedCase) -> Iterator[Named]:
    yield ("friction",), table.friction, case.book.friction
    yield from ((("factors", name), name, case.book.friction) for name in table.factors)
    yield from ((("into_factors", name), name, case.book.material) for name in table.into_factors)
    for index, row in enumerate(table.rows):
        yield ("rows", index, "thread"), row.thread, case.book.candidates


@_named.register(DragTable)
def _(table: DragTable, _case: ContributedCase) -> Iterator[Named]:
    for index, row in enumerate(table.rows):
        yield ("rows", index, "thread"), row.thread, read_designation


@_named.register(TappingDrills)
def _(record: TappingDrills, case: ContributedCase) -> Iterator[Named]:
    for index, drill in enumerate(record.drills):
        yield ("drills", index, "size"), drill.size, case.book.candidates


@_named.register(Heads)
def _(record: Heads, _case: ContributedCase) -> Iterator[Named]:
    for index, head in enumerate(record.sizes):
        yield ("sizes", index, "size"), head.size, read_designation


@_named.register(StrengthClasses)
def _(record: StrengthClasses, _case: ContributedCase) -> Iterator[Named]:
    for index, entry in enumerate(record.classes):
        yield ("classes", index, "name"), entry.name, read_class


@_named.register(InchThreads)
def _(record: InchThreads, _case: ContributedCase) -> Iterator[Named]:
    for index, thread in enumerate(record.threads):
        yield ("threads", index, "size"), thread.size, read_designation


@_named.register(NutClasses)
def _(record: NutClasses, _case: ContributedCase) -> Iterator[Named]:
    for index, nut in enumerate(record.classes):
        if nut.pairs_with:
            yield ("classes", index, "pairs_with"), nut.pairs_with, read_class


@_named.register(ReuseRule)
def _(rule: ReuseRule, case: ContributedCase) -> Iterator[Named]:
    tables = partial(case.library.one, "prevailing", DragTable)
    for index, check in enumerate(rule.checks):
        if check.table:
            yield ("checks", index, "table"), check.table, tables
    for index, name in enumerate(rule.classes):
        yield ("classes", index), name, read_class


@_named.register(Preference)
def _(record: Preference, case: ContributedCase) -> Iterator[Named]:
    for index, title in enumerate(record.prefer):
        yield ("prefer", index), title, partial(_title, case)


def _title(case: ContributedCase, title: str) -> None:
    """Refuse a title that no rule of reuse has as its source."""
    titles = [held.record.source.title for held in case.library.all("reuse", ReuseRule)]
    if title not in titles:
        raise NotUnderstood(title, "no reuse rule has a source of this title", near(title, titles))


@rule(
    "record-again",
    Severity.STOP,
    source="common practice",
    fires='# joints/brigade/flywheel-2.yaml\nname: "flywheel to crankshaft"',
    passes='# joints/brigade/flywheel-2.yaml\nname: "flywheel to crankshaft, pump"',
    about=("record",),
)
def record_again(case: ContributedCase) -> Iterator[Remark]:
    """Is the record, or what it names, the only one of its name in its folder of records?

    Why
    ---
    Of two records of one name one is never found, and nobody knows which.

    Mend
    ----
    Mend the record that is there, or give this one a name that tells the two apart.

    Known gaps
    ----------
    The same title is asked about; the same facts under another name and title are not seen.
    A user's record of a name that is ours covers ours, and is let pass.
    """
    for name, file in case.register.again(case.record, case.lies.id):
        here = file == case.lies.id
        yield Remark(
            f"{name.said} stands {'twice in this file' if here else f'in {file} already'}",
            place=case.at(*name.path),
            instead="one of the two" if here else f"a change to {file}, or another {name.path[-1]}",
            severity=None if name.unique else Severity.ASK,
        )


FAMILY = (reference_dead, record_again)
