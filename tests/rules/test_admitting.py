"""Contributed files: one fault each in tests/admit/fires, near misses in tests/admit/passes.

``tests/admit/places.csv`` says by line and column where each fault stands: each was marked in the
text by hand and the mark counted out, so no place is copied from what the rules say.
What is said of each file: ``tests/golden/admit-fires.txt``.
"""

from __future__ import annotations

import csv
import os
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from contributed_files import ADMIT, ADMIT_TOO, FIRES, PASSES, found_in, slug_of
from jsonschema_rs import Draft202012Validator

from torquebook.catalogue.contributed import contributed
from torquebook.catalogue.places import specs_root
from torquebook.catalogue.plaintext import MAX_BYTES
from torquebook.findings import Severity
from torquebook.rules import admitting
from torquebook.rules.admitting import SchemaFault, Vetting
from torquebook.rules.registry import RULES

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.findings import Finding

GOLDEN = Path(__file__).parents[1] / "golden" / "admit-fires.txt"
with (ADMIT / "places.csv").open(encoding="utf-8", newline="") as _file:
    PLACES = {row["file"]: row for row in csv.DictReader(_file)}
JOINT = (specs_root() / "joints" / "brigade" / "starter.yaml").read_text(encoding="utf-8")


def named(path: Path) -> str:
    """Return a file's path in its folder of records, as ``places.csv`` has it."""
    return path.relative_to(ADMIT / "fires").as_posix()


def told(findings: tuple[Finding, ...]) -> list[str]:
    """Return stops and questions in words."""
    return [f"{f.rule}: {f.message}" for f in findings if f.severity <= Severity.ASK]


@pytest.mark.parametrize("path", FIRES, ids=named)
def test_a_fault_draws_one_finding_at_its_place(path: Path) -> None:
    """The rule of the file's name says it at the value's place, and else only what cannot but."""
    row, slug = PLACES[named(path)], slug_of(path)
    (found,) = (found for found in found_in(path) if found.rule == slug)
    assert [other.rule for other in found_in(path) if other is not found] == row["also"].split()
    assert found.severity <= max(Severity.ASK, RULES[slug].severity)
    assert row["rule"] == slug
    assert str(found.place) == f"{path}:{row['line']}:{row['column']}"


def test_what_is_said_is_as_reviewed(same_as_golden: Callable[[Path, str], None]) -> None:
    """Place, severity, rule, message and what would be right, a line for each file."""
    lines = []
    for path in FIRES:
        for found in found_in(path):
            place = f"{named(path)}:{found.place.line}:{found.place.column}"
            said = f"{found.severity.word} {found.rule}: {found.message}"
            lines.append(f"{place} {said} -> {found.instead or '-'}\n")
    same_as_golden(GOLDEN, "".join(lines))


def test_every_file_has_its_place_and_every_rule_its_files() -> None:
    """No place is left over, and each rule about files or records has a fault and a near miss."""
    assert set(PLACES) == {named(path) for path in FIRES}
    assert {slug_of(path) for path in FIRES} >= ADMIT_TOO
    assert {slug_of(path) for path in PASSES} >= ADMIT_TOO


@pytest.mark.parametrize("path", PASSES, ids=lambda path: path.stem)
def test_a_near_miss_draws_nothing(path: Path) -> None:
    """What is nearly the fault of the file's name draws no stop and no question of any rule."""
    assert told(found_in(path)) == []


def test_our_own_book_is_admitted(tmp_path: Path) -> None:
    """Our own records, in a folder of somebody else's, draw no stop and no question."""
    mine = tmp_path / "records"
    shutil.copytree(specs_root(), mine)
    vetting, files = Vetting(), list(contributed([str(mine)]))
    assert len(files) == len(list(specs_root().rglob("*.yaml")))
    found = {path: told(vetting.look(path)) for path in files}
    assert {path: said for path, said in found.items() if said} == {}


def _linked(file: Path) -> None:
    outside = file.parents[3] / "outside.yaml"
    outside.write_text(JOINT, encoding="utf-8")
    file.symlink_to(outside)


def _large(file: Path) -> None:
    file.write_text(f"{JOINT}# {'x' * MAX_BYTES}\n", encoding="utf-8")


@pytest.mark.parametrize(
    ("made", "what"),
    [
        (_linked, "a link out of its folder of records"),
        (_large, "larger than 8 MiB"),
        (os.mkfifo, "a device, a pipe or a folder, and no file"),
        (Path.mkdir, "a device, a pipe or a folder, and no file"),
        (lambda _file: None, "cannot be opened (No such file or directory)"),
    ],
)
def test_a_file_that_is_no_plain_file_is_a_finding(
    made: Callable[[Path], None], what: str, tmp_path: Path
) -> None:
    """Whatever stands in the place of a record is named at its first line, and never waited for."""
    file = tmp_path / "mine" / "joints" / "example" / "starter.yaml"
    file.parent.mkdir(parents=True)
    made(file)
    (found,) = Vetting().look(str(file))
    assert (found.rule, found.severity, found.message) == ("text-unreadable", Severity.STOP, what)
    assert str(found.place) == f"{file}:1:1"


def test_odd_names_of_classes_and_sizes_break_no_other_record(tmp_path: Path) -> None:
    """A record that nobody can ask for draws its question, and the joints beside it theirs."""
    source = 'source: {kind: invented, title: "an example", provenance: "invented"}\n'
    classes = (
        "# yaml-language-server: $schema=../../schema/strength-classes.json\n"
        'kind: strength classes\ntitle: "Classes"\nstandard: "list"\nedition: "not stated"\n'
        "family: metric\nstress_unit: MPa\nlength_unit: mm\n"
        'classes: [{name: "blue", tensile: 700, yield: 420, proof: 400, over: 0, to: 39}]\n'
    )
    heads = (
        "# yaml-language-server: $schema=../../schema/heads.json\n"
        'kind: heads\ntitle: "Heads"\nhead: flange\nstandard: "list"\n'
        'sizes: [{size: "eight", across_flats_mm: 13}]\n'
    )
    joint = JOINT.replace('strength_class: "8.8"', 'strength_class: "9.9"')
    assert joint != JOINT
    files = {"classes": classes + source, "heads": heads + source, "joints": joint}
    said = {}
    for shelf, text in files.items():
        file = tmp_path / shelf / "example" / "starter.yaml"
        file.parent.mkdir(parents=True)
        file.write_text(text, encoding="utf-8")
    vetting = Vetting()
    for shelf in files:
        found = vetting.look(str(tmp_path / shelf / "example" / "starter.yaml"))
        said[shelf] = [finding.rule for finding in found if finding.severity <= Severity.ASK]
    assert said == {
        "classes": ["reference-dead"],
        "heads": ["reference-dead"],
        "joints": ["word-unknown"],
    }


def test_a_schema_that_refuses_what_the_model_takes_is_our_fault(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It is named with the file, the schema and the key; it is never passed over."""
    strict = Draft202012Validator({"properties": {"count": {"maximum": 0}}})
    monkeypatch.setattr(admitting, "_schema", lambda _: strict)
    path = specs_root() / "joints/brigade/clutch-cover.yaml"
    with pytest.raises(
        SchemaFault, match=r"clutch-cover\.yaml: schema/joint\.json refuses count: "
    ):
        Vetting().look(str(path))
