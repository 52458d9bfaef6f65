"""Where records are kept, and which one a run goes on with."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from torquebook.errors import NotUnderstood, Unreadable
from torquebook.jobs.journal import Journal
from torquebook.jobs.keeping import (
    chosen,
    kept,
    made,
    new_path,
    records_folder,
    take_in,
    unfinished,
)


def record(path: Path, *entries: object, job: str = "jobs/pump", vehicle: str = "") -> Path:
    """Write a record that has begun, and some entries more."""
    start = {"what": "start", "job": job, "at": "2026-05-02T10:00:00+02:00", "for": vehicle}
    path.write_text("".join(f"{json.dumps(one)}\n" for one in (start, *entries)))
    return path


SIGNED = {"what": "sign", "step": "sign"}


@pytest.mark.parametrize(
    ("environ", "platform", "folder"),
    [
        ({"XDG_DATA_HOME": "/data", "HOME": "/h"}, "linux", "/data/torquebook/records"),
        ({"XDG_DATA_HOME": "rel", "HOME": "/h"}, "linux", "/h/.local/share/torquebook/records"),
        ({"HOME": "/h"}, "linux", "/h/.local/share/torquebook/records"),
        ({"HOME": "/h"}, "darwin", "/h/Library/Application Support/torquebook/records"),
        ({"LOCALAPPDATA": "/l"}, "win32", "/l/torquebook/records"),
        ({"TORQUEBOOK_RECORDS": "/r", "HOME": "/h"}, "linux", "/r"),
        ({"USERPROFILE": "/u"}, "win32", "/u/AppData/Local/torquebook/records"),
    ],
)
def test_records_lie_in_the_platforms_folder(
    environ: dict[str, str], platform: str, folder: str
) -> None:
    """Each platform has its own, and a relative XDG_DATA_HOME counts for nothing."""
    assert records_folder(environ, platform) == Path(folder)


def test_the_folder_is_made(tmp_path: Path) -> None:
    """With those above it; a file in its place is one message."""
    assert made(tmp_path / "a" / "b").is_dir()
    (tmp_path / "file").touch()
    with pytest.raises(Unreadable, match="cannot be made"):
        made(tmp_path / "file" / "b")


def test_only_records_are_listed(tmp_path: Path) -> None:
    """What is no record is passed over, and what is signed says so."""
    record(tmp_path / "b.jsonl", SIGNED, vehicle="tanker 2")
    record(tmp_path / "a.jsonl", {"what": "bolt", "step": "x"}, [1])
    (tmp_path / "c.jsonl").write_text('{"what": "bolt"}\n')
    (tmp_path / "d.jsonl").write_text("[[[\n" + "[" * 99_999 + "\n")
    (tmp_path / "e.jsonl").write_text('{"what": "start"')
    (tmp_path / "f.jsonl").mkdir()
    found = kept(tmp_path)
    assert [(one.path.name, one.entries, one.signed) for one in found] == [
        ("a.jsonl", 2, False),
        ("b.jsonl", 2, True),
    ]
    assert found[0].line.endswith("a.jsonl: jobs/pump, begun 2026-05-02T10:00:00+02:00, unfinished")
    assert "jobs/pump for tanker 2, begun" in found[1].line
    assert found[1].line.endswith("signed")


def test_a_folder_that_is_not_there_has_no_records(tmp_path: Path) -> None:
    """Nothing was recorded yet."""
    assert kept(tmp_path / "none") == ()


def test_one_unfinished_record_is_gone_on_with(tmp_path: Path) -> None:
    """That of the job, and of the vehicle where one is named."""
    record(tmp_path / "a.jsonl", SIGNED)
    record(tmp_path / "b.jsonl", job="jobs/other")
    one = record(tmp_path / "c.jsonl", vehicle="tanker 1")
    found = kept(tmp_path)
    for vehicle, path in (("", one), ("tanker 1", one), ("tanker 2", None)):
        chosen_one = unfinished(found, "jobs/pump", vehicle)
        assert (chosen_one.path if chosen_one else None) == path
    assert unfinished(found, "jobs/none", "") is None


def test_of_several_one_must_be_named(tmp_path: Path) -> None:
    """They are listed, and the vehicle may tell them apart."""
    record(tmp_path / "a.jsonl", vehicle="tanker 1")
    two = record(tmp_path / "b.jsonl", vehicle="tanker 2")
    with pytest.raises(
        Unreadable, match=r"2 records: .*tanker 1.*tanker 2.*--for.*--record.*--new"
    ):
        unfinished(kept(tmp_path), "jobs/pump", "")
    found = unfinished(kept(tmp_path), "jobs/pump", "tanker 2")
    assert found is not None
    assert found.path == two


def test_a_record_is_chosen_by_file_name_or_job(tmp_path: Path) -> None:
    """A file, the name of one in the folder, or a job that has one only."""
    one = record(tmp_path / "pump-2026-05-02.jsonl")
    found = kept(tmp_path)
    for text in (str(one), one.name, one.stem, "jobs/pump", "pump", "Pump"):
        assert chosen(found, text) == one
    with pytest.raises(NotUnderstood, match="no record of such a job; write pump-2026-05-02"):
        chosen(found, "brakes")
    record(tmp_path / "pump-2026-05-02-2.jsonl")
    with pytest.raises(Unreadable, match=r"2 records.*; name one: --for VEHICLE, or its file"):
        chosen(kept(tmp_path), "pump")


def test_a_record_is_chosen_by_vehicle(tmp_path: Path) -> None:
    """The vehicle tells the records of a job apart; one that has none offers those that have."""
    record(tmp_path / "a.jsonl", vehicle="tanker 1")
    two = record(tmp_path / "b.jsonl", vehicle="tanker 2")
    assert chosen(kept(tmp_path), "pump", "tanker 2") == two
    with pytest.raises(NotUnderstood, match="no record of pump for it; write tanker 1 or tanker 2"):
        chosen(kept(tmp_path), "pump", "tanker 3")
    with pytest.raises(Unreadable, match="one record by itself; leave out --for"):
        chosen(kept(tmp_path), str(two), "tanker 1")


@pytest.mark.parametrize(
    ("job", "name"),
    [
        ("jobs/brigade-overhaul", "brigade-overhaul-2026-05-02.jsonl"),
        ("../../etc/Pass Wd", "pass-wd-2026-05-02.jsonl"),
        ("\x1b[2J", "2j-2026-05-02.jsonl"),
        ("...", "job-2026-05-02.jsonl"),
        ("a" * 300, f"{'a' * 60}-2026-05-02.jsonl"),
    ],
)
def test_a_new_record_has_a_harmless_name(tmp_path: Path, job: str, name: str) -> None:
    """Whatever the job is called, the file lies in the folder."""
    assert new_path(tmp_path, job, "2026-05-02") == tmp_path / name


def test_a_new_record_takes_no_others_place(tmp_path: Path) -> None:
    """A name that is taken is counted on; one that was never begun is used."""
    (tmp_path / "pump-d.jsonl").write_text("{}\n")
    (tmp_path / "pump-d-2.jsonl").mkdir()
    (tmp_path / "pump-d-3.jsonl").write_text('{"seq": 1, "wh')
    assert new_path(tmp_path, "pump", "d").name == "pump-d-3.jsonl"


HOLDER = {"user": "anna", "host": "shed", "pid": 77, "since": "today"}


def journal(path: Path, *kinds: str, job: str = "jobs/pump") -> Path:
    """Write a journal with its chain."""
    opened = Journal.open(path)
    for what in kinds:
        at = "2026-05-02T10:00:00+02:00" if what == "start" else "later"
        opened.append({"what": what, "at": at, "job": job})
    opened.close()
    return path


def test_a_journal_is_taken_in_once(tmp_path: Path) -> None:
    """A longer one of the same run takes its place, a shorter one changes nothing."""
    folder = tmp_path / "records"
    record(made(folder) / "other.jsonl").write_text("")
    journal(folder / "another.jsonl", "start", "pause", job="jobs/other")
    short = journal(tmp_path / "short.jsonl", "start", "gate", "bolt")
    path = take_in(short, folder, HOLDER)
    assert path == folder / "pump-2026-05-02.jsonl"
    assert path.read_bytes() == short.read_bytes()
    longer = journal(tmp_path / "longer.jsonl", "start", "gate", "bolt", "bolt")
    assert take_in(longer, folder, HOLDER) == path
    assert take_in(short, folder, HOLDER) == path
    assert path.read_bytes() == longer.read_bytes()


def test_journals_that_went_on_apart_are_kept_apart(tmp_path: Path) -> None:
    """Neither takes the place of the other."""
    folder = tmp_path / "records"
    path = take_in(journal(tmp_path / "one.jsonl", "start", "gate"), folder, HOLDER)
    before = path.read_bytes()
    with pytest.raises(Unreadable, match=r"went on apart from .*keep both files"):
        take_in(journal(tmp_path / "two.jsonl", "start", "bolt"), folder, HOLDER)
    assert path.read_bytes() == before


def test_what_cannot_be_taken_in_is_one_message(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An empty journal, and a disk that is full: nothing is there afterwards."""
    (tmp_path / "empty.jsonl").touch()
    with pytest.raises(Unreadable, match="holds no entry"):
        take_in(tmp_path / "empty.jsonl", tmp_path, HOLDER)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    one = journal(tmp_path / "one.txt", "start")
    monkeypatch.setattr("torquebook.jobs.keeping.os.fsync", full)
    with pytest.raises(Unreadable, match=r"No space left.*import it again"):
        take_in(one, tmp_path / "records", HOLDER)
    assert list((tmp_path / "records").glob("*.jsonl")) == []
