"""Family `sourcing`: whether a contributed record says where its facts come from."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook.findings import Severity
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.contributed import ContributedCase

UNSAID: Final = "not stated"
#: By kind of source, what must be written of it; "not stated" may be written, but not left out.
ASKED: Final = {
    "standard": {"edition": "the edition or year", "where": "the clause or table"},
    "handbook": {"edition": "the edition or year", "where": "the table or page"},
    "manual": {"edition": "the edition or year", "where": "the table or page"},
    "maker": {"edition": "the issue or date of the sheet", "where": "the sheet or page"},
    "measured": {"where": "where and when", "conditions": "how it was measured"},
}
#: Kinds of records that rules stop by, or that are tightened by.
GATING: Final = frozenset({
    "strength classes", "nut classes", "friction", "material", "printed table", "reuse rule",
    "prevailing torques", "joint", "job",
})  # fmt: skip
#: Those of which every number must stand somewhere in print.
NUMBERED: Final = GATING - {"friction", "material", "reuse rule"}
_REMEMBERED: Final = re.compile(r"\b(?:memory|memories|remember\w*|recall(?:ed)?)\b", re.IGNORECASE)
_YEAR: Final = re.compile(r"\b(?:19|20)\d\d\b", re.ASCII)
#: What was done to an edition later, with its year: that of no other edition.
_LATER: Final = re.compile(
    r"\b(?:chang|reprint|amend|correct|corrig|reaffirm|incorporat)\w*"
    r"(?:(?!and (?:19|20)\d\d)[^;]){1,40}?\b(?:19|20)\d\d\b",
    re.ASCII | re.IGNORECASE,
)
#: A standard with its year, as "ISO 898-1:2009" or "ISO 898-1, 2009".
_DATED: Final = re.compile(r"\b([A-Z]{2,6} [A-Z]?[\d.]+(?:-\d+)*)(?::| ?\(|, )((?:19|20)\d\d)\b")


@rule(
    "source-incomplete",
    Severity.ASK,
    source="common practice",
    fires='source: {kind: manual, title: "TM 9-254", provenance: "page read"}',
    passes='source: {kind: manual, title: "TM 9-254", edition: "not stated", where: "figure 45", '
    'provenance: "page read"}',
    about=("record",),
)
def source_incomplete(case: ContributedCase) -> Iterator[Remark]:
    """Can somebody else find the very place that the facts were read at?

    Why
    ---
    A figure that cannot be looked up again can be neither checked nor mended, and standards
    change their values from one edition to the next.

    Mend
    ----
    Write edition and where. Where the source itself prints none, or the page at hand does not
    say, write "not stated": that is an answer, which a reviewer sees; leaving it out is none.

    Known gaps
    ----------
    Whether the source says what the record says is for the reviewer.
    """
    source = case.record.source
    for key, what in ASKED.get(source.kind, {}).items():
        left_out = key not in case.data["source"]
        if left_out or (key != "edition" and getattr(source, key) == UNSAID):
            yield Remark(
                f"a source of the kind {source.kind} without {what}",
                place=case.at("source", "kind" if left_out else key),
                instead=f'write {key}: with {what}, or "{UNSAID}"' if left_out else what,
                severity=Severity.ASK if left_out else Severity.NOTE,
            )


@rule(
    "editions-mixed",
    Severity.STOP,
    source="common practice",
    fires="kind: strength classes\nstandard: ISO 898-1\nedition: '2009'\nfamily: metric\n"
    "stress_unit: MPa\nlength_unit: mm\nclasses: [{name: '8.8', tensile: 800, yield: 640, "
    "proof: 580, over: 100, to: 160}]\nsource: {kind: standard, title: ISO 898-1, edition: '2013', "
    "where: table 3, provenance: page read}",
    passes="kind: strength classes\nstandard: ISO 898-1\nedition: '2013'\nfamily: metric\n"
    "stress_unit: MPa\nlength_unit: mm\nclasses: [{name: '8.8', tensile: 800, yield: 640, "
    "proof: 580, over: 100, to: 160}]\nsource: {kind: standard, title: ISO 898-1, edition: '2013', "
    "where: table 3, provenance: page read}",
    about=("record",),
)
def editions_mixed(case: ContributedCase) -> Iterator[Remark]:
    """Do all facts of the record come from one edition of its source?

    Why
    ---
    Nut loads of ISO 898-2 differ between the editions of 1980 and 1992; a table that takes a row
    from each is true of neither.

    Mend
    ----
    One record for each edition.

    Known gaps
    ----------
    Seen are the record's own edition, several years in one edition, and a year behind the same
    standard's number elsewhere in the record; comments and provenance are not looked at. The year
    behind a word such as change, reprint or corrected is taken for that of no second edition.
    """
    source = case.record.source
    own = getattr(case.record, "edition", source.edition)
    place = case.at("source", "edition")
    if own != source.edition:
        message = f'the record says edition "{own}", its source "{source.edition}"'
        yield Remark(message, place=place, instead="the edition that was read")
    years = dict.fromkeys(_YEAR.findall(source.edition))
    editions = dict.fromkeys(_YEAR.findall(_LATER.sub("", source.edition)))
    if len(editions) > 1:
        yield Remark(
            f"one edition of {len(editions)} years: {', '.join(editions)}",
            place=place,
            instead="one record for each edition",
            severity=Severity.ASK,
        )
    for path, value in case.texts() if years else ():
        for standard, year in _DATED.findall(value):
            strange = standard in source.title and year not in years
            if strange and path != ("source", "provenance"):
                yield Remark(
                    f"{standard} of {year} in a record of the edition {source.edition}",
                    place=case.at(*path),
                    instead="a record of its own for that edition",
                    severity=Severity.ASK,
                )


@rule(
    "memory-gates",
    Severity.STOP,
    source="common practice",
    fires='kind: joint\nsource: {kind: memory, title: "as I recall it", provenance: "from memory"}',
    passes='kind: joint\nsource: {kind: maker, title: "sheet 7", edition: "2020", where: "p. 2", '
    'provenance: "page read"}',
    about=("record",),
)
def memory_gates(case: ContributedCase) -> Iterator[Remark]:
    """Does everything that decides rest on more than somebody's memory?

    Why
    ---
    By classes, friction, materials, tables, rules and joints somebody tightens, or is told to
    stop; a value that is remembered wrongly is believed all the same.

    Mend
    ----
    Find a print of it. Threads, heads, holes and orders may be kept from memory if they say so:
    they only keep a real size from being called unknown.

    Known gaps
    ----------
    Known by the words memory, remember and recall. A part of a record that says "memory" of
    itself is noted, not stopped.
    """
    source = case.record.source
    if source.kind == "memory" and case.record.kind in GATING:
        yield Remark(
            f"{case.record.kind} from memory",
            place=case.at("source", "kind"),
            instead="a source in print, or no record",
        )
    if source.kind == "common practice" and case.record.kind in NUMBERED:
        yield Remark(
            f"numbers of a {case.record.kind} by common practice",
            place=case.at("source", "kind"),
            instead="the sheet or the page that prints them",
            severity=Severity.ASK,
        )
    for path, value in case.texts():
        *above, key = path
        if above == ["source"] and source.kind != "memory":
            if case.record.kind in GATING and _REMEMBERED.search(value):
                yield Remark(
                    f"{key} says memory, and kind says {source.kind}",
                    place=case.at(*path),
                    instead="a source in print, or no record",
                )
        elif key == "source" and value.casefold().startswith("memory"):
            yield Remark(
                f"{above[-1] if above else 'the record'} rests on memory",
                place=case.at(*path),
                severity=Severity.NOTE,
            )


FAMILY = (source_incomplete, editions_mixed, memory_gates)
