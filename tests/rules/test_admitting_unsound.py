"""What somebody may try so that something unsound goes green in a contribution."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.contributed import contributed, roots_of
from torquebook.catalogue.places import specs_root
from torquebook.findings import Severity
from torquebook.rules.admitting import Vetting

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.findings import Finding

SOURCE = (
    'source: {kind: manual, title: "TM 1", edition: "1990", where: "p. 1", '
    'provenance: "page read"}\n'
)


def record(kind: str, up: int, body: str, source: str = SOURCE) -> str:
    """Return the text of a record."""
    schema = f"{'../' * up}schema/{kind.replace(' ', '-')}.json"
    return f"# yaml-language-server: $schema={schema}\nkind: {kind}\n{body}{source}"


def joint(up: int, tighten: str, name: str = "pump cover", thread: str = "M8") -> str:
    """Return the text of a joint."""
    body = (
        f'title: "{name.capitalize()}"\nname: "{name}"\n'
        f'fastener: {{thread: "{thread}", strength_class: "8.8"}}\n'
        f'count: 4\nfriction: "oiled"\ntighten: "{tighten}"\n'
    )
    return record("joint", up, body)


def friction(up: int, name: str, mu: float) -> str:
    """Return the text of a friction."""
    band = f"{{low: {mu}, nominal: {mu}, high: {mu}}}"
    body = (
        f'title: "Friction, {name}, again"\nname: "{name}"\n'
        f"mu_thread: {band}\nmu_head: {band}\nlubricated: false\n"
    )
    return record("friction", up, body)


@pytest.fixture
def specs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of our own book, in the current folder."""
    shutil.copytree(specs_root(), tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "specs"


def put(specs: Path, name: str, text: str) -> None:
    path = specs / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def looked(specs: Path) -> dict[str, list[Finding]]:
    """Return the stops and questions of a whole folder, by rule."""
    vetting = Vetting(roots_of([specs.name]))
    found: dict[str, list[Finding]] = {}
    for path in contributed([specs.name]):
        for finding in vetting.look(path):
            if finding.severity <= Severity.ASK:
                found.setdefault(finding.rule, []).append(finding)
    return found


def test_our_own_book_is_clean(specs: Path) -> None:
    """What is tried below is tried on a book in which nothing is found."""
    assert looked(specs) == {}


@pytest.mark.parametrize("name", ["oiled-2.yaml", "extra/oiled-2.yaml", "joints/x/oiled-2.yaml"])
def test_a_record_where_no_rule_compares(specs: Path, name: str) -> None:
    """A friction at the top, in no shelf or among joints is not passed over."""
    put(specs, name, friction(1 + name.count("/"), "oiled", 0.7))
    assert "shelf-wrong" in looked(specs)


def test_a_joint_that_brings_its_own_physics(specs: Path) -> None:
    """A folder of records inside another one is none: the friction in it counts for nobody."""
    put(specs, "joints/acme/joints/pump-cover.yaml", joint(4, "40 N.m"))
    put(specs, "joints/acme/friction/oiled.yaml", friction(4, "oiled", 0.45))
    assert {"past-yield", "shelf-wrong"} <= set(looked(specs))


@pytest.mark.parametrize("name", ["joints/plans/pump-cover", "joints/acme/jobs/pump-cover"])
def test_a_joint_in_a_folder_of_an_odd_name(specs: Path, name: str) -> None:
    """A wrong torque is found whatever the folders below the shelf are called."""
    put(specs, f"{name}.yaml", joint(name.count("/") + 1, "900 N.m"))
    assert {"over-proof", "past-yield", "unit-doubtful"} & set(looked(specs))


def test_what_is_hidden_or_linked_answers_nobody(specs: Path) -> None:
    """A job that names a joint behind a point or a link names none, and the link is said."""
    put(specs, "joints/.x/pump-cover.yaml", joint(3, "900 N.m"))
    put(specs, "../store/pump-cover.yaml", joint(3, "900 N.m"))
    (specs / "joints" / "linked").symlink_to("../../store")
    put(specs, "joints/x/pump-cover.yaml", joint(3, "20 N.m"))
    for name in ("linked", ".x", "x"):
        steps = f"steps: [{{joint: joints/{name}/pump-cover}}]"
        body = f'title: "Pump {name}"\nname: "pump{name}"\n{steps}\n'
        put(specs, f"jobs/pump{name.strip('.')}.yaml", record("job", 2, body))
    found = looked(specs)
    unknown = {finding.place.file for finding in found["joint-unknown"]}
    assert "specs/jobs/pumplinked.yaml" in unknown
    assert [f.place.file for f in found["text-unreadable"]] == ["specs/joints/linked"]
    assert not any("pump" in f.place.file for f in found.get("over-proof", ()))


def test_other_names_are_names(specs: Path) -> None:
    """An alias that is somebody's name is found."""
    text = friction(2, "magic", 0.3).replace('name: "magic"\n', 'name: "magic"\naliases: ["dry"]\n')
    put(specs, "friction/magic.yaml", text)
    said = {finding.message for finding in looked(specs)["record-again"]}
    assert said == {
        '"dry" stands in friction/dry already',
        '"dry" stands in friction/magic already',
    }


def test_standards_are_not_changed_beside_a_joint(specs: Path) -> None:
    """A class under a name of ours with other figures is asked about, wherever it lies."""
    body = (
        'title: "Strong ones"\nstandard: "ISO 898-1"\nedition: "1990"\nfamily: metric\n'
        "stress_unit: MPa\nlength_unit: mm\n"
        'classes: [{name: "8.8", tensile: 8000, yield: 6400, proof: 5800, over: 0, to: 39}]\n'
    )
    put(specs, "classes/acme.yaml", record("strength classes", 2, body))
    assert {"class-name-differs", "covers-ours", "record-again"} <= set(looked(specs))


def test_a_value_that_cannot_be_reckoned_with_is_said_where_it_stands(specs: Path) -> None:
    """A hole as wide as a head's face stops at the hole, and ends no run."""
    path = specs / "holes" / "iso-273.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("medium_mm: 9, coarse_mm: 10", "medium_mm: 12.9, coarse_mm: 13"))
    found = looked(specs)
    (hole,) = found["hole-over-face"]
    assert hole.message == "12.9 mm, and a head of 8 mm has a face of 11.63 mm"
    assert all("cannot be judged" in finding.message for finding in found["facts-disagree"])


def test_a_job_that_names_a_file(specs: Path) -> None:
    """What a record names is an id, and nothing on this machine is opened for it."""
    put(specs, "joints/x/pump-cover.yaml", joint(3, "20 N.m"))
    body = 'title: "Pump"\nname: "pump"\nsteps: [{joint: joints/x/pump-cover.yaml}]\n'
    put(specs, "jobs/pump.yaml", record("job", 2, body))
    (found,) = looked(specs)["joint-unknown"]
    assert "joints/x/pump-cover" in found.message
