"""Where the records of jobs are kept, and which of them a run goes on with."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.journal import Entry
from torquebook.jobs.running import Trail, trail

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

ENDING: Final = ".jsonl"
_LONGEST: Final = 60
_OFFERED: Final = 5
_UNSAFE: Final = re.compile(r"[^a-z0-9]+")


class Kept(NamedTuple):
    """A record as it lies in a folder.

    Parameters
    ----------
    path : Path
    job : str
        The job's id.
    begun : str
        When, as its first entry says.
    vehicle : str
        Which one, as ``--for`` said.
    entries : int
    signed : bool
    """

    path: Path
    job: str
    begun: str
    vehicle: str
    entries: int
    signed: bool

    @property
    def line(self) -> str:
        """The record in one line, for a list to choose from."""
        vehicle = f" for {self.vehicle}" if self.vehicle else ""
        state = "signed" if self.signed else "unfinished"
        return f"{self.path}: {self.job}{vehicle}, begun {self.begun}, {state}"


def records_folder(environ: Mapping[str, str], platform: str = sys.platform) -> Path:
    """Return the folder of the platform where records are kept."""
    home = Path(environ.get("HOME") or environ.get("USERPROFILE") or Path.home())
    if platform == "win32":
        base = Path(environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        told = environ.get("XDG_DATA_HOME", "")
        base = Path(told) if Path(told).is_absolute() else home / ".local" / "share"
    return base / "torquebook" / "records"


def made(folder: Path) -> Path:
    """Make the folder of the records, and return it.

    Raises
    ------
    Unreadable
        If it cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        what = f"cannot be made ({fault.strerror or fault})"
        raise Unreadable(str(folder), what, "name a file with --record FILE") from fault
    return folder


def kept(folder: Path) -> tuple[Kept, ...]:
    """Return the records of a folder, the one that was begun first coming first."""
    found = (_glance(path) for path in sorted(folder.glob(f"*{ENDING}")))
    return tuple(sorted((one for one in found if one), key=lambda one: (one.begun, one.path)))


def _glance(path: Path) -> Kept | None:
    """Return what a file says it is; whether its chain holds is seen when it is opened."""
    try:
        content = path.read_bytes()
    except OSError:
        return None
    facts = list(_lines(content))
    if not facts or facts[0].get("what") != "start":
        return None
    seen = trail_of(facts)
    first = facts[0]
    job, begun, vehicle = (str(first.get(key, "")) for key in ("job", "at", "for"))
    return Kept(path, job, begun, vehicle, len(facts), seen.signed is not None)


def trail_of(facts: Sequence[Mapping[str, Any]]) -> Trail:
    """Return what entries come to whose chain has not been looked at."""
    return trail(Entry(at, one, "", "") for at, one in enumerate(facts, 1))


def _lines(content: bytes) -> Iterator[dict[str, Any]]:
    for line in content[: content.rfind(b"\n") + 1].splitlines():
        try:
            held = json.loads(line)
        except (ValueError, RecursionError):
            continue
        if isinstance(held, dict):
            yield held


def unfinished(found: Sequence[Kept], job: str, vehicle: str) -> Kept | None:
    """Return the record that a run goes on with; None if it begins another.

    Parameters
    ----------
    found : sequence of Kept
    job : str
        The job's id.
    vehicle : str
        Only records of this one count; empty for any.

    Raises
    ------
    Unreadable
        If there is more than one to choose from.
    """
    open_ones = [
        one for one in found
        if one.job == job and not one.signed and vehicle in {"", one.vehicle}
    ]  # fmt: skip
    if len(open_ones) > 1:
        raise several(job, open_ones)
    return open_ones[0] if open_ones else None


def several(job: str, found: Sequence[Kept]) -> Unreadable:
    """Return the message that lists records to choose from."""
    what = f"{len(found)} records: " + " / ".join(one.line for one in found)
    return Unreadable(job, what, "name one as a file (run: --record FILE, or --new)")


def chosen(found: Sequence[Kept], text: str) -> Path:
    """Return the record that somebody names: a file, one of the folder, or a job that has one.

    Raises
    ------
    NotUnderstood
        If there is none.
    Unreadable
        If the job has more than one.
    """
    if Path(text).is_file():
        return Path(text)
    named = [one for one in found if text in {one.path.name, one.path.stem}]
    named = named or [one for one in found if _slug(one.job) == _slug(text)]
    if len(named) > 1:
        raise several(text, named)
    if not named:
        jobs = tuple(dict.fromkeys(one.path.stem for one in found))
        raise NotUnderstood(text, "no such file, and no record of such a job", jobs[:_OFFERED])
    return named[0].path


def new_path(folder: Path, job: str, date: str) -> Path:
    """Return the path of a record that is not there yet: job and date, counted where taken."""
    name = _slug(job)
    count = 1
    while _begun(path := folder / f"{name}-{date}{'' if count == 1 else f'-{count}'}{ENDING}"):
        count += 1
    return path


def _slug(job: str) -> str:
    """Return the last part of a job's id or name as it stands in a file's name."""
    return _UNSAFE.sub("-", job.rpartition("/")[2].lower()).strip("-")[:_LONGEST] or "job"


def _begun(path: Path) -> bool:
    """Return whether a file holds a whole line; a run that was killed at once left none."""
    try:
        return b"\n" in path.read_bytes()
    except FileNotFoundError:
        return False
    except OSError:
        return True  # it is there, and not for us
