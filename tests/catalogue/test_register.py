"""Checks of the register of names in a folder of records."""

from __future__ import annotations

import re
import shutil
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.places import specs_root
from torquebook.catalogue.reading import reading
from torquebook.catalogue.register import Register, names_of, said_in
from torquebook.rules.admitting import Vetting

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.records.base import Record


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of our own book."""
    shutil.copytree(specs_root(), tmp_path / "specs")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "specs"


def record_of(path: Path) -> Record:
    record = reading(path.read_text(encoding="utf-8"), str(path)).record
    assert record is not None
    return record


def again(root: Path, own: str, register: Register | None = None) -> list[tuple[str, str]]:
    register = register or Register("specs")
    record = record_of(root / f"{own}.yaml")
    return [(name.said, other) for name, other in register.again(record, own)]


def test_our_own_names_stand_once(root: Path) -> None:
    """No record of our book shares a name with another one."""
    register = Register("specs")
    paths = [path for path in root.rglob("*.yaml") if "plans" not in path.parts]
    assert len(paths) > 150
    for path in paths:
        assert again(root, path.relative_to(root).with_suffix("").as_posix(), register) == []


def test_rows_are_those_of_the_index(root: Path) -> None:
    """What others are judged by is what the index of the book has."""
    assert root.is_dir()
    made = Book([Register("specs").rows.__getitem__])
    assert made.threads() == Book.open().threads()
    assert made.frictions() == Book.open().frictions()


@pytest.mark.parametrize(
    ("own", "said"),
    [
        ("joints/brigade/starter", ['"starter motor"', '"Starter motor']),
        ("friction/oiled", ['"oiled"', '"Friction, ']),
        ("threads/asme-b1.1-large", ['"1-3/4-5"', '"Unified inch threads above']),
        ("reuse/stretch", ['"stretch bolt"', '"A stretch bolt whose']),
        ("patterns/circle-06", ['"circle of 6"', '"Order over a circle of 6']),
    ],
)
def test_a_copy_is_found(root: Path, own: str, said: list[str]) -> None:
    """A record that was copied shares its names and its title with the first."""
    shutil.copy(root / f"{own}.yaml", root / f"{own}-copy.yaml")
    found = again(root, f"{own}-copy")
    found = [found[0], found[-1]]  # a friction has other names between the two
    assert [other for _, other in found] == [own] * len(said)
    assert [name.startswith(begin) for (name, _), begin in zip(found, said, strict=True)] == [
        True
    ] * len(said)
    assert {other for _, other in again(root, own)} == {f"{own}-copy"}


def test_another_name_is_a_name(root: Path) -> None:
    """What a record is called too is taken as much as its name."""
    path = root / "friction" / "magic.yaml"
    text = (root / "friction" / "dry.yaml").read_text(encoding="utf-8")
    text = re.sub(r"^(name|title): .*", r'\1: "magic"', text, flags=re.MULTILINE)
    path.write_text(re.sub(r"^aliases: .*", 'aliases: ["Dry"]', text, flags=re.MULTILINE), "utf-8")
    assert again(root, "friction/magic") == [('"Dry"', "friction/dry")]


def test_a_name_twice_in_one_record(root: Path) -> None:
    """A size that a record lists twice is found in it."""
    path = root / "holes" / "iso-273.yaml"
    text = path.read_text(encoding="utf-8").replace("{d_mm: 3.5,", "{d_mm: 3,")
    path.write_text(text, encoding="utf-8")
    assert again(root, "holes/iso-273") == [('"3 mm"', "holes/iso-273")]


def test_names_in_any_quotes(root: Path) -> None:
    """Names of joints are found without reading the whole record, however they are quoted."""
    for number, name in enumerate(("'starter motor'", '"starter-motor" # x', "Starter motor")):
        (root / "joints" / f"n{number}.yaml").write_text(f"kind: joint\nname: {name}\n", "utf-8")
    flow = '{"kind": "joint", "title": "x", "name": "starter\\u0020motor"}'
    (root / "joints" / "n3.yaml").write_text(flow, encoding="utf-8")
    (name, *_) = names_of(record_of(root / "joints/brigade/starter.yaml"), "x")
    assert Register("specs").files[name.key] == (
        "joints/brigade/starter", "joints/n0", "joints/n1", "joints/n2", "joints/n3",
    )  # fmt: skip


def test_only_among_some(root: Path) -> None:
    """Where the files are known that may share a name, no other is read."""
    shutil.copy(root / "joints/brigade/starter.yaml", root / "joints/copy.yaml")
    few = Register("specs", ["specs/joints/brigade/tank-strap.yaml"])
    assert again(root, "joints/brigade/starter", few) == []
    those = Register("specs", ["specs/joints/copy.yaml", "specs/friction/oiled.yaml"])
    assert {other for _, other in again(root, "joints/brigade/starter", those)} == {"joints/copy"}


def test_no_folder() -> None:
    """Of a file that lies in no folder of records nothing else is known."""
    assert Register("").files == {}


def test_what_cannot_be_read_has_no_names(root: Path) -> None:
    """Faulty records are for others to report."""
    (root / "joints" / "bad.yaml").write_bytes(b"\xff")
    (root / "friction" / "bad.yaml").write_text("kind: friction\nname: oiled\n", encoding="utf-8")
    assert again(root, "friction/oiled") == []


def test_a_size_that_is_none(root: Path) -> None:
    """A record with a size that nobody can read has no names but its title."""
    path = root / "heads/en-1662.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace('"M5"', '"five"'), encoding="utf-8")
    assert again(root, "heads/en-1662", Register("specs")) == []
    assert [name.path for name in names_of(record_of(path), "heads/en-1662")] == [("title",)]
    (found,) = Vetting().look(str(path))
    assert (found.rule, found.place.line) == ("reference-dead", 8)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "kind: joint\ntitle: \"a: b\"\nname: 'it''s'\n",
            {"kind": "joint", "title": "a: b", "name": "it''s"},
        ),
        ("# name: no\n  name: no\nkind: job # yes\n", {"kind": "job"}),
        ("", {}),
    ],
)
def test_what_stands_at_the_top(text: str, said: dict[str, str]) -> None:
    """Only keys at the beginning of a line are seen, of the first line and of the last."""
    assert said_in(text) == said
