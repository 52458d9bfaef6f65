"""Work out a job: every joint judged, its stages for my unit and wrench, its orders, its reuse."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from torquebook.errors import NotUnderstood
from torquebook.jobs.model import WorkedGate, WorkedJob, WorkedJoint
from torquebook.jobs.orders import Orders, unusable
from torquebook.jobs.stages import at_hand, worked_stages
from torquebook.records.job import JobRecord
from torquebook.reuse.asking import of_joint
from torquebook.reuse.preferring import preferred
from torquebook.rules.basis.records import JobCase, JointCase
from torquebook.rules.judge_records import judged
from torquebook.units import unit_named

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Held, Library
    from torquebook.catalogue.shelves import HeadSize, Thread, Wrench
    from torquebook.records.joint import JointRecord
    from torquebook.rules.judge import LineAnswer


class Bench(NamedTuple):
    """What a joint is worked out with.

    Parameters
    ----------
    library : Library
    book : Book
    unit : str
        Plain name of the unit that torques are shown in.
    wrenches : tuple of Wrench
        Those at hand.
    prefer : tuple of str
        Sources of reuse rules that count first.
    orders : Orders
    """

    library: Library
    book: Book
    unit: str
    wrenches: tuple[Wrench, ...]
    prefer: tuple[str, ...]
    orders: Orders


def bench_of(library: Library, book: Book, unit: str, wrenches: Sequence[str] = ()) -> Bench:
    """Return what the joints of a job are worked out with.

    Raises
    ------
    NotUnderstood
        If the unit is none of torque, or there is no wrench of a name.
    """
    return Bench(
        library,
        book,
        unit_named(unit, "torque"),
        at_hand(book, wrenches),
        preferred(library, book),
        Orders(library),
    )


def work_out(
    library: Library, book: Book, text: str, wrenches: Sequence[str] = (), unit: str = ""
) -> WorkedJob:
    """Return a job with every step worked out.

    Parameters
    ----------
    library : Library
        With the same folders as the book.
    book : Book
    text : str
        The job's name, id or file.
    wrenches : sequence of str
        The ones to work with; all of the user's own if empty, or the demo's if he has none.
    unit : str
        To show torques in; the job's own if empty.

    Raises
    ------
    NotUnderstood
        If there is no such job, wrench or unit.
    Unreadable
        If a record has a fault, or names what there is not; at its place.
    """
    held = library.one("jobs", JobRecord, text)
    bench = bench_of(library, book, unit or held.record.unit, wrenches)
    case = JobCase(held, book, library)
    joints = _joints_of(case)
    verdict = judged(held, book, library)
    worked: dict[str, WorkedJoint] = {}
    for (index, joint), answer in zip(case.tightened, verdict.answers, strict=True):
        worked[joint.id] = worked_joint(bench, index + 1, joint, answer)
    for one in held.record.removal:
        joint = joints[one.joint]
        if joint.id not in worked:
            answer = judged(joint, book, library).answers[0]
            worked[joint.id] = worked_joint(bench, 0, joint, answer)
    steps = tuple(
        WorkedGate(number, step.gate)
        if step.gate is not None
        else replace(worked[joints[step.joint or ""].id], number=number)
        for number, step in enumerate(held.record.steps, 1)
    )
    removal = tuple(
        (one, found, bench.orders.loosening(found, one.order, case.at("removal", index, "order")))
        for index, one in enumerate(held.record.removal)
        for found in (worked[joints[one.joint].id],)
    )
    findings = tuple(verdict.findings)
    return WorkedJob(held, removal, steps, findings, bench.unit, bench.wrenches)


def worked_joint(
    bench: Bench, number: int, held: Held[JointRecord], answer: LineAnswer
) -> WorkedJoint:
    """Return one joint worked out.

    Parameters
    ----------
    bench : Bench
    number : int
        Its place in the working order; 0 for one that is only taken off.
    held : Held of JointRecord
    answer : LineAnswer
        What the validator says of it.

    Raises
    ------
    Unreadable
        If its thread, stages or an order cannot be read; at its place.
    """
    record, line = held.record, answer.line
    case = JointCase(held, bench.book, bench.library)
    for problem in line.problems:
        if problem.column == "tighten":
            raise unusable(
                problem.place, NotUnderstood(problem.text, problem.what, problem.readings)
            )
    try:
        thread = bench.book.thread(record.fastener.thread)
    except NotUnderstood as trouble:
        raise unusable(line.place_of("thread"), trouble) from trouble
    stages = worked_stages(
        line.stages,
        bench.unit,
        bench.wrenches,
        _named_wrench(record, bench.book),
        answer.turned.torque_nm if answer.turned else None,
    )
    spots = bench.orders.spots(record)
    passes = bench.orders.passes(case, stages, spots)
    reuse = of_joint(held, bench.library, bench.book, bench.prefer).answer
    head = _head(record, bench.book, thread)
    return WorkedJoint(number, held, thread, head, answer, stages, passes, spots, reuse)


def _joints_of(case: JobCase) -> dict[str, Held[JointRecord]]:
    """Return the joints of a job by the names that it gives them.

    Raises
    ------
    Unreadable
        At the first name that is none.
    """
    steps = [(("steps", at, "joint"), name) for at, name in case.steps]
    removal = [(("removal", at, "joint"), one.joint) for at, one in enumerate(case.record.removal)]
    found: dict[str, Held[JointRecord]] = {}
    for path, name in (*steps, *removal):
        joint = case.joints[name]
        if isinstance(joint, NotUnderstood):
            raise unusable(case.at(*path), joint)
        found[name] = joint
    return found


def _named_wrench(record: JointRecord, book: Book) -> Wrench | None:
    """Return the wrench that a joint names; None without one that the book has."""
    try:
        return book.wrench(record.wrench) if record.wrench else None
    except NotUnderstood:
        return None  # a range, or a name that the validator reports


def _head(record: JointRecord, book: Book, thread: Thread) -> HeadSize | None:
    """Return the head that a joint states; None without one that a table lists."""
    try:
        return book.head(record.fastener.head, thread) if record.fastener.head else None
    except NotUnderstood:
        return None  # the validator reports it
