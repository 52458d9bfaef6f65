"""What a command line asks of the rulebook: a fastener in words, a joint, or a whole job."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from torquebook import notation
from torquebook.answers.turned import read_clamp
from torquebook.errors import NotUnderstood
from torquebook.records.job import JobRecord
from torquebook.records.joint import JointRecord
from torquebook.reuse.joints import used_of
from torquebook.reuse.judging import ruled
from torquebook.reuse.model import STRAIN, Measured, Used
from torquebook.reuse.reading import read_fastener
from torquebook.reuse.yielding import strained

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Held, Library
    from torquebook.records.reuse import Feature, History
    from torquebook.reuse.model import ReuseAnswer

JOINTS, JOBS = "joints", "jobs"


@dataclass(frozen=True)
class Tightened:
    """How a fastener was tightened, as a command line says it; empty where it does not."""

    tighten: str = ""
    clamp_length: str = ""
    friction: str = ""


@dataclass(frozen=True)
class Asked:
    """One answer with the name that it was asked by.

    Parameters
    ----------
    name : str
        The words of the command line, or the joint's name.
    count : int
    answer : ReuseAnswer
    limits_source : str
        Where a joint's limits are from; empty where it has none, or others were typed.
    """

    name: str
    count: int
    answer: ReuseAnswer
    limits_source: str = ""


@dataclass(frozen=True)
class Answered:
    """What was asked: a job's name where it was a job, and one answer or more."""

    job: str
    asked: tuple[Asked, ...]


def with_measured(used: Used, told: Measured) -> Used:
    """Return a fastener with what was measured laid over what its record says."""
    given = {name: value for name, value in vars(told).items() if value}
    given |= {"uses": told.uses} if told.uses is not None else {}
    given |= {"drag_nm": told.drag_nm} if told.drag_nm is not None else {}
    return replace(used, measured=replace(used.measured, **given))


def used_in_words(
    text: str, history: frozenset[History], measured: Measured, how: Tightened, book: Book
) -> Used:
    """Return a fastener from its words, and from how it was tightened.

    Raises
    ------
    NotUnderstood
        If a word is not known; or the tightening is told of a fastener without thread or class,
        or of one whose stretch was told too.
    """
    said = read_fastener(text, book)
    features, history = said.features, said.history | history
    used = Used(said.thread, said.strength_class, features, history, measured)
    if not how.tighten:
        return used
    if used.thread is None or not used.strength_class:
        what = "whether it went past yield needs its thread and class"
        raise NotUnderstood(text, what, ("M10x1.25 10.9",))
    if told := history & STRAIN:
        what = f'its stretch was told ("{min(told)}") and is to be computed; give one of them'
        raise NotUnderstood(text, what)
    length = how.clamp_length
    clamp = read_clamp(length, used.thread.pitch_mm) if length else None
    found = strained(book, used.thread.size, used.strength_class, how.tighten, clamp, how.friction)
    turned: frozenset[Feature] = frozenset()
    if any(isinstance(stage, notation.Angle) for stage in notation.read(how.tighten)):
        turned = frozenset({"angle tightened"})
    return replace(
        used,
        features=features | turned,
        history=history | {found.history},
        notes=(found.said,),
        computed=True,
    )


def of_joint(
    held: Held[JointRecord],
    library: Library,
    book: Book,
    prefer: Sequence[str] = (),
    told: Measured | None = None,
    history: frozenset[History] = frozenset(),
) -> Asked:
    """Return the answer for a joint's fasteners, with what was measured on them."""
    used = used_of(held, book)
    used = with_measured(replace(used, history=used.history | history), told or Measured())
    limits = held.record.reuse
    answer = ruled(used, library, prefer)
    source = limits.source if limits and (told is None or not told.has_limits) else ""
    return Asked(held.record.name, held.record.count, answer, source)


def of_job(text: str, library: Library, book: Book, prefer: Sequence[str] = ()) -> Answered:
    """Return the answers for all joints of a job, in working order.

    Raises
    ------
    NotUnderstood
        If there is no such job, or no such joint in it.
    Unreadable
        If a record has a fault.
    """
    job = library.one(JOBS, JobRecord, text).record
    ids = dict.fromkeys(step.joint for step in job.steps if step.joint)
    joints = [library.named(JOINTS, JointRecord, name) for name in ids]
    return Answered(job.name, tuple(of_joint(held, library, book, prefer) for held in joints))
