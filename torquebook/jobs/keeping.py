"""Where the records of jobs are kept, and which of them a run goes on with."""

from __future__ import annotations

import json
import os
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.journal import Entry, read_journal
from torquebook.jobs.lock import Lock
from torquebook.jobs.running import Trail, trail

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

SUFFIX: Final = ".jsonl"
RECORDS_PATH: Final = "TORQUEBOOK_RECORDS"
"""The variable that names the folder of the records."""
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

    def is_for(self, vehicle: str) -> bool:
        """Return whether it is the record of a vehicle; of any where none is named."""
        return vehicle in {"", self.vehicle}

    @property
    def line(self) -> str:
        """The record in one line, for a list to choose from."""
        vehicle = f" for {self.vehicle}" if self.vehicle else ""
        state = "signed" if self.signed else "unfinished"
        return f"{self.path}: {self.job}{vehicle}, begun {self.begun}, {state}"


def records_folder(environ: Mapping[str, str], platform: str = sys.platform) -> Path:
    """Return the folder where records are kept: as told, else that of the platform."""
    if told := environ.get(RECORDS_PATH):
        return Path(told)
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
    found = (_glance(path) for path in sorted(folder.glob(f"*{SUFFIX}")))
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
        if one.job == job and not one.signed and one.is_for(vehicle)
    ]  # fmt: skip
    if len(open_ones) > 1:
        raise _several(job, open_ones, "name one: --for VEHICLE, --record FILE, or --new")
    return open_ones[0] if open_ones else None


def _several(job: str, found: Sequence[Kept], right: str) -> Unreadable:
    """Return the message that lists records to choose from."""
    what = f"{len(found)} records: " + " / ".join(one.line for one in found)
    return Unreadable(job, what, right)


def chosen(found: Sequence[Kept], text: str, vehicle: str = "") -> Path:
    """Return the record that somebody names: a file, one of the folder, or a job that has one.

    Parameters
    ----------
    found : sequence of Kept
    text : str
    vehicle : str
        Only records of this one count; empty for any.

    Raises
    ------
    NotUnderstood
        If there is none, or none for the vehicle.
    Unreadable
        If the job has more than one.
    """
    if Path(text).is_file():
        if vehicle:
            raise Unreadable(text, "is one record by itself", "leave out --for, or name the job")
        return Path(text)
    named = [one for one in found if text in {one.path.name, one.path.stem}]
    named = named or [one for one in found if slug(one.job) == slug(text)]
    if not named:
        jobs = tuple(dict.fromkeys(one.path.stem for one in found))
        raise NotUnderstood(text, "no such file, and no record of such a job", jobs[:_OFFERED])
    fit = [one for one in named if one.is_for(vehicle)]
    if len(fit) > 1:
        raise _several(text, fit, "name one: --for VEHICLE, or its file")
    if not fit:
        known = tuple(dict.fromkeys(one.vehicle for one in named if one.vehicle))
        raise NotUnderstood(vehicle, f"no record of {text} for it", known[:_OFFERED])
    return fit[0].path


def new_path(folder: Path, job: str, date: str) -> Path:
    """Return the path of a record that is not there yet: job and date, counted where taken."""
    name = slug(job)
    count = 1
    while _begun(path := folder / f"{name}-{date}{'' if count == 1 else f'-{count}'}{SUFFIX}"):
        count += 1
    return path


def slug(job: str) -> str:
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


def take_in(path: Path, folder: Path, hand: Mapping[str, Any]) -> Path:
    """Take a journal that was made elsewhere into a folder of records, verified.

    Parameters
    ----------
    path, folder : Path
    hand : mapping of str to Any
        Who does it, for the lock.

    Returns
    -------
    Path
        Where it is kept. A journal that goes on from one that is there takes its place.

    Raises
    ------
    Unreadable
        If it is broken or empty, or two journals of one run went on apart.
    """
    entries = read_journal(path)[0]
    if not entries:
        raise Unreadable(str(path), "holds no entry", "export it again")
    hashes = [entry.hash for entry in entries]
    for one in kept(folder):
        known = [entry.hash for entry in read_journal(one.path)[0]]
        if known[:1] != hashes[:1]:
            continue
        shorter = min(len(known), len(hashes))
        if known[:shorter] != hashes[:shorter]:
            what = f"went on apart from {one.path} at entry {shorter}"
            raise Unreadable(str(path), what, "keep both files, and go by the paper")
        if len(known) < len(hashes):
            _write(one.path, entries, hand)
        return one.path
    first = entries[0].facts
    day = slug(str(first.get("at", ""))[:10])
    new = new_path(made(folder), str(first.get("job", "")), day)
    _write(new, entries, hand)
    return new


def _write(path: Path, entries: Sequence[Entry], hand: Mapping[str, Any]) -> None:
    """Write a journal whole, or leave what is there."""
    beside = path.with_name(f"{path.name}.new")
    try:
        with Lock(path, hand), beside.open("w", encoding="ascii") as stream:
            stream.writelines(f"{entry.line}\n" for entry in entries)
            stream.flush()
            os.fsync(stream.fileno())
        beside.replace(path)
    except OSError as fault:
        what = f"cannot be written ({fault.strerror})"
        raise Unreadable(str(path), what, "make room, and import it again") from fault
