"""Checks that a broken, foreign or unwritable index is no trouble."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.store import cache, layout
from torquebook.catalogue.store.kept import BROKEN, UNKEPT, Kept
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from conftest import Shop

NAMES = ["chain oil", "bar oil"]
ROOT = Path(__file__).resolve().parents[3]


def spoilt(path: Path, how: str) -> bytes:
    """Return the content of a good index, spoilt in some way."""
    good = path.read_bytes()
    if how == "garbage":
        return b"garbage" * 1000
    if how == "other layout":
        return good[:60] + (layout.LAYOUT + 1).to_bytes(4, "big") + good[64:]
    if how == "another program's":
        return good[:68] + b"\0\0\0\0" + good[72:]
    return {"empty": b"", "cut short": good[: len(good) // 2], "one page": good[:4096]}[how]


@pytest.mark.parametrize(
    "how",
    [
        "garbage", "empty", "cut short", "one page", "other layout", "another program's",
    ],
)  # fmt: skip
def test_broken_index(how: str, shop: Shop) -> None:
    """An index that is broken in whatever way is made anew with one word, once."""
    shop.names()
    path = shop.index()
    path.write_bytes(spoilt(path, how))
    assert shop.names() == NAMES
    assert shop.said == [BROKEN.format(shop.folder)]
    assert shop.names() == NAMES
    assert shop.said == []


@pytest.mark.parametrize("sql", ["UPDATE about SET value = 'x' WHERE key = 'stamp'",
                                 "UPDATE about SET value = 'x' WHERE key = 'of'",
                                 "DROP TABLE about"])  # fmt: skip
def test_index_of_another_version(sql: str, shop: Shop) -> None:
    """An index that another version made, or one of another folder, is made anew."""
    shop.names()
    with sqlite3.connect(shop.index()) as connection:
        connection.execute(sql)
    connection.close()
    assert shop.names() == NAMES
    assert shop.said == [BROKEN.format(shop.folder)]


@pytest.mark.parametrize("sql", ["UPDATE rows SET row = '[' || row", "DROP TABLE rows",
                                 "DROP TABLE files"])  # fmt: skip
def test_index_found_broken_late(sql: str, shop: Shop) -> None:
    """What is found to be broken when it is asked is made anew, and the question answered."""
    shop.names()
    with sqlite3.connect(shop.index()) as connection:
        connection.execute(sql)
    connection.close()
    assert shop.names() == NAMES
    assert shop.said == [BROKEN.format(shop.folder)]


def test_words_found_broken_late(shop: Shop) -> None:
    """Pages that are broken are met when a word is looked for, and cards are found all the same."""
    shop.names()
    path = shop.index()
    with sqlite3.connect(path) as connection:
        connection.execute("UPDATE named_data SET block = x'ff'")
        connection.execute("UPDATE cards SET card = '{'")
    connection.close()
    layer = shop.open()
    (hit,) = layer.called("bar oil")
    assert layer.card(hit)["name"] == "bar oil"
    assert layer.matching("named", '"chain"', 9)[0].name == "chain oil"
    assert shop.said == [BROKEN.format(shop.folder)]


def test_a_question_that_is_wrong_itself(shop: Shop) -> None:
    """A question that no index can answer is our own fault, and said to be one."""
    layer = shop.open()
    for _ in range(2):
        with pytest.raises(sqlite3.OperationalError, match="no such column"):
            layer.ask("SELECT no_such FROM cards")
    assert shop.said == [BROKEN.format(shop.folder)]


def test_folder_is_no_index(shop: Shop) -> None:
    """A folder where the index should lie is left alone, and the answer given all the same."""
    shop.names()
    path = shop.index()
    path.unlink()
    path.mkdir()
    assert shop.names() == NAMES
    assert shop.said[-1] == UNKEPT.format(shop.folder, path.parent)


def refuse(*_: object, **__: object) -> None:
    """Stand for a cache that cannot be written."""
    raise PermissionError(13, "Permission denied")


@pytest.mark.parametrize("step", ["makedirs", "replace"])
def test_cache_cannot_be_written(step: str, shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a cache the answer is the same, with a word each time, and nothing is left behind."""
    monkeypatch.setattr(cache.os, step, refuse)
    for _ in range(2):
        assert shop.names() == NAMES
        assert shop.said == [UNKEPT.format(shop.folder, shop.cache / "torquebook")]
    assert not list(shop.cache.glob("torquebook/*"))


def test_stale_index_in_a_cache_that_cannot_be_written(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stale index that cannot be replaced is brought up to date in memory."""
    shop.names()
    before = shop.index().read_bytes()
    shop.write("three.yaml", "cup grease")
    monkeypatch.setattr(cache.os, "replace", refuse)
    assert shop.names() == ["chain oil", "cup grease", "bar oil"]
    kept = UNKEPT.format(shop.folder, shop.cache / "torquebook")
    assert shop.said == [kept, f"1 record changed in {shop.folder}; its index is made anew"]
    assert shop.index().read_bytes() == before


def test_damaged_and_stale(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stale index that turns out to be broken while it is brought up to date is made anew."""
    shop.names()
    (shop.folder / "two.yaml").unlink()
    with sqlite3.connect(shop.index()) as connection:
        connection.execute("DROP TABLE called")
    connection.close()
    with monkeypatch.context() as patch:
        patch.setattr(cache.os, "makedirs", refuse)
        assert shop.names() == ["chain oil"]
    assert shop.names() == ["chain oil"]
    assert shop.names() == ["chain oil"]
    assert shop.said == []


def test_no_home(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever has no home is answered from memory."""
    monkeypatch.setattr("torquebook.catalogue.store.kept.index_path", no_home)
    assert shop.names() == NAMES
    assert shop.said == [UNKEPT.format(shop.folder, "a cache folder")]


def no_home(path: str) -> str:
    """Stand for a user without a home."""
    raise Unreadable(path, "no home folder", "set XDG_CACHE_HOME")


def test_several_processes_at_once(shop: Shop) -> None:
    """Processes that make one index at once all answer, and leave one whole index."""
    for number in range(60):
        shop.write(f"more/{number:02}.yaml", f"oil {number}")
    code = (
        "import sys; from torquebook.catalogue.store.folder import open_folders;"
        "print(len(open_folders([sys.argv[1]])[0].rows('frictions')))"
    )
    command = [sys.executable, "-c", code, str(shop.folder)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    running = [
        subprocess.Popen(command, stdout=subprocess.PIPE, env=environment, text=True)
        for _ in range(4)
    ]
    assert [process.communicate()[0] for process in running] == ["62\n"] * 4
    assert [path.suffix for path in shop.cache.glob("torquebook/*")] == [".sqlite"]
    assert len(shop.names()) == 62
    assert shop.said == []


def test_kept_is_filled_by_its_kind(tmp_path: Path, shop: Shop) -> None:
    """What an index is filled with is for the kind of layer to say."""
    with pytest.raises(NotImplementedError):
        Kept(str(tmp_path), "1", shop.said.append)
