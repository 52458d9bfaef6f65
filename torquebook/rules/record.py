"""Family `record`: whether a record says one thing only, and lies where it belongs."""

from __future__ import annotations

import re
from difflib import get_close_matches
from typing import TYPE_CHECKING

from torquebook.catalogue.lookup import plain
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.rules.again import asks_retorque
from torquebook.rules.basis import say
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.contributed import ContributedCase
    from torquebook.rules.basis.records import JobCase, JointCase

# Words in the path of a record that is invented.
INVENTED = frozenset({"brigade", "demo", "example", "examples", "invented"})
ALIKE = 0.8  # of two words, by difflib: "cover" and "covers" are, "upper" and "lower" are not
# What a second tightening breaks, by the words that a record has for it.
LEFT_ALONE = {
    "stretch": "a stretch bolt",
    "adhesive patch": "an adhesive patch",
    "threadlocker": "a locked thread",
}


@rule(
    "layer-unknown",
    Severity.ASK,
    source="the materials of the book",
    fires="stack: [{material: steel, thickness_mm: 8}, {material: cast irn, thickness_mm: 5}]",
    passes="stack: [{material: steel, thickness_mm: 8}, {material: cast iron, thickness_mm: 5}]",
    about=("joint",),
)
def layer_unknown(case: JointCase) -> Iterator[Remark]:
    """Does the book know the material of every clamped part?

    Why
    ---
    What is not known cannot be judged for what it bears or how it gives.

    Mend
    ----
    Write one of the names that the message offers, or keep a record of your own.

    Known gaps
    ----------
    The part under the head is judged by word-unknown, as in a plan.
    """
    for index, layer in enumerate(case.record.stack[1:], 1):
        try:
            case.book.material(layer.material)
        except NotUnderstood as trouble:
            place = case.at("stack", index, "material")
            yield Remark(str(trouble), place=place, instead=say.nearest(trouble))


@rule(
    "recheck-disturbs",
    Severity.ASK,
    source="common practice",
    fires='friction: "threadlocker"\nrechecks: [{what: "retorque", after: "50 km"}]',
    passes='friction: "threadlocker"\nrechecks: [{what: "look at the mark", after: "50 km"}]',
    about=("joint",),
)
def recheck_disturbs(case: JointCase) -> Iterator[Remark]:
    """Is a joint to be tightened again later that must be left alone?

    Why
    ---
    A stretch bolt is used up by every further turn, and a locked thread is broken loose.

    Mend
    ----
    Mark it, and look whether the mark has moved.

    Known gaps
    ----------
    Reads retorque, retighten, tighten again or once more, check torque after.
    """
    bolt = case.record.fastener
    said = {*bolt.features, bolt.kind or "", plain(case.record.friction or "")}
    alone = [what for word, what in LEFT_ALONE.items() if word in said]
    for index, check in enumerate(case.record.rechecks):
        if alone and asks_retorque(f"{check.what} after {check.after}"):
            yield Remark(
                f"{alone[0]} is not tightened again",
                place=case.at("rechecks", index, "what"),
                instead="mark it, and look",
            )


@rule(
    "renewed-yet-counted",
    Severity.ASK,
    source="common practice",
    fires='reuse: {always_new: true, uses_allowed: 3, source: "an example"}',
    passes='reuse: {uses_allowed: 3, source: "an example"}',
    about=("joint",),
)
def renewed_yet_counted(case: JointCase) -> Iterator[Remark]:
    """Are bolts that are always renewed given a count of uses or a limit too?

    Why
    ---
    One of the two is from another sheet; whoever reads the count puts old bolts in.

    Mend
    ----
    Keep what the maker says, and take the other out.

    Known gaps
    ----------
    None.
    """
    limits = case.record.reuse
    if limits is None or not limits.always_new:
        return
    for key, value in (
        ("uses_allowed", limits.uses_allowed),
        ("length_limit_mm", limits.length_limit_mm),
    ):
        if value is not None:
            yield Remark(
                f"always new, and {key.replace('_', ' ')} {value:g}", place=case.at("reuse", key)
            )


@rule(
    "record-misfiled",
    Severity.ASK,
    source="common practice",
    fires='# example/axle-cover.yaml\nname: "flywheel"\ntitle: "Flywheel to crankshaft"',
    passes='# example/flywheel.yaml\nname: "flywheel"\ntitle: "Flywheel to crankshaft"',
    about=("joint", "job"),
)
def record_misfiled(case: JointCase | JobCase) -> Iterator[Remark]:
    """Does the file's name say what the record is?

    Why
    ---
    A record is asked for by its path; one that was copied and not renamed answers for
    another joint.

    Mend
    ----
    Name the file by words of the record's name or title, hyphens between them.

    Known gaps
    ----------
    A file that is called by fewer words than the record has is let pass; one that has some of
    its words is only noted.
    """
    said = set(re.findall(r"\w+", f"{case.held.record.name} {case.held.record.title}".casefold()))
    stem = re.findall(r"\w+", case.held.path.stem.casefold())
    strange = [
        word for word in stem if word not in said and not get_close_matches(word, said, 1, ALIKE)
    ]
    if strange:
        name = "-".join(re.findall(r"[a-z0-9.]+", case.joint.casefold()))
        yield Remark(
            f'the file is called {case.held.path.name}, the record "{case.joint}"',
            place=case.at("name"),
            instead=f"{name}.yaml",
            severity=Severity.ASK if strange == stem else Severity.NOTE,
        )


@rule(
    "fiction-unmarked",
    Severity.ASK,
    source="common practice",
    fires="# joints/cover.yaml\nsource: {kind: invented, title: x, provenance: invented}",
    passes="# invented/example.yaml\nsource: {kind: invented, title: x, provenance: invented}",
    about=("joint", "job", "record"),
)
def fiction_unmarked(case: JointCase | JobCase | ContributedCase) -> Iterator[Remark]:
    """Does the path of an invented record say that it is?

    Why
    ---
    Invented figures beside real ones are taken for real ones by whoever finds them there.

    Mend
    ----
    Keep it in a folder called example or invented; or write where its facts come from.

    Known gaps
    ----------
    The folder of the demo, brigade, counts as said.
    """
    path = case.filed.casefold()
    invented = case.held.record.source.kind == "invented"
    if invented and not INVENTED & set(re.findall(r"[^\W_]+", path)):
        place = case.at("source", "kind")
        yield Remark(
            "an invented record, and its path does not say so",
            place=place,
            instead="a folder called example or invented in its path",
        )


FAMILY = (
    layer_unknown,
    recheck_disturbs,
    renewed_yet_counted,
    record_misfiled,
    fiction_unmarked,
)
