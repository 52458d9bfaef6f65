"""Checks of what a contribution changed, and of what depends on it."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.changes import changes_since
from torquebook.catalogue.contributed import contributed
from torquebook.catalogue.places import specs_root
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable

    Git = Callable[..., None]

FLYWHEEL = Path("specs/joints/brigade/flywheel.yaml")
JOB = "specs/jobs/brigade-overhaul.yaml"


@pytest.fixture(scope="module")
def committed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a repository with our own book in it."""
    folder = tmp_path_factory.mktemp("repository")
    shutil.copytree(specs_root(), folder / "specs")
    git_in(folder, "init", "--quiet", "--initial-branch=main")
    git_in(folder, "add", ".")
    git_in(folder, "commit", "--quiet", "--message=all")
    return folder


@pytest.fixture
def git(committed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Git:
    """Stand in a copy of the repository; return what runs git there."""
    shutil.copytree(committed, tmp_path / "copy")
    monkeypatch.chdir(tmp_path / "copy")
    return lambda *words: git_in(tmp_path / "copy", *words)


def git_in(folder: Path, *words: str) -> None:
    person = ("-c", "user.name=a", "-c", "user.email=a@example.org")
    command = ["git", "-C", str(folder), *person, *words]
    subprocess.run(command, check=True, capture_output=True)


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_nothing_changed(git: Git) -> None:
    """Without a change there is nothing to look at."""
    assert git
    assert changes_since("HEAD", ["specs"]) == ((), (), (), False)


def test_a_joint_and_the_job_that_names_it(git: Git) -> None:
    """Of a changed joint the jobs depend that name it; the like named are among few."""
    assert git
    change(FLYWHEEL, "count: 8", "count: 6")
    found = changes_since("HEAD", ["specs"])
    assert found.files == (JOB, str(FLYWHEEL))
    assert (found.changed, found.dependent) == ((str(FLYWHEEL),), (JOB,))
    assert found.alike == (str(FLYWHEEL),)
    assert changes_since("main", [str(FLYWHEEL)]).files == (JOB, str(FLYWHEEL))


def test_a_new_file_is_a_change(git: Git) -> None:
    """What is not committed yet is looked at too, unless it is ignored or no record."""
    assert git
    Path(".gitignore").write_text("drafts\n", encoding="utf-8")
    for name in ("joints/new.yaml", "joints/drafts/x.yaml", "plans/list.yaml", "joints/note.txt"):
        path = Path("specs") / name
        path.parent.mkdir(exist_ok=True)
        shutil.copy(FLYWHEEL, path)
    found = changes_since("HEAD", ["specs"])
    assert found.files == ("specs/joints/new.yaml",)
    assert found.alike == (str(FLYWHEEL), "specs/joints/new.yaml")


def test_what_changed_is_what_is_looked_at_without_it(git: Git) -> None:
    """Settings, caches, plans and what lies behind a link are no records, wherever they lie."""
    git("mv", "specs/friction", "specs/kept")
    git("commit", "--quiet", "--all", "--message=other folder")
    Path("specs/kept").rename("kept")
    Path("specs/kept").symlink_to("../kept")
    for name in (
        ".github/workflows/x.yml",
        "specs/.old/joints/x.yaml",
        "specs/joints/plans/x.yaml",
    ):
        path = Path(name)
        path.parent.mkdir(parents=True)
        shutil.copy(FLYWHEEL, path)
    change(FLYWHEEL, "count: 8", "count: 6")
    found = set(changes_since("HEAD", ["."]).files)
    assert {str(FLYWHEEL), JOB, "kept/oiled.yaml"} <= found
    assert found <= set(contributed(["."]))


def test_a_file_that_is_named_is_looked_at(git: Git) -> None:
    """As without a revision, a file that is named itself may lie anywhere."""
    assert git
    Path("specs/plans/front.yaml").write_text("kind: joint\n", encoding="utf-8")
    assert changes_since("HEAD", ["specs"]).files == ()
    assert changes_since("HEAD", ["specs/plans/front.yaml"]).files == ("specs/plans/front.yaml",)


def test_all_joints_rest_on_what_they_do_not_name(git: Git) -> None:
    """A joint that says nothing of its friction rests on the friction of the book."""
    assert git
    change(Path("specs/friction/unsaid.yaml"), "low: 0.08", "low: 0.02")
    joints = {str(path) for path in Path("specs/joints").rglob("*.yaml")}
    assert {JOB, "specs/friction/unsaid.yaml", *joints} == set(
        changes_since("HEAD", ["specs"]).files
    )


def test_what_was_renamed_is_missed_under_its_old_name(
    git: Git, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Among many, those joints are looked at that name a friction or one of its other names."""
    assert git
    monkeypatch.setattr("torquebook.catalogue.changes.FEW", 10)
    change(Path("specs/friction/oiled.yaml"), 'name: "oiled"', 'name: "wet"')
    found = changes_since("HEAD", ["specs"])
    assert {"specs/friction/oiled.yaml", str(FLYWHEEL)} <= set(found.files)
    assert "specs/joints/brigade/front-wheels.yaml" not in found.files
    assert "specs/joints/brigade/front-wheels.yaml" in map(str, Path("specs").rglob("*.yaml"))


def test_only_the_sizes_that_changed_are_asked_for(
    git: Git, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In a list of threads one size changes: among many, other sizes' joints do not depend."""
    assert git
    monkeypatch.setattr("torquebook.catalogue.changes.FEW", 10)
    path = Path("specs/threads/iso-262-selected.yaml")
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    path.write_text("".join(line for line in lines if '"M33"' not in line), encoding="utf-8")
    files = changes_since("HEAD", ["specs"]).files
    assert {str(path), "specs/heads/din-931.yaml"} <= set(files)
    assert str(FLYWHEEL) not in files


def test_what_was_taken_out_is_missed(git: Git) -> None:
    """A job that names a joint which is gone is looked at."""
    git("rm", "--quiet", str(FLYWHEEL))
    assert changes_since("HEAD", ["specs"])[:2] == ((), (JOB,))
    Path(JOB).unlink()
    assert changes_since("HEAD", ["specs"]) == ((), (), (), True)


def test_a_branch_is_compared_where_the_work_left_it(git: Git) -> None:
    """What others did on the branch since is no change of this work."""
    git("branch", "work")
    change(Path("specs/friction/dry.yaml"), "nominal", "nominal")
    change(FLYWHEEL, "count: 8", "count: 7")
    git("commit", "--quiet", "--all", "--message=others")
    git("checkout", "--quiet", "work")
    change(Path("specs/joints/brigade/starter.yaml"), "title: ", "title:  ")
    git("commit", "--quiet", "--all", "--message=ours")
    found = changes_since("main", ["specs"])
    assert "specs/joints/brigade/starter.yaml" in found.files
    assert str(FLYWHEEL) not in found.files
    nothing = changes_since("main", ["specs/plans"])
    assert (nothing.files, nothing.begun) == ((), True)


def test_a_broken_record_is_a_change_with_what_depended_on_it(git: Git) -> None:
    """A record that can no longer be read is looked at, and those that named it."""
    assert git
    FLYWHEEL.write_bytes(b"\xff")
    assert changes_since("HEAD", ["specs"]).files == (JOB, str(FLYWHEEL))


def test_from_inside_the_folder(git: Git, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names are as seen from where one stands."""
    assert git
    change(FLYWHEEL, "count: 8", "count: 6")
    monkeypatch.chdir(FLYWHEEL.parent)
    found = changes_since("HEAD", ["flywheel.yaml"])
    assert found.files == ("../../jobs/brigade-overhaul.yaml", "flywheel.yaml")


def test_in_a_hook_of_a_second_work_tree(git: Git, monkeypatch: pytest.MonkeyPatch) -> None:
    """There git tells hooks of its folder, and nothing of the tree that they stand in."""
    git("worktree", "add", "--quiet", "../second")
    monkeypatch.chdir("../second")
    (folder,) = Path("../copy/.git/worktrees").iterdir()
    monkeypatch.setenv("GIT_DIR", str(folder.resolve()))
    monkeypatch.delenv("GIT_WORK_TREE", raising=False)
    change(FLYWHEEL, "count: 8", "count: 6")
    assert changes_since("HEAD", ["specs"]).files == (JOB, str(FLYWHEEL))


@pytest.mark.parametrize("revision", ["no-such-branch", "--output=x", "main:specs", ""])
def test_no_such_revision(git: Git, revision: str) -> None:
    """What is no branch, tag or commit is said, and never taken for an option."""
    assert git
    with pytest.raises(Unreadable, match=r"specs: git says: .*; name a branch, tag or commit"):
        changes_since(revision, ["specs"])
    assert not Path("x").exists()


def test_no_repository(tmp_path: Path) -> None:
    """Without a repository nothing can be said of changes."""
    with pytest.raises(Unreadable, match=r"git says: .*not a git repository"):
        changes_since("HEAD", [str(tmp_path)])


def test_no_git(git: Git, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where git is not installed, that is said."""
    assert git
    monkeypatch.setenv("PATH", "")
    with pytest.raises(Unreadable, match="git cannot be asked"):
        changes_since("HEAD", ["specs"])
