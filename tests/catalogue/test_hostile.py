"""Checks that no file whatever does harm: one message, in bounded time and memory."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import hostile
import pytest
from hostile import HOLES, TEXTS

from torquebook.catalogue.contributed import contributed
from torquebook.catalogue.layers import vetted
from torquebook.catalogue.library import Library
from torquebook.records.reuse import ReuseRule
from torquebook.rules.admitting import Vetting

if TYPE_CHECKING:
    from torquebook.findings import Finding

SECONDS = 15  # several times what the slowest takes where nothing else runs
PEAK_MIB = 500
LONGEST = 500  # characters of a message with what would be right; a list of all kinds is 250
SOUND = Path(__file__).parents[2] / "specs/friction/dry.yaml"


@pytest.fixture(scope="module")
def looked_at(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Any]]:
    """Return what is said of each of the large files, each in a process of its own."""
    command = [sys.executable, hostile.__file__, str(tmp_path_factory.mktemp("large"))]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=300)
    assert not done.stderr
    return {said["name"]: said for said in map(json.loads, done.stdout.splitlines())}


@pytest.mark.parametrize("name", [*TEXTS, *HOLES])
def test_large_files(looked_at: dict[str, dict[str, Any]], name: str) -> None:
    """A file that is too large, too deep or too many costs little and ends in short messages."""
    said = looked_at[name]
    _, *first = TEXTS.get(name, (None, "text-unreadable", 1, 1))
    assert [said["rule"], said["line"], said["column"]] == first
    assert said["seconds"] < SECONDS
    assert said["peak"] < PEAK_MIB
    assert said["longest"] < LONGEST


@pytest.mark.parametrize("name", HOLES)
def test_too_large_files_are_not_read(looked_at: dict[str, dict[str, Any]], name: str) -> None:
    """Of a file above 8 MiB no more than that is read."""
    assert looked_at[name]["message"] == "larger than 8 MiB"
    assert looked_at[name]["peak"] < looked_at["line ends"]["peak"] + 16


def look(path: Path | str) -> Finding:
    """Return the one finding about a file."""
    (finding,) = Vetting().look(str(path))
    assert finding.place.file == str(path)
    assert finding.message.isprintable()
    assert finding.instead
    return finding


def shelf(root: Path) -> Path:
    """Return a new folder of joints, in a folder of records of its own."""
    folder = root / "records" / "joints"
    folder.mkdir(parents=True)
    return folder


def test_links_out(tmp_path: Path) -> None:
    """A link out of the folder of records is not followed, whatever it leads to."""
    folder = shelf(tmp_path)
    for number, goal in enumerate((str(SOUND), "/dev/zero", "/etc/passwd", "../../../x.yaml")):
        link = folder / f"{number}.yaml"
        link.symlink_to(goal)
        assert look(link).message in {
            "a link out of its folder of records",
            "cannot be opened (No such file or directory)",
        }
    assert look(folder / "0.yaml").message == "a link out of its folder of records"


def test_link_inside(tmp_path: Path) -> None:
    """A link that stays in its folder of records is read like the file itself."""
    folder = shelf(tmp_path)
    (folder / "a.yaml").write_text("kind: joints\n")
    (folder / "b.yaml").symlink_to("a.yaml")
    assert look(folder / "b.yaml").rule == "kind-unknown"


def test_links_in_a_ring(tmp_path: Path) -> None:
    """Links that lead to each other end in a message."""
    folder = shelf(tmp_path)
    (folder / "a.yaml").symlink_to("b.yaml")
    (folder / "b.yaml").symlink_to("a.yaml")
    (folder / "c.yaml").symlink_to("c.yaml")
    for name in "abc":
        assert look(folder / f"{name}.yaml").message.startswith("cannot be opened (Too many levels")


def test_folders_in_a_ring(tmp_path: Path) -> None:
    """A link from a folder to one above it is no way to records, and is said."""
    folder = shelf(tmp_path)
    (folder / "a.yaml").write_text("kind: joints\n")
    (folder / "again").symlink_to("..")
    assert list(contributed([str(tmp_path)])) == [str(folder / "a.yaml"), str(folder / "again")]
    assert look(folder / "again").rule == "text-unreadable"


def test_no_files(tmp_path: Path) -> None:
    """Devices, pipes and folders that are called like records are refused unread."""
    folder = shelf(tmp_path)
    os.mkfifo(folder / "pipe.yaml")
    (folder / "folder.yaml").mkdir()
    for path in (folder / "pipe.yaml", folder / "folder.yaml", "/dev/zero", "/dev/null"):
        assert look(path).message == "a device, a pipe or a folder, and no file"
    assert list(contributed([str(folder)])) == [str(folder / "pipe.yaml")]


def test_no_files_beside(tmp_path: Path) -> None:
    """Pipes and devices among the records that a record is held against are not opened."""
    specs = SOUND.parents[1]
    for name in ("joints", "jobs", "reuse", "prevailing", "patterns", "friction", "tables"):
        folder = tmp_path / name
        folder.mkdir()
        os.mkfifo(folder / "pipe.yaml")
        (folder / "zero.yaml").symlink_to("/dev/zero")
    joint = tmp_path / "joints" / "flywheel.yaml"
    joint.write_bytes((specs / "joints/brigade/flywheel.yaml").read_bytes())
    job = tmp_path / "jobs" / "overhaul.yaml"
    text = (specs / "jobs/brigade-overhaul.yaml").read_text(encoding="utf-8")
    job.write_text(text.replace("joints/brigade/flywheel", "joints/pipe"), encoding="utf-8")
    vetting = Vetting()
    assert "stretch-used" in {finding.rule for finding in vetting.look(str(joint))}
    assert "joint-unknown" in {finding.rule for finding in vetting.look(str(job))}
    assert len(vetted(tmp_path).faults()) == 14
    assert Library((tmp_path,), lenient=True).all("reuse", ReuseRule)


def test_no_such_file(tmp_path: Path) -> None:
    """A path to nothing, one that no file can have and one that is too long end in a message."""
    for path in (tmp_path / "absent.yaml", "a\0b.yaml", tmp_path / ("x" * 5_000)):
        assert look(path).message.startswith("cannot be opened (")


NAMES = [
    b"two\nlines",
    b"bell\a",
    b"\x1b[31mred",
    b"1:2:3",
    b"\xff\xfe",
    b"\xed\xa0\x80",
    b"\r",
    b" ",
]


@pytest.mark.parametrize("name", NAMES, ids=ascii)
def test_names_of_files(tmp_path: Path, name: bytes) -> None:
    """A file may have any name: it is found, looked at, and its record is judged."""
    path = os.fsencode(shelf(tmp_path)) + b"/" + name + b".yaml"
    try:
        Path(os.fsdecode(path)).write_bytes(b"kind: [\n")
    except OSError:
        pytest.skip("no name for this file system")
    (found,) = contributed([str(tmp_path)])
    assert os.fsencode(found) == path
    finding = look(found)
    assert (finding.rule, finding.place.line) == ("yaml-broken", 2)
    Path(found).write_bytes(SOUND.read_bytes())
    rules = {finding.rule for finding in Vetting().look(found)}
    assert rules >= {"shelf-wrong", "id-unfit"}


JOINT = b"kind: joint\nname: "


@pytest.mark.parametrize(
    ("raw", "place", "words"),
    [
        (JOINT + b'"\xff"', "2:8", "byte 0xff is no UTF-8"),
        (JOINT + b'"\xc3"', "2:8", "byte 0xc3 is no UTF-8"),
        (JOINT + b'"\xc0\xaf"', "2:8", "byte 0xc0 is no UTF-8"),  # an overlong slash
        (JOINT + b'"\xed\xa0\x80"', "2:8", "byte 0xed is no UTF-8"),  # half a character
        (JOINT + b'"\xf4\x90\x80\x80"', "2:8", "byte 0xf4 is no UTF-8"),  # above U+10FFFF
        ("kind: joint".encode("utf-16"), "1:1", "written as UTF-16"),
        ("\ufeffkind: joint".encode("utf-16-be"), "1:1", "written as UTF-16"),
        ("kind: joint".encode("utf-32"), "1:1", "written as UTF-32"),
        ("\ufeffkind: joint".encode("utf-32-be"), "1:1", "written as UTF-32"),
        ("kind: joint".encode("utf-16-le"), "1:2", "U+0000"),
        (JOINT + '"a\ufeffb"'.encode(), "2:9", "U+FEFF"),
        (JOINT + '"a\u2028b"'.encode(), "2:9", "U+2028"),
        (JOINT + '"a\u0085b"'.encode(), "2:9", "U+0085"),
        (JOINT + '"a\u200bb"'.encode(), "2:9", "U+200B"),
        (JOINT + '"a\u202eb"'.encode(), "2:9", "U+202E"),
        (JOINT + '"a\u2066b"'.encode(), "2:9", "U+2066"),
        (JOINT + '"a\uffffb"'.encode(), "2:9", "U+FFFF"),
        (JOINT + rb'"\u202e"', "2:7", "U+202E"),
        (JOINT + rb'"\uFEFF"', "2:7", "U+FEFF"),
        (JOINT + rb'"\L"', "2:7", "U+2028"),
        (JOINT + rb'"\N"', "2:7", "U+0085"),
        (JOINT + rb'"\0"', "2:7", "U+0000"),
        (JOINT + rb'"\uD800"', "2:10", "no escape of quoted text"),
        (JOINT + rb'"\uD83D\uDE00"', "2:10", "no escape of quoted text"),
        (JOINT + rb'"\U00110000"', "2:10", "no escape of quoted text"),
        (JOINT + rb'"\UFFFFFFFF"', "2:10", "no escape of quoted text"),
        (b"count: NaN\n", "1:1", "the key kind is missing"),
        (b"count: .NaN\n", "1:8", "not a finite number"),
        (b"count: .inf\n", "1:8", "not a finite number"),
        (b"count: -.INF\n", "1:8", "not a finite number"),
        (b"count: 1e400\n", "1:8", "not a finite number"),
        (b"count: -1e400\n", "1:8", "not a finite number"),
        (b"count: 1e" + b"9" * 1_000, "1:8", "not a finite number"),
        (b"count: " + b"9" * 31, "1:8", "more than 30 digits"),
        (b"count: -" + b"9" * 5_000, "1:8", "more than 30 digits"),
        (b"<<: {kind: joint}\n", "1:1", "the key kind is missing"),
        (b"\xef\xbb\xbf\xef\xbb\xbfkind: joint\n", "1:1", "U+FEFF"),
    ],
    ids=ascii,
)
def test_odd_content(tmp_path: Path, raw: bytes, place: str, words: str) -> None:
    """What is no UTF-8, no character to be seen or no number ends in one message."""
    path = tmp_path / "x.yaml"
    path.write_bytes(raw)
    finding = look(path)
    assert words in finding.message
    assert f"{finding.place.line}:{finding.place.column}" == place


@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("-0", "0 is too small"),
        ("-0.0", "-0.0 stands where a whole number belongs"),
        ("18446744073709551616", "18446744073709551616 is too large"),
        ("9" * 30, f"{'9' * 30} is too large"),
        ("1e-400", "0.0 stands where a whole number belongs"),
        ('"\u0664"', '"\u0664" stands where a whole number belongs'),
        ("0x4", '"0x4" stands where a whole number belongs'),
        ("0o4", '"0o4" stands where a whole number belongs'),
        ("1_000", '"1_000" stands where a whole number belongs'),
        ("4:00", '"4:00" stands where a whole number belongs'),
        ("true", "true stands where a whole number belongs"),
        ("4.0", "4.0 stands where a whole number belongs"),
        ("4 mm", '"4 mm" stands where a whole number belongs'),
    ],
)
def test_odd_numbers(tmp_path: Path, number: str, words: str) -> None:
    """What is no number of bolts is refused in its place, with the number as it is read."""
    path = tmp_path / "x.yaml"
    text = 'kind: joint\ntitle: "x"\nname: "x"\nfastener: {thread: "M8"}\ncount: 4\n'
    text += 'tighten: "1 N.m"\nsource: {kind: invented, title: "x", provenance: "invented"}\n'
    path.write_text(text.replace("count: 4", f"count: {number}"), encoding="utf-8")
    finding = look(path)
    assert finding.message == words
    assert (finding.place.line, finding.place.column) == (5, 8)


def test_words_of_a_file_stay_in_one_line(tmp_path: Path) -> None:
    """A message shows line ends in the words of a file as what they are."""
    path = tmp_path / "x.yaml"
    for text in (
        'kind: "a\\nb"\n',
        '"a\\nb": 1\n"a\\nb": 2\n',
        '? "a\n\n  b"\n: 1\n? "a\\nb"\n: 1\n',
    ):
        path.write_text(text)
        assert "a\\nb" in look(path).message
