"""Family `writing`: whether a contributed file can be read, and says the same to every reader.

The strict reader says what is wrong, each fault under the slug of one of these rules.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.engine import rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.contributed import FileCase
    from torquebook.rules.engine import Remark

YAML = "YAML 1.2.2"
SCHEMA = "the schema of its kind"


@rule(
    "text-unreadable",
    Severity.STOP,
    source=f"{YAML}, section 5.1",
    fires='note: "a bell \u0007"',
    passes='note: "a bell"',
    about=("file",),
)
def text_unreadable(case: FileCase) -> Iterator[Remark]:
    """Is the file plain text in UTF-8 that can be opened?

    Why
    ---
    What one program shows and another does not cannot be reviewed.

    Mend
    ----
    Save it as UTF-8, without control characters, as a file of its own below 8 MiB.

    Known gaps
    ----------
    Only the first such place of a file is named.
    """
    yield from case.said("text-unreadable")


@rule(
    "tab-typed",
    Severity.STOP,
    source=f"{YAML}, section 6.1: indentation is spaces only",
    fires="fastener:\n\tthread: M8",
    passes='fastener:\n  thread: "M8"',
    about=("file",),
)
def tab_typed(case: FileCase) -> Iterator[Remark]:
    """Is the file free of tabs?

    Why
    ---
    A tab looks like spaces and is none: what belongs to what is then a guess.

    Mend
    ----
    Write spaces, two for each level; set your editor to do so.

    Known gaps
    ----------
    Tabs inside quotes are refused too; there the two signs backslash and t stand for one.
    """
    yield from case.said("tab-typed")


@rule(
    "yaml-broken",
    Severity.STOP,
    source=YAML,
    fires='fastener: {thread: "M8"',
    passes='fastener: {thread: "M8"}',
    about=("file",),
)
def yaml_broken(case: FileCase) -> Iterator[Remark]:
    """Does the file follow the grammar of YAML?

    Why
    ---
    Nothing behind the first break can be read.

    Mend
    ----
    Look at the place named, and at the line above it: a quote, a bracket or a comma is missing,
    or keys of one mapping are not indented alike.

    Known gaps
    ----------
    The parser notices a bracket that is never closed only further down.
    """
    yield from case.said("yaml-broken")


@rule(
    "yaml-unplain",
    Severity.STOP,
    source="common practice",
    fires='name: &me "example"\nnote: *me',
    passes='name: "example"\nnote: "example"',
    about=("file",),
)
def yaml_unplain(case: FileCase) -> Iterator[Remark]:
    """Does the file keep to the plain part of YAML that the book uses?

    Why
    ---
    Anchors, aliases, tags, directives and second documents make one text mean more than is
    seen where it stands; a few lines of them can stand for gigabytes.

    Mend
    ----
    Write each value out where it belongs, one record a file.

    Known gaps
    ----------
    Only the first such place of a file is named.
    """
    yield from case.said("yaml-unplain")


@rule(
    "key-twice",
    Severity.STOP,
    source=f"{YAML}, section 3.2.1.3: keys of a mapping are unique",
    fires='fastener: {thread: "M8", thread: "M10"}',
    passes='fastener: {thread: "M8"}',
    about=("file",),
)
def key_twice(case: FileCase) -> Iterator[Remark]:
    """Does every key stand once in its mapping?

    Why
    ---
    Most programs take the last one in silence; whoever reads the first believes another number.

    Mend
    ----
    Keep the one that the source prints.

    Known gaps
    ----------
    None.
    """
    yield from case.said("key-twice")


@rule(
    "number-unusable",
    Severity.STOP,
    source="common practice",
    fires="engagement_mm: 1e400",
    passes="engagement_mm: 14",
    about=("file",),
)
def number_unusable(case: FileCase) -> Iterator[Remark]:
    """Is every number one to reckon with?

    Why
    ---
    What is not finite, or overflows, makes every comparison with it false or true at random.

    Mend
    ----
    Write a plain decimal number.

    Known gaps
    ----------
    Words such as nan without the point before them are text, and refused where a number belongs.
    """
    yield from case.said("number-unusable")


@rule(
    "number-for-text",
    Severity.STOP,
    source=f"{YAML}, section 10.3: plain 10.10 is the number 10.1",
    fires='fastener: {thread: "M8", strength_class: 8.8}',
    passes='fastener: {thread: "M8", strength_class: "8.8"}',
    about=("file",),
)
def number_for_text(case: FileCase) -> Iterator[Remark]:
    """Do classes, sizes, editions and pages stand in quotes?

    Why
    ---
    Without them 8.8 is a number, 10.90 becomes 10.9 and 1:30 or 012 something else again.

    Mend
    ----
    Put it in quotes, as it is printed; admit --fix does it.

    Known gaps
    ----------
    None.
    """
    yield from case.said("number-for-text")


@rule(
    "text-for-number",
    Severity.STOP,
    source=SCHEMA,
    fires='engagement_mm: "14"',
    passes="engagement_mm: 14",
    about=("file",),
)
def text_for_number(case: FileCase) -> Iterator[Remark]:
    """Are numbers written as numbers, without quotes, unit or comma?

    Why
    ---
    The unit is in the key; a number with a word in it is read by nobody twice the same.

    Mend
    ----
    Write digits and a point, in the unit that the key ends in.

    Known gaps
    ----------
    None.
    """
    yield from case.said("text-for-number")


FAMILY = (
    text_unreadable,
    tab_typed,
    yaml_broken,
    yaml_unplain,
    key_twice,
    number_unusable,
    number_for_text,
    text_for_number,
)
