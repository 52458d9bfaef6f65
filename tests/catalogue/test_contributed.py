"""Checks of finding contributed files, and of saying where they lie."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.contributed import (
    Shelved,
    contributed,
    contributed_text,
    found_below,
    roots_of,
    shelved,
)
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the current folder, with a folder of records in it."""
    for name in (
        "specs/joints/pump/cover.yaml",
        "specs/joints/a.yml",
        "specs/friction/oil.yaml",
        "specs/plans/list.yaml",
        "specs/.cache/x.yaml",
        "specs/joints/readme.txt",
    ):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("kind: joint\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_records_below_folders(book: Path) -> None:
    """Records are found in order; plans, hidden folders and other files are none."""
    every = ["specs/friction/oil.yaml", "specs/joints/a.yml", "specs/joints/pump/cover.yaml"]
    assert list(contributed(["specs"])) == every
    assert list(contributed(["specs/"])) == every
    assert list(contributed([str(book / "specs/joints/pump")])) == [str(book / every[2])]


def test_what_is_named_twice_comes_once(book: Path) -> None:
    """A file that is named is taken whatever it is called, once."""
    named = ["specs/joints/readme.txt", "specs/joints/a.yml", "specs/joints"]
    assert book.is_dir()
    assert list(contributed(named)) == [*named[:2], "specs/joints/pump/cover.yaml"]


@pytest.mark.parametrize(
    "path",
    ["./specs", "specs//", ".//specs/.", "specs/../specs", ".", "./specs/joints/../joints/a.yml"],
)
def test_a_file_has_one_name(book: Path, path: str) -> None:
    """However a path is typed, what lies below it is called as if it were typed plainly."""
    assert book.is_dir()
    plain = list(contributed(["specs"]))
    found = list(contributed([path]))
    assert found
    assert set(found) <= set(plain)
    assert list(contributed([path, "specs", str(book / "specs")])) == [
        *found,
        *(name for name in plain if name not in found),
        *(str(book / name) for name in plain),
    ]


def test_what_is_found_below_a_folder(book: Path) -> None:
    """Of a path it can be said whether the file would be found, without looking for it."""
    (book / "specs/linked").symlink_to("joints")
    (book / "specs/linked.yaml").symlink_to("joints/a.yml")
    found = set(contributed(["."]))
    every = [path.relative_to(book).as_posix() for path in book.rglob("*")]
    every += ["specs/linked/a.yml", "specs/joints/plans/.x/a.yaml"]
    assert {name for name in every if found_below(".", name)} == found
    assert len(found) == 5 < len(every)
    assert found_below("specs", "joints/gone.yaml")


def test_the_folder_that_is_looked_at_decides(book: Path) -> None:
    """What lies in a folder of records lies in no other, whatever the folders in it are called."""
    for name in (
        "joints/acme/friction/oil.yaml",
        "top.yaml",
        "extra/x.yaml",
        "joints/plans/p.yaml",
    ):
        path = book / "specs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("kind: joint\n", encoding="utf-8")
    roots = roots_of(["specs"])
    assert roots == ("specs",)
    assert roots_of(["specs/joints/pump", "specs"]) == ("specs",)
    assert roots_of([str(book / "specs")]) == (str(book / "specs"),)
    lie = {path: shelved(path, "friction", roots) for path in contributed(["specs"])}
    assert lie["specs/joints/acme/friction/oil.yaml"] == Shelved(
        "specs", "joints", "joints/acme/friction/oil"
    )
    assert lie["specs/top.yaml"] == Shelved("specs", "", "top")
    assert lie["specs/extra/x.yaml"] == Shelved("specs", "extra", "extra/x")
    assert lie["specs/joints/plans/p.yaml"].id == "joints/plans/p"
    assert not any("specs/plans" in path or "/." in path for path in lie)


def test_the_current_folder_as_a_folder_of_records(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A point stands for the folder itself; what lies outside of it is not in it."""
    monkeypatch.chdir(book / "specs")
    assert roots_of(["."]) == (".",)
    assert shelved("joints/a.yml", "joint", (".",)) == Shelved(".", "joints", "joints/a")
    assert shelved("top.yaml", "joint", (".",)) == Shelved(".", "", "top")
    assert shelved("../x/joints/a.yaml", "joint", (".",)).root == "../x"


def test_a_linked_folder_is_named_and_not_followed(book: Path) -> None:
    """Whoever looks at records does not see what lies behind a link, so that is said."""
    (book / "specs/joints/linked").symlink_to("/etc")
    assert "specs/joints/linked" in contributed(["specs"])
    with pytest.raises(Unreadable, match="a link out of its folder of records"):
        contributed_text("specs/joints/linked")


def test_no_such_path(book: Path) -> None:
    """A path that leads nowhere is said."""
    assert book.is_dir()
    with pytest.raises(Unreadable, match=r"specs/joins: no such file or folder; name a file"):
        list(contributed(["specs/joins"]))


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read all")
def test_a_folder_that_cannot_be_read(book: Path) -> None:
    """A closed folder is said, not passed over."""
    (book / "specs" / "joints").chmod(0)
    try:
        with pytest.raises(Unreadable, match="cannot be read"):
            list(contributed(["specs"]))
    finally:
        (book / "specs" / "joints").chmod(0o755)


@pytest.mark.parametrize(
    ("path", "kind", "lies"),
    [
        (
            "specs/joints/pump/cover.yaml",
            "joint",
            Shelved("specs", "joints", "joints/pump/cover"),
        ),
        ("specs/joints/a.yml", "joint", Shelved("specs", "joints", "joints/a")),
        ("joints/a.yaml", "", Shelved(".", "joints", "joints/a")),
        ("specs/joints/heads/a.yaml", "joint", Shelved("specs", "joints", "joints/heads/a")),
        ("specs/joints/heads/a.yaml", "heads", Shelved("specs/joints", "heads", "heads/a")),
        ("specs/jobs/a.yaml", "joint", Shelved("specs", "jobs", "jobs/a")),
        ("elsewhere/a.yaml", "joint", Shelved("", "", "a")),
        ("a.yaml", "joint", Shelved("", "", "a")),
    ],
)
def test_where_a_file_lies(book: Path, path: str, kind: str, lies: Shelved) -> None:
    """The folder of records is above the nearest folder that the kind lies in."""
    assert book.is_dir()
    assert shelved(path, kind) == lies
    whole = shelved(str(book / path), kind)
    assert whole == lies


def test_a_file_from_inside_its_folder(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where it lies does not hang on where one stands."""
    monkeypatch.chdir(book / "specs" / "joints" / "pump")
    assert shelved("cover.yaml") == Shelved("../..", "joints", "joints/pump/cover")


def test_links(book: Path) -> None:
    """A link inside the folder of records is followed, one that leads out of it is refused."""
    (book / "specs/joints/in.yaml").symlink_to("pump/cover.yaml")
    (book / "specs/joints/out.yaml").symlink_to("/etc/hostname")
    (book / "specs/joints/gone.yaml").symlink_to("nothing.yaml")
    assert contributed_text("specs/joints/in.yaml") == "kind: joint\n"
    with pytest.raises(Unreadable, match=r"out\.yaml: a link out of its folder of records; put"):
        contributed_text("specs/joints/out.yaml")
    with pytest.raises(Unreadable, match=r"gone\.yaml: cannot be opened \(No such file"):
        contributed_text("specs/joints/gone.yaml")


def test_no_file(book: Path) -> None:
    """A pipe or a folder of a record's name is refused without waiting for it."""
    if hasattr(os, "mkfifo"):
        os.mkfifo(book / "specs/joints/pipe.yaml")
        with pytest.raises(Unreadable, match=r"pipe\.yaml: a device, a pipe or a folder"):
            contributed_text("specs/joints/pipe.yaml")
    with pytest.raises(Unreadable, match="a device, a pipe or a folder"):
        contributed_text("specs/joints")
