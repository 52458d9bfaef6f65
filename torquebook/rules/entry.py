"""Family `entry`: what was typed cannot be read, or says two things."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from torquebook import units
from torquebook.findings import Severity
from torquebook.notation import Torque
from torquebook.plans.model import COLUMNS
from torquebook.rules.basis import say
from torquebook.rules.basis.kinds import REASONS, STRETCH
from torquebook.rules.engine import Remark, rule

ALIKE = 0.7  # of two words, by difflib: "tread" and "thread" are, "shelf" and "thread" are not
# Columns that a line may leave empty, and then says less but nothing wrong. The class is none
# of them: the bolt has one, and its head says which.
MAY_BE_EMPTY = frozenset({"friction", "head", "nut", "into", "under"})
OR_EMPTY = ", or leave it out"

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.plans.model import Problem
    from torquebook.rules.basis.case import Case


def _says_no_unit(problem: Problem) -> bool:
    return problem.column == "tighten" and bool(problem.readings)


@rule(
    "unit-unsaid",
    Severity.ASK,
    source="NIST SP 811, 2008 edition, table B.8: 1 lbf·ft is 1.36 N·m, 1 lbf·in is 0.113 N·m",
    fires="M8 8.8 tighten=25",
    passes="M8 8.8 25 N.m",
)
def unit_unsaid(case: Case) -> Iterator[Remark]:
    """Does every torque and angle carry its unit?

    Why
    ---
    A number read in another unit is wrong by 1.36, 8.85, 9.81 or 12 times: the first
    strips a thread in aluminium, the others break the bolt or leave it loose.

    Mend
    ----
    Write the unit of the sheet that the number comes from, in the tighten cell.

    Known gaps
    ----------
    None.
    """
    for problem in case.line.problems:
        if _says_no_unit(problem):
            yield Remark(problem.message, problem.column)


@rule(
    "cell-unread",
    Severity.ASK,
    source="common practice",
    fires="M8 8.8 25 N.m count=six",
    passes="M8 8.8 25 N.m count=6",
)
def cell_unread(case: Case) -> Iterator[Remark]:
    """Can every cell be read?

    Why
    ---
    What cannot be read cannot be checked, and silence would look like a pass.

    Mend
    ----
    Write the value as the message says.

    Known gaps
    ----------
    A note or a source is free text and is never read.
    """
    for problem in case.line.problems:
        if not _says_no_unit(problem):
            yield Remark(problem.message, problem.column)
    trouble = case.fastener.troubles.get("thread")
    if trouble is None and not case.line.stages and not case.line.problems:
        yield Remark("nothing stands in tighten; write a torque with its unit, or take the row out")


@rule(
    "word-unknown",
    Severity.ASK,
    source="ISO 898-1, ISO 3506-1 and SAE J429 for classes; the book's own lists for the rest",
    fires="M8 8.8 25 N.m friction=oild",
    passes="M8 8.8 25 N.m friction=oiled",
)
def word_unknown(case: Case) -> Iterator[Remark]:
    """Does the book know every class, friction, head, nut, material and wrench?

    Why
    ---
    A word that is not known is left out of the calculation, so the answer would be
    about another fastener than the one on the bench.

    Mend
    ----
    Write one of the names that the message offers, or keep a record of your own. Where
    neither fits, an empty cell is right: what it is about is then assumed or not judged,
    and the answer says so.

    Known gaps
    ----------
    A thread has a rule of its own, size-unlisted.
    """
    for column, trouble in case.fastener.troubles.items():
        if column != "thread":
            empty = OR_EMPTY if column in MAY_BE_EMPTY else ""
            yield Remark(f"{trouble}{empty}", column, instead=say.nearest(trouble))
    if case.wrench.trouble is not None:
        trouble = case.wrench.trouble
        yield Remark(f"{trouble}{OR_EMPTY}", "wrench", instead=say.nearest(trouble))
    if case.order_trouble is not None:
        trouble = case.order_trouble
        said = f"{trouble}, or the positions, such as 1-3-2-4{OR_EMPTY}"
        yield Remark(said, "order", instead=say.nearest(trouble))
    if case.kind and case.kind not in REASONS:
        names = ", ".join(sorted({"bolt", STRETCH, *REASONS}))
        yield Remark(f'"{case.kind}" is no kind of line; write one of {names}', "kind")


@rule(
    "column-unknown",
    Severity.ASK,
    source="common practice",
    fires="joint,tread,class,tighten\nhub,M8,8.8,20 N.m\n",
    passes="joint,thread,class,tighten,shelf\nhub,M8,8.8,20 N.m,B4\n",
)
def column_unknown(case: Case) -> Iterator[Remark]:
    """Is a column's name one that is known, but for a slip?

    Why
    ---
    A column whose name is mistyped is kept but not judged, and the list would look clean.

    Mend
    ----
    Rename the column.

    Known gaps
    ----------
    Names in other languages are not known; the answer lists all columns that were not judged.
    """
    if case.peers.cases[0] is not case:
        return
    for name in case.peers.unknown_columns:
        free = [column for column in COLUMNS if not case.peers.uses(column)]
        alike = get_close_matches(name.casefold(), free, 1, ALIKE)
        if alike:
            place = case.line.extra[name].place if name in case.line.extra else case.line.place
            yield Remark(
                f'the column "{name}" is not known, so nothing in it was judged; '
                f"{alike[0]} is, and the list has none",
                instead=alike[0],
                place=place,
            )


@rule(
    "kind-unsaid",
    Severity.ASK,
    source="common practice",
    fires="M8x1 10 N.m joint='glow plugs'",
    passes="M8x1 10 N.m joint='glow plugs' kind=plug",
)
def kind_unsaid(case: Case) -> Iterator[Remark]:
    """Is a line that is no bolt marked as such?

    Why
    ---
    The torque of a plug, a sensor or a locking nut's drag is low on purpose and says
    nothing of a preload; judged as a bolt it would look loose, and a real bolt with
    such a name would go unjudged.

    Mend
    ----
    Say in the column kind what it is, or `bolt` if it is one.

    Known gaps
    ----------
    Only names that say it in English are seen.
    """
    if case.hinted_kind is not None:
        kind = case.hinted_kind
        yield Remark(
            f"this looks like {kind}, the column kind is empty; only judged for what would "
            f"break a bolt: {REASONS[kind]}; write {kind}, or bolt if it is one",
            "joint",
            instead=f"kind: {kind}",
        )


@rule(
    "units-disagree",
    Severity.ASK,
    source="NIST SP 811, 2008 edition, table B.8",
    fires="M12 10.9 100 lbf.ft (170 N.m)",
    passes="M12 10.9 70 lbf.ft (95 N.m)",
    needs=("torque",),
)
def units_disagree(case: Case) -> Iterator[Remark]:
    """Do two units printed for one torque agree?

    Why
    ---
    One of the two is a misprint, and nothing on the page says which.

    Mend
    ----
    Find the value in another print of the sheet; until then tighten to neither.

    Known gaps
    ----------
    Differences under 3 % pass: they are rounding. The half behind ± is not compared,
    sheets round it freely.
    """
    for stage in case.line.stages:
        if not isinstance(stage, Torque) or stage.beside is None:
            continue
        numbers, unit = stage.beside
        off = stage.disagreement
        if off > units.PAIR_TOLERANCE:
            own = ", ".join(
                units.write(units.convert(units.Quantity(number, unit), stage.unit))
                for number in numbers
            )
            beside = " to ".join(f"{number:g}" for number in numbers)
            yield Remark(
                f"{beside} {unit} is {own}, {say.percent(off)} from what stands beside it",
                numbers={"deviation": off},
                instead=f"{own}, if {unit} is right",
            )


@rule(
    "low-above-high",
    Severity.ASK,
    source="common practice",
    fires="M8 8.8 25-20 N.m",
    passes="M8 8.8 20-25 N.m",
    needs=("torque",),
)
def low_above_high(case: Case) -> Iterator[Remark]:
    """Does every range go from low to high?

    Why
    ---
    A range printed backwards has lost a digit or swapped two columns.

    Mend
    ----
    Look the range up again; do not just swap its ends.

    Known gaps
    ----------
    None.
    """
    for stage in case.line.stages:
        if (
            isinstance(stage, Torque)
            and stage.form == "range"
            and stage.printed[0] > stage.printed[1]
        ):
            low, high = stage.printed[1], stage.printed[0]
            yield Remark(
                f"the range goes from {high:g} down to {low:g}",
                numbers={"low": high, "high": low},
                instead=f"{low:g}-{high:g} {stage.unit}, if the ends are swapped",
            )


FAMILY = (
    unit_unsaid,
    cell_unread,
    word_unknown,
    column_unknown,
    kind_unsaid,
    units_disagree,
    low_above_high,
)
