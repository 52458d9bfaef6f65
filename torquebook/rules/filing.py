"""Family `filing`: whether a contributed record lies where it belongs, once, in good order."""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

from torquebook.catalogue.faults import shown
from torquebook.catalogue.tidy import (
    BLANK,
    SHELVES,
    SOURCE_ORDER,
    editor_line,
    first_astray,
    key_order,
    sorted_list,
)
from torquebook.findings import Severity
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.contributed import ContributedCase, FileCase

ID = re.compile(r"[a-z0-9]+(?:[.-][a-z0-9]+)*(?:/[a-z0-9]+(?:[.-][a-z0-9]+)*)*")
ENDING = ".yaml"
# Scripts with letters that look alike.
_ALIKE = frozenset({"LATIN", "CYRILLIC", "GREEK", "ARMENIAN"})
SCHEMA_LINE = re.compile(r"# yaml-language-server: \$schema=(\S+)")


@rule(
    "shelf-wrong",
    Severity.ASK,
    source="common practice",
    fires="# jobs/brigade/example.yaml\nkind: joint",
    passes="# joints/brigade/example.yaml\nkind: joint",
    about=("record",),
)
def shelf_wrong(case: ContributedCase) -> Iterator[Remark]:
    """Does the record lie in the folder of its kind?

    Why
    ---
    Joints, jobs and reuse rules are looked for in their folders only.

    Mend
    ----
    Move the file into the folder that the message names.

    Known gaps
    ----------
    A preference may lie anywhere.
    """
    wanted = SHELVES.get(case.record.kind)
    if wanted and case.lies.shelf != wanted:
        stem = case.lies.id.partition("/")[2] or case.lies.id
        here = f"in {case.lies.shelf}/" if case.lies.shelf else "in no folder of a kind"
        yield Remark(
            f'the kind "{case.record.kind}" lies in {wanted}/, and this file {here}',
            place=case.at("kind"),
            instead=f"{wanted}/{stem}{ENDING}",
        )


@rule(
    "id-unfit",
    Severity.ASK,
    source="common practice",
    fires='# joints/brigade/My_Cover.yaml\nname: "my cover"',
    passes='# joints/brigade/my-cover.yaml\nname: "my cover"',
    about=("record",),
)
def id_unfit(case: ContributedCase) -> Iterator[Remark]:
    """Can the file's path be typed as the record's id?

    Why
    ---
    The path is the id; one with spaces, capitals or an odd ending is found on one system and
    not on another.

    Mend
    ----
    Small letters of a to z, digits, hyphens and points; the ending .yaml.

    Known gaps
    ----------
    Folders above the folder of records are not looked at.
    """
    path = case.held.path
    if path.suffix == ENDING and ID.fullmatch(case.lies.id):
        return
    fit = "/".join(
        "-".join(re.findall(r"[a-z0-9.]+", part.casefold().strip("."))) or "record"
        for part in case.lies.id.split("/")
    )
    if path.suffix == ENDING:
        what = f"{case.lies.id!a} holds more than small letters, digits, hyphens and points"
    else:
        what = f"{path.name!a} does not end in {ENDING}"
    yield Remark(what, instead=f"{fit}{ENDING}")


@rule(
    "editor-line",
    Severity.ASK,
    source="common practice",
    fires="# joints/brigade/example.yaml\n# the cover of the pump\ncount: 4",
    passes="# joints/brigade/example.yaml\n"
    "# yaml-language-server: $schema=../../../schema/joint.json\ncount: 4",
    about=("record",),
)
def editor_line_absent(case: ContributedCase) -> Iterator[Remark]:
    """Does the first line lead editors to the schema of the kind?

    Why
    ---
    With it an editor shows faults while the record is typed, and offers keys and words.

    Mend
    ----
    Write the line that the message shows as the first one.

    Known gaps
    ----------
    Whether the path leads to a file is not looked at: a user's folder may keep schemas elsewhere.
    """
    wanted = editor_line(case.record.kind, case.lies.id.count("/") + 1)
    first = case.text.partition("\n")[0].strip()
    found = SCHEMA_LINE.fullmatch(first)
    if found is None or found[1].rpartition("/")[2] != wanted.rpartition("/")[2]:
        yield Remark("the first line names no schema of this kind", instead=wanted)


@rule(
    "keys-astray",
    Severity.ASK,
    source="common practice",
    fires='source: {title: "x", kind: invented, provenance: "invented"}',
    passes='source: {kind: invented, title: "x", provenance: "invented"}',
    about=("record",),
)
def keys_astray(case: ContributedCase) -> Iterator[Remark]:
    """Do the keys stand in the order of their kind: kind, title, the facts, source?

    Why
    ---
    Two records of one kind are compared by eye, line beside line.

    Mend
    ----
    admit --fix moves the keys, each with the comment above it.

    Known gaps
    ----------
    Only the keys at the top and those of source are looked at.
    """
    for above, order in (((), key_order(case.record.kind)), (("source",), SOURCE_ORDER)):
        keys = case.data["source"] if above else case.data
        astray = first_astray(keys, order)
        if astray:
            key, before = astray
            message = f"{key} stands behind {before}"
            yield Remark(message, place=case.key(*above, key), instead=f"{key} before {before}")


@rule(
    "list-unsorted",
    Severity.ASK,
    source="common practice",
    fires="kind: holes\nholes: [{d_mm: 800, fine_mm: 801, medium_mm: 802, coarse_mm: 803}, "
    "{d_mm: 600, fine_mm: 601, medium_mm: 602, coarse_mm: 603}]",
    passes="kind: holes\nholes: [{d_mm: 600, fine_mm: 601, medium_mm: 602, coarse_mm: 603}, "
    "{d_mm: 800, fine_mm: 801, medium_mm: 802, coarse_mm: 803}]",
    about=("record",),
)
def list_unsorted(case: ContributedCase) -> Iterator[Remark]:
    """Do threads, sizes, holes and drills stand in the order of their diameters?

    Why
    ---
    In a sorted list a size that is missing or stands twice is seen.

    Mend
    ----
    admit --fix moves the entries, each with the comment above it.

    Known gaps
    ----------
    Printed tables stand as printed and are not sorted. Only the first entry astray is named.
    """
    key, right = sorted_list(case.record.kind, case.data)
    for place, index in enumerate(right):
        if place != index:
            before = right[place - 1] if place else None
            entry = case.data[key][index]
            name = _entry(entry)
            where = f"after {_entry(case.data[key][before])}" if before is not None else "first"
            yield Remark(
                f"{name} is out of order", place=case.at(key, index), instead=f"{name} {where}"
            )
            return


def _entry(entry: dict[str, object]) -> str:
    """Return what an entry of a sorted list is called."""
    return f"{entry['size']}" if "size" in entry else f"{entry['d_mm']} mm"


@rule(
    "letters-mixed",
    Severity.ASK,
    source="common practice",
    fires='name: "flуwheel"',
    passes='name: "flywheel, µ 0.12"',
    about=("record",),
)
def letters_mixed(case: ContributedCase) -> Iterator[Remark]:
    """Is every word of name, title and other names written in the letters of one script?

    Why
    ---
    A letter of another script that looks alike makes two records of what reads as one name.

    Mend
    ----
    Type the word anew.

    Known gaps
    ----------
    Whole words in another script pass.
    """
    for path, value in case.texts():
        if value.isascii() or path[0] not in {"name", "title", "aliases", "doubtful"}:
            continue
        for word in re.findall(r"[^\W\d_]{2,}", value):
            scripts = {unicodedata.name(letter, "?").split(" ")[0] for letter in word}
            if len(scripts & _ALIKE) > 1:
                said = " and ".join(sorted(script.capitalize() for script in scripts & _ALIKE))
                yield Remark(
                    f'"{word}" holds {said} letters',
                    place=case.at(*path),
                    instead="the word in one script",
                )


@rule(
    "semicolon-typed",
    Severity.ASK,
    source="common practice",
    fires='title: "Cover; of the pump"',
    passes='title: "Cover of the pump, with its seal"',
    about=("record",),
)
def semicolon_typed(case: ContributedCase) -> Iterator[Remark]:
    """Are the title, and the source's title, edition and place, free of semicolons?

    Why
    ---
    Answers print several sources in one line, with semicolons between them: one of them with
    a semicolon in it reads as two.

    Mend
    ----
    Write a comma; what is longer goes to conditions, provenance or a comment.

    Known gaps
    ----------
    None.
    """
    printed = ((), ("title",)), (("source",), ("title", "edition", "where"))
    for above, keys in printed:
        held = case.data["source"] if above else case.data
        for key in keys:
            if ";" in str(held.get(key, "")):
                place = case.at(*above, key)
                yield Remark(f"a semicolon in {key}", place=place, instead="a comma")


@rule(
    "blank-unfilled",
    Severity.STOP,
    source="common practice",
    fires=f'name: "{BLANK}: what the joint is called"',
    passes='name: "cover"',
    about=("record", "file"),
)
def blank_unfilled(case: ContributedCase | FileCase) -> Iterator[Remark]:
    """Is every blank of the template filled in?

    Why
    ---
    What a template leaves open is no fact.

    Mend
    ----
    Write what the source prints, or take the key out where it need not be there.

    Known gaps
    ----------
    Blanks are known by the words that admit --new writes.
    """
    for path, value in case.texts():
        if BLANK in value:
            yield Remark(
                f"{shown(value)} is a blank of the template",
                place=case.at(*path),
                instead="what the source prints, or no such key",
            )


FAMILY = (
    shelf_wrong,
    id_unfit,
    editor_line_absent,
    keys_astray,
    list_unsorted,
    letters_mixed,
    semicolon_typed,
    blank_unfilled,
)
