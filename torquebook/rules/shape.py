"""Family `shape`: whether a contributed record holds what its kind may hold.

Its model says what is wrong, each fault under the slug of one of these rules.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.engine import rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.contributed import FileCase
    from torquebook.rules.engine import Remark

SCHEMA = "the schema of its kind"


@rule(
    "kind-unknown",
    Severity.STOP,
    source=SCHEMA,
    fires="kind: joints",
    passes="kind: joint",
    about=("file",),
)
def kind_unknown(case: FileCase) -> Iterator[Remark]:
    """Is the record of a kind that the book has?

    Why
    ---
    Its kind says which keys it must hold; without one nothing else can be looked at.

    Mend
    ----
    Write one of the kinds that the message offers.

    Known gaps
    ----------
    None.
    """
    yield from case.said("kind-unknown")


@rule(
    "key-unknown",
    Severity.STOP,
    source=SCHEMA,
    fires="engagment_mm: 14",
    passes="engagement_mm: 14",
    about=("file",),
)
def key_unknown(case: FileCase) -> Iterator[Remark]:
    """Is every key one that its kind of record has?

    Why
    ---
    A misspelt key is a fact that nobody reads.

    Mend
    ----
    Write the key that the message offers, or put the fact into a comment or the note.

    Known gaps
    ----------
    The keys offered may belong to another part of the record.
    """
    yield from case.said("key-unknown")


@rule(
    "key-missing",
    Severity.STOP,
    source=SCHEMA,
    fires="layout: {circle: {start_deg: 0}}",
    passes="layout: {circle: {diameter_mm: 90}}",
    about=("file",),
)
def key_missing(case: FileCase) -> Iterator[Remark]:
    """Does the record state all that its kind must state?

    Why
    ---
    Without it the record answers no question, or answers it by a guess.

    Mend
    ----
    Write the key with its value. What the source does not print is not to be made up.

    Known gaps
    ----------
    A key that is missing because it is misspelt is reported as the misspelt one.
    """
    yield from case.said("key-missing")


@rule(
    "value-empty",
    Severity.STOP,
    source=SCHEMA,
    fires="note:",
    passes='note: "oil the threads"',
    about=("file",),
)
def value_empty(case: FileCase) -> Iterator[Remark]:
    """Does every key have a value?

    Why
    ---
    An empty value may mean none, unknown or forgotten.

    Mend
    ----
    Write the value, or take the key out.

    Known gaps
    ----------
    None.
    """
    yield from case.said("value-empty")


@rule(
    "value-unlisted",
    Severity.STOP,
    source=SCHEMA,
    fires='fastener: {thread: "M8", features: [strecht]}',
    passes='fastener: {thread: "M8", features: [stretch]}',
    about=("file",),
)
def value_unlisted(case: FileCase) -> Iterator[Remark]:
    """Is every word of a fixed list one of that list?

    Why
    ---
    Rules look for the words of the list; another word is seen by none of them.

    Mend
    ----
    Write one of the words that the message offers.

    Known gaps
    ----------
    None.
    """
    yield from case.said("value-unlisted")


@rule(
    "value-outside",
    Severity.STOP,
    source=SCHEMA,
    fires="count: 0",
    passes="count: 4",
    about=("file",),
)
def value_outside(case: FileCase) -> Iterator[Remark]:
    """Does every number and list keep within the limits of its key?

    Why
    ---
    No joint has no bolts, and no friction is 14; such a value is a slip of the keyboard or of
    the unit.

    Mend
    ----
    Write it as printed, in the unit of the key; shares as 0.04, not as 4.

    Known gaps
    ----------
    The limits are wide: what is merely unlikely is for other rules.
    """
    yield from case.said("value-outside")


@rule(
    "shape-wrong",
    Severity.STOP,
    source=SCHEMA,
    fires='conditions: "dry blind holes"',
    passes='conditions: ["dry blind holes"]',
    about=("file",),
)
def shape_wrong(case: FileCase) -> Iterator[Remark]:
    """Do lists stand where lists belong, keys where keys belong, and single values elsewhere?

    Why
    ---
    A record is read by its shape; whatever stands in the wrong one is not found.

    Mend
    ----
    Write it as the schema of the kind shows: torquebook schema KIND.

    Known gaps
    ----------
    None.
    """
    yield from case.said("shape-wrong")


@rule(
    "facts-disagree",
    Severity.STOP,
    source="common practice",
    fires='reuse: {length_new_mm: 32.3, length_limit_mm: 32, source: "an example"}',
    passes='reuse: {length_new_mm: 32, length_limit_mm: 32.3, source: "an example"}',
    about=("file",),
)
def facts_disagree(case: FileCase) -> Iterator[Remark]:
    """Do the facts of the record agree with each other?

    Why
    ---
    A least value above the largest, a size that its diameter contradicts, an order that leaves a
    position out: one of the two is misread.

    Mend
    ----
    Look at the source again, and write what it prints.

    Known gaps
    ----------
    Which of the two is wrong cannot be told from the record.
    """
    yield from case.said("facts-disagree")


FAMILY = (
    kind_unknown,
    key_unknown,
    key_missing,
    value_empty,
    value_unlisted,
    value_outside,
    shape_wrong,
    facts_disagree,
)
