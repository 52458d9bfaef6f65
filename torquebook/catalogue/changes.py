"""What a contribution changed, by its repository, and which other records depend on that."""

from __future__ import annotations

import os
import re
from collections import defaultdict
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.catalogue.contributed import (
    contributed,
    contributed_text,
    found_below,
    roots_of,
    shelved,
)
from torquebook.catalogue.index import name_of
from torquebook.catalogue.lookup import plain
from torquebook.catalogue.reading import reading
from torquebook.catalogue.register import names_of, readable_rows, said_in
from torquebook.errors import TorquebookError, Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from torquebook.records.base import Record

#: So many joints and jobs are looked at rather than asked whether they name what changed: a
#: joint that says nothing of its friction rests on the friction of the book all the same.
FEW: Final = 5000
_SECONDS: Final = 60
_AT_ONCE: Final = 200  # names that are searched for at once
_INSIDE: Final = "run it inside the repository"
_KNOWN: Final = "name a branch, tag or commit that this repository has (CI: fetch its history)"
_SPACE: Final = "[ _-]+"
EVERYWHERE: Final = "*.yaml"
#: By kind of a record that is asked for as a whole, the records that ask for it.
_ASKED_FROM: Final = {"joint": "jobs/*.yaml", "prevailing torques": "reuse/*.yaml"}


class Changes(NamedTuple):
    """What is to be looked at of a contribution.

    Parameters
    ----------
    changed : tuple of str
        What was changed or added; sorted.
    dependent : tuple of str
        What was not, but depends on that or on what was taken out; sorted.
    alike : tuple of str or None
        The records among which one of the same name or title may be; None for all.
    begun : bool
        False where the revision is HEAD itself, and nothing differs from it.
    """

    changed: tuple[str, ...]
    dependent: tuple[str, ...]
    alike: tuple[str, ...] | None
    begun: bool = True

    @property
    def files(self) -> tuple[str, ...]:
        """All that is to be looked at."""
        return tuple(sorted((*self.changed, *self.dependent))) if self.dependent else self.changed


def changes_since(revision: str, paths: Sequence[str]) -> Changes:
    """Return what changed below some paths since a revision, and what depends on it.

    Parameters
    ----------
    revision : str
        A branch, tag or commit; compared is the point where the work left it.
    paths : sequence of str
        Folders and files in a repository.

    Raises
    ------
    Unreadable
        If a path lies in no repository, or the revision is none of it.
    """
    changed: set[str] = set()
    dependent: set[str] = set()
    begun = False
    asked: defaultdict[tuple[str, str], set[str]] = defaultdict(set)
    called: defaultdict[str, set[str]] = defaultdict(set)
    roots = roots_of(paths)
    for path in paths:
        folder = path if os.path.isdir(path) else os.path.dirname(path) or "."  # noqa: PTH112, PTH120 - as contributed()
        only = "." if folder == path else os.path.basename(path)  # noqa: PTH119 - as above
        base = _base(folder, revision)
        begun = begun or base != _commit(folder, "HEAD")
        for name in _changed(folder, base, only):
            begun = True
            file = os.path.relpath(f"{folder}/{name}")
            if os.path.lexists(file):
                changed.add(file)
            now, before = _record_now(file), _record_before(folder, base, name)
            if known := now or before:
                lies = shelved(file, known.kind, roots)
                for where, names in _asked_by(now, before, lies.id):
                    asked[lies.root, where] |= names
                called[lies.root].update(_called(known, lies.id))
    for (root, where), names in asked.items():
        every = _every(root) if where == EVERYWHERE and names else ()
        dependent |= set(every) if 0 < len(every) <= FEW else _holding(root, names, where)
    alike = [name for root, names in called.items() for name in _named(root, names)]
    others = tuple(sorted(dependent - changed))
    return Changes(tuple(sorted(changed)), others, tuple(sorted(set(alike))), begun)


def _every(root: str) -> tuple[str, ...]:
    """Return all joints and jobs of a folder, which may rest on what they do not name."""
    folders = (f"{root}/{shelf}" for shelf in ("joints", "jobs") if root)
    return tuple(contributed(one for one in folders if os.path.isdir(one)))  # noqa: PTH112 - as above


def _git(folder: str, *words: str, right: str, may_find: bool = False) -> str:
    """Return what git answers; one that may find nothing says so by its exit code 1."""
    import subprocess  # noqa: PLC0415 - only where git is asked

    try:
        run = subprocess.run(  # noqa: S603 - words of our own, and names behind "--"
            ["git", "-C", folder, *words],  # noqa: S607 - git is where the user has it
            capture_output=True,
            check=False,
            timeout=_SECONDS,
            env=_surroundings(),
        )
    except (OSError, ValueError, subprocess.TimeoutExpired) as fault:
        raise Unreadable(folder, f"git cannot be asked ({fault})", right) from fault
    if run.returncode and not (may_find and run.returncode == 1):
        said = os.fsdecode(run.stderr).strip().splitlines() or ["no answer"]
        raise Unreadable(folder, f"git says: {said[0]}", right)
    return os.fsdecode(run.stdout)


def _surroundings() -> dict[str, str]:
    """Return the environment without the repository that a hook is told of.

    The folder says which it is; told of it alone, git takes any folder for the top of its work.
    """
    left_out = () if "GIT_WORK_TREE" in os.environ else ("GIT_DIR",)
    return {name: value for name, value in os.environ.items() if name not in left_out}


def _parts(answer: str) -> list[str]:
    """Return the names in an answer, each of which ends with a zero byte."""
    return answer.split("\0")[:-1]


def _commit(folder: str, revision: str) -> str:
    """Return the commit that a revision stands for."""
    words = ("rev-parse", "--verify", "--end-of-options", f"{revision}^{{commit}}")
    return _git(folder, *words, right=_KNOWN).strip()


def _base(folder: str, revision: str) -> str:
    """Return the commit at which the work left a revision."""
    commit = _commit(folder, revision)
    fork = _git(folder, "merge-base", commit, "HEAD", right=_KNOWN, may_find=True)
    return fork.strip() or commit


def _changed(folder: str, base: str, only: str) -> Iterator[str]:
    """Yield what differs from a commit, or is new and not ignored, seen from a folder."""
    listed = ("diff", "--name-only", "--no-renames", "--relative", "-z", base, "--", only)
    new = ("ls-files", "--others", "--exclude-standard", "-z", "--", only)
    for words in (listed, new):
        for name in _parts(_git(folder, *words, right=_INSIDE)):
            if only != "." or found_below(folder, name):
                yield name


def _record_now(path: str) -> Record | None:
    try:
        return reading(contributed_text(path), path).record
    except Unreadable:
        return None


def _record_before(folder: str, base: str, name: str) -> Record | None:
    """Return a record as it was; None if it was not, or was none."""
    try:
        return reading(_git(folder, "show", f"{base}:./{name}", right=""), name).record
    except TorquebookError:
        return None


def _asked_by(
    now: Record | None, before: Record | None, own: str
) -> Iterator[tuple[str, set[str]]]:
    """Yield the names by which others ask for what changed in a record, and where they lie."""
    rows = [readable_rows(record, own) if record else {} for record in (before, now)]
    words: set[str] = set()
    for shelf in dict.fromkeys([*rows[0], *rows[1]]):
        old, new = ({repr(row): row for row in every.get(shelf, ())} for every in rows)
        for text in old.keys() ^ new.keys():
            words |= set(_words(shelf, (old | new)[text]))
    yield EVERYWHERE, words
    where = _ASKED_FROM.get(before.kind) if before else None
    if before and where and before != now:
        yield where, {own, own.partition("/")[2], getattr(before, "name", own)}


def _words(shelf: str, row: list[Any]) -> Iterator[str]:
    """Yield what a row of the index is called: its name, and other names where it has any."""
    yield from (part for part in name_of(shelf, row) if isinstance(part, str))
    yield from (name for cell in row[:2] if isinstance(cell, list) for name in cell)


def _called(record: Record, own: str) -> Iterator[str]:
    """Yield the names and the title of a record, as a register keeps them."""
    return (plain(name.said.strip('"')) for name in names_of(record, own))


def _named(root: str, names: set[str]) -> set[str]:
    """Return the records below a folder of which name or title is one of some names."""
    if not root:
        return set()
    grep = ("grep", "-z", "-E", "--untracked", "^(name|title):", "--", EVERYWHERE)
    lines = _git(root, *grep, right=_INSIDE, may_find=True).split("\n")
    said = (line.partition("\0") for line in lines)
    return _records(
        root, [n for n, _, line in said if names & set(map(plain, said_in(line).values()))]
    )


def _holding(root: str, names: set[str], where: str) -> set[str]:
    """Return the records below a folder whose text holds one of some names as whole words."""
    wanted = sorted(names) if root else []
    found: list[str] = []
    for start in range(0, len(wanted), _AT_ONCE):
        words: list[str] = []
        for name in wanted[start : start + _AT_ONCE]:
            escaped = re.sub(r"([.^$*+?()\[\]{}|\\])", r"\\\1", name)
            words += ["-e", _SPACE.join(re.split(r"[ _-]+", escaped))]
        grep = ("grep", "-l", "-z", "-i", "-w", "-E", "--untracked", *words, "--", where)
        found += _parts(_git(root, *grep, right=_INSIDE, may_find=True))
    return _records(root, found)


def _records(root: str, found: Iterable[str]) -> set[str]:
    """Return files as seen from here, those only that are records."""
    return {os.path.relpath(f"{root}/{name}") for name in found if found_below(root, name)}
