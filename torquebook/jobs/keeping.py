"""Where records of jobs are kept, and what a run of one begins with."""

from __future__ import annotations

import hashlib
import os
import re
from datetime import date
from typing import TYPE_CHECKING, Any

from torquebook.errors import Unreadable
from torquebook.jobs.journal import read_entries

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from torquebook.jobs.journal import Entry
    from torquebook.jobs.model import WorkedJob
    from torquebook.jobs.steps import RunStep

SUFFIX = ".jsonl"
_ENDED = frozenset({"sign"})


def slug(job: str) -> str:
    """Return a job's id as it stands in the names of files."""
    return re.sub(r"[^a-z0-9]+", "-", job.casefold().removeprefix("jobs/")).strip("-") or "job"


def new_path(folder: Path, job: str, day: date) -> Path:
    """Return the file for another run of a job; numbered where the day has one."""
    number = 1
    while (path := folder / f"{slug(job)}-{day.isoformat()}-{number}{SUFFIX}").exists():
        number += 1
    return path


def unfinished(folder: Path, job: str) -> list[Path]:
    """Return the records of a job that nobody has signed off, the oldest first."""
    found = []
    for path in sorted(folder.glob(f"{slug(job)}-*{SUFFIX}")):
        entries = entries_of(path)
        if entries and entries[0].facts.get("job") == job and not _ended(entries):
            found.append(path)
    return found


def entries_of(path: Path) -> tuple[Entry, ...]:
    """Return the entries of a record, verified; a torn last line is left out.

    Raises
    ------
    Unreadable
        If it cannot be read, or its chain is broken.
    """
    try:
        content = path.read_bytes()
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise Unreadable(str(path), what, "name a record of a job") from fault
    whole = content[: content.rfind(b"\n") + 1]
    return read_entries(whole.decode("ascii", "replace"), str(path))


def _ended(entries: Sequence[Entry]) -> bool:
    return any(entry.facts.get("what") in _ENDED for entry in entries)


def fingerprint(job: WorkedJob) -> str:
    """Return a hash of the records that a job is made of, as they stand."""
    texts = [job.held.text, *sorted({joint.held.text for joint in job.joints})]
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()


def start_facts(job: WorkedJob, steps: Sequence[RunStep], whom: str) -> dict[str, Any]:
    """Return what the first entry of a record says."""
    return {
        "what": "start",
        "job": job.held.id,
        "title": job.held.record.title,
        "for": whom,
        "records": fingerprint(job),
        "steps": [[step.id, step.title] for step in steps],
        "rechecks": [
            [joint.held.record.name, check.what, check.after]
            for joint in job.joints
            for check in joint.held.record.rechecks
        ],
    }


def take_in(path: Path, folder: Path) -> Path:
    """Take a journal that was made elsewhere into a folder of records, verified.

    Returns
    -------
    Path
        Where it is kept. A journal that goes on from one that is there takes its place.

    Raises
    ------
    Unreadable
        If it is broken or empty, or two journals of one run went on apart.
    """
    entries = entries_of(path)
    if not entries:
        raise Unreadable(str(path), "holds no entry", "export it again")
    hashes = [entry.hash for entry in entries]
    for kept in folder.glob(f"*{SUFFIX}"):
        known = [entry.hash for entry in entries_of(kept)]
        if not known or known[0] != hashes[0]:
            continue
        shorter = min(len(known), len(hashes))
        if known[:shorter] != hashes[:shorter]:
            what = f"went on apart from {kept} at entry {shorter}"
            raise Unreadable(str(path), what, "keep both files, and go by the paper")
        if len(known) < len(hashes):
            _write(kept, entries)
        return kept
    folder.mkdir(parents=True, exist_ok=True)
    first = entries[0].facts
    day = str(first.get("at", ""))[:10]
    made = new_path(folder, str(first.get("job", "")), date.fromisoformat(day or "1970-01-01"))
    _write(made, entries)
    return made


def _write(path: Path, entries: Sequence[Entry]) -> None:
    """Write a journal whole, or leave what is there."""
    beside = path.with_name(f"{path.name}.new")
    try:
        with beside.open("w", encoding="ascii") as stream:
            stream.writelines(f"{entry.line}\n" for entry in entries)
            stream.flush()
            os.fsync(stream.fileno())
        beside.replace(path)
    except OSError as fault:
        what = f"cannot be written ({fault.strerror})"
        raise Unreadable(str(path), what, "make room, and import it again") from fault
