"""Checks that what a folder's index answers is what its files hold."""

from __future__ import annotations

import os
import time
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.store import folder as module
from torquebook.catalogue.store.folder import FolderLayer, open_folders
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Shop

CHANGED = "1 record changed in {}; its index is made anew"


def test_first_and_second_start(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A first start reads the records without a word, a second one reads none of them."""
    assert shop.names() == ["chain oil", "bar oil"]
    assert shop.said == []
    before = shop.index().stat()
    monkeypatch.setattr("torquebook.catalogue.layers.content_of", None)
    assert shop.names() == ["chain oil", "bar oil"]
    assert shop.said == []
    assert shop.index().stat() == before


@pytest.mark.parametrize("few", [True, False])
@pytest.mark.parametrize("change", ["edit", "replace", "add", "remove", "rename", "new folder"])
def test_a_change_shows(
    change: str, few: bool, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A record that is edited, replaced, added, removed or renamed shows at the next start."""
    monkeypatch.setattr(module, "MOST_COMPARED", 1000 if few else 1)
    shop.names()
    one = shop.folder / "oils" / "one.yaml"
    expected = {"edit": ["saw oil", "bar oil"], "replace": ["saw oil", "bar oil"]}
    if change == "edit":
        one.write_text(one.read_text().replace("chain oil", "saw oil"))
    elif change == "replace":
        new = shop.write("oils/new.txt", "saw oil")
        new.replace(one)
    elif change == "add":
        shop.write("oils/zero.yaml", "cup grease")
        expected["add"] = ["chain oil", "cup grease", "bar oil"]
    elif change == "remove":
        one.unlink()
        expected["remove"] = ["bar oil"]
    elif change == "rename":
        one.rename(shop.folder / "z.yaml")
        expected["rename"] = ["bar oil", "chain oil"]
    else:
        shop.write("deep/er/x.yaml", "cup grease")
        expected["new folder"] = ["cup grease", "chain oil", "bar oil"]
    assert shop.names() == expected[change]
    done = 2 if change == "rename" else 1
    assert shop.said == [CHANGED.format(shop.folder).replace("1 record", f"{done} record")] or (
        done == 2 and shop.said[0].startswith("2 records changed")
    )
    assert shop.names() == expected[change]
    assert shop.said == []


def test_same_size_and_time(shop: Shop) -> None:
    """A record of the same size whose time was set back is still found to be another one."""
    shop.names()
    path = shop.folder / "two.yaml"
    before = path.stat()
    time.sleep(0.02)
    path.write_text(path.read_text().replace("bar oil", "cam oil"))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert path.stat().st_size == before.st_size
    assert shop.names() == ["chain oil", "cam oil"]


def test_only_times_changed(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A record with another time but the same content is not read again, and nothing is said."""
    shop.names()
    path = shop.folder / "two.yaml"
    os.utime(path)
    monkeypatch.setattr("torquebook.catalogue.layers.vet_text", None)
    assert shop.names() == ["chain oil", "bar oil"]
    assert shop.said == []
    path.chmod(0o600)  # the time of its entry alone
    before = shop.index().stat()
    assert shop.names() == ["chain oil", "bar oil"]
    assert shop.index().stat() == before


def test_what_is_shown_is_current(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a large folder a record written over in place is put right when it is shown."""
    monkeypatch.setattr(module, "MOST_COMPARED", 1)
    shop.names()
    path = shop.folder / "two.yaml"
    path.write_text(path.read_text().replace("0.20", "0.21"))
    layer = shop.open()
    assert shop.said == []
    (hit,) = layer.called("bar oil")
    assert not layer.current([hit])
    assert shop.said == [CHANGED.format(shop.folder)]
    (hit,) = layer.called("bar oil")
    assert layer.current([hit])
    assert layer.card(hit)["facts"]["mu_thread"]["nominal"] == 0.21
    assert shop.open().current([hit])


def test_faults_are_kept(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault is told alike when it is read and when it comes from the index, until mended."""
    path = shop.write("two.yaml", "bar oil")
    path.write_text(path.read_text().replace("0.20", '"0.20"').replace("false", "no"))
    said = rf"^{path}:4:32: .*text.*\(and 1 more fault\)$"
    with pytest.raises(Unreadable, match=said) as first:
        shop.open()
    with monkeypatch.context() as patch:
        patch.setattr("torquebook.catalogue.layers.content_of", None)
        with pytest.raises(Unreadable) as second:
            shop.open()
    assert str(second.value) == str(first.value)
    shop.write("two.yaml", "bar oil")
    assert shop.names() == ["chain oil", "bar oil"]


def test_a_fault_in_a_large_folder(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A record that gets a fault in place ends the answer that would have used it."""
    monkeypatch.setattr(module, "MOST_COMPARED", 1)
    shop.names()
    path = shop.folder / "two.yaml"
    path.write_text(path.read_text().replace("0.20", '"0.20"'))
    layer = shop.open()
    with pytest.raises(Unreadable, match=r"two\.yaml:4:32"):
        layer.rows("frictions")
    with pytest.raises(Unreadable, match=r"two\.yaml:4:32"):
        shop.open()
    shop.write("two.yaml", "bar oil")
    assert shop.names() == ["chain oil", "bar oil"]


def test_two_of_one_name(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """A name given twice is a fault of the later record, by whatever path the folder is named."""
    path = shop.write("two.yaml", "Chain-Oil")
    what = 'the name "Chain-Oil" stands in {}/oils/one.yaml too; give one of them another name'
    with pytest.raises(Unreadable) as caught:
        shop.open()
    assert str(caught.value) == f"{path}: {what.format(shop.folder)}"
    monkeypatch.chdir(shop.folder.parent)
    with pytest.raises(Unreadable) as caught:
        open_folders(["shop"])
    assert str(caught.value) == f"shop/two.yaml: {what.format('shop')}"
    (shop.folder / "oils" / "one.yaml").unlink()
    assert shop.names() == ["Chain-Oil"]


def test_linked_folder(shop: Shop, tmp_path: Path) -> None:
    """A folder that is reached by a link has its records, an index of its own, and its name."""
    link = tmp_path / "link"
    link.symlink_to(shop.folder)
    layer = FolderLayer(str(link), shop.said.append)
    assert [row[0] for row in layer.rows("frictions")] == ["chain oil", "bar oil"]
    shop.names()
    assert len(list(shop.cache.glob("torquebook/*.sqlite"))) == 2
    shop.write("three.yaml", "cup grease")
    again = FolderLayer(str(link), shop.said.append)
    assert len(again.rows("frictions")) == 3


def test_large_field_is_refused(shop: Shop) -> None:
    """A field of 10 MB is refused by the reader, and so no index holds it."""
    path = shop.write("two.yaml", "bar oil")
    path.write_text(path.read_text().replace('title: "test"', f'title: "{"x" * 10_000_000}"'))
    with pytest.raises(Unreadable, match=r"two\.yaml: larger than 8 MiB"):
        shop.open()
    assert shop.index().stat().st_size < 300_000


def test_many_are_announced(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where a first reading takes long, that is said before it begins."""
    monkeypatch.setattr("torquebook.catalogue.processors.MANY", 2)
    assert shop.names() == ["chain oil", "bar oil"]
    assert shop.said == [f"reading 2 records of {shop.folder}, this once"]


def test_no_folder(tmp_path: Path) -> None:
    """A folder that is not there is said, as is one that went away."""
    with pytest.raises(Unreadable, match=r"gone: no folder; name a folder of records"):
        open_folders([tmp_path / "gone"])


def test_folder_went_away(shop: Shop) -> None:
    """An index does not stand in for a folder that is gone."""
    shop.names()
    shop.folder.rename(shop.folder.parent / "elsewhere")
    with pytest.raises(Unreadable, match="no folder"):
        shop.open()
