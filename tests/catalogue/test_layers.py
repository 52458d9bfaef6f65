"""Checks of reading a folder of records."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from first_faults import read_folder, record_files, vet_folder

from torquebook.catalogue.places import record_id
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


def test_folder(tmp_path: Path, classes_text: str) -> None:
    """All records below a folder become rows, in the order of their ids; plans are left out."""
    for name in ("b/two.yaml", "a.1/one.yaml", "plans/list.yaml", "a.1/notes.txt"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        text = classes_text.replace('name: "', 'name: "A') if name[0] == "b" else classes_text
        path.write_text(text, encoding="utf-8")
    ids = [record_id(path, tmp_path) for path in record_files(tmp_path)]
    assert ids == ["a.1/one", "b/two"]
    rows = read_folder(tmp_path)
    assert [row[0] for row in rows["records"]] == ids
    assert [row[0] for row in rows["classes"]] == ["8.8", "10.9", "A8.8", "A10.9"]
    assert rows["threads"] == []


def test_folder_with_a_fault(tmp_path: Path) -> None:
    """A record with a fault ends the reading, with file, line and column."""
    (tmp_path / "x.yaml").write_text("kind: frikton\n", encoding="utf-8")
    with pytest.raises(Unreadable, match=r"x\.yaml:1:7: .frikton. is no kind of record"):
        read_folder(tmp_path)


def test_faults_of_a_whole_folder(tmp_path: Path, classes_text: str) -> None:
    """All faults of all records are found in one run; reading names the first and counts."""
    (tmp_path / "a.yaml").write_text(classes_text.replace('"8.8"', "8.8").replace('"2013"', "2013"))
    (tmp_path / "b.yaml").write_text("a: [\n")
    rows, faults = vet_folder(tmp_path)
    assert len(faults) == 3
    assert rows["classes"] == []
    with pytest.raises(Unreadable, match=r"a\.yaml:5:10: .*\(and 2 more faults\)$"):
        read_folder(tmp_path)


FRICTION = """\
kind: friction
title: "Friction"
name: "NAME"
aliases: [ALIAS]
mu_thread: {low: 0.1, nominal: 0.2, high: 0.3}
mu_head: {low: 0.1, nominal: 0.2, high: 0.3}
lubricated: false
source: {kind: invented, title: "test", provenance: "invented"}
"""


@pytest.mark.parametrize(
    ("name", "alias", "shared"),
    [("shop oil", "b", "shop oil"), ("Shop-Oil", "b", "Shop-Oil"), ("a", "dark oil", "dark oil")],
)
def test_two_records_of_one_name(tmp_path: Path, name: str, alias: str, shared: str) -> None:
    """Two records of one name in one folder are refused, and both files are named."""
    first = FRICTION.replace("NAME", "shop oil").replace("ALIAS", "dark oil")
    (tmp_path / "one.yaml").write_text(first)
    (tmp_path / "two.yaml").write_text(FRICTION.replace("NAME", name).replace("ALIAS", alias))
    with pytest.raises(Unreadable) as caught:
        read_folder(tmp_path)
    assert str(caught.value).startswith(f'{tmp_path / "two.yaml"}: the name "{shared}" stands in ')
    assert str(tmp_path / "one.yaml") in str(caught.value)


def test_one_name_twice_in_a_record(tmp_path: Path, classes_text: str) -> None:
    """One class over one range of sizes twice in a file is refused; a name for itself is not."""
    (tmp_path / "x.yaml").write_text(classes_text.replace('"10.9"', '"8.8"'))
    with pytest.raises(Unreadable, match=r'x\.yaml: the name "8\.8" stands in .*x\.yaml too'):
        read_folder(tmp_path)
    (tmp_path / "x.yaml").write_text(FRICTION.replace("ALIAS", "name, Name"))
    assert len(read_folder(tmp_path)["frictions"]) == 1


HEADS = """\
kind: heads
title: "Heads"
head: socket
standard: "mine"
sizes:
  - {size: "SIZE", key_mm: 8}
source: {kind: invented, title: "test", provenance: "invented"}
"""


@pytest.mark.parametrize(("size", "right"), [("10", "M10"), ("G 1/4", "M10x1.25 or 3/8-16")])
def test_size_that_is_no_thread(tmp_path: Path, size: str, right: str) -> None:
    """A size that cannot be read is refused with the file that holds it."""
    (tmp_path / "x.yaml").write_text(HEADS.replace("SIZE", size))
    with pytest.raises(Unreadable, match=rf'x\.yaml: "{size}": .*; write {right}'):
        read_folder(tmp_path)


def test_one_hole_twice(tmp_path: Path) -> None:
    """What goes by a diameter is named by it."""
    hole = "{d_mm: 10, fine_mm: 10.5, medium_mm: 11, coarse_mm: 12}"
    source = '{kind: invented, title: "test", provenance: "invented"}'
    text = f'kind: holes\ntitle: "t"\nholes: [{hole}, {hole}]\nsource: {source}\n'
    (tmp_path / "x.yaml").write_text(text)
    with pytest.raises(Unreadable, match='the name "10 mm" stands in'):
        read_folder(tmp_path)
