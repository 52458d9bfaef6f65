"""Checks of reading many records."""

from __future__ import annotations

import os
import threading
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.layers import content_of
from torquebook.catalogue.store import reading
from torquebook.catalogue.store.reading import contents

if TYPE_CHECKING:
    from conftest import Shop

    from torquebook.catalogue.store.writing import Content


def who(folder: str, name: str) -> Content:
    """Return the content of a record, the process that read it in place of the digest."""
    return content_of(folder, name)._replace(digest=b"%d" % os.getpid())


@pytest.mark.skipif(os.cpu_count() == 1, reason="there is one processor")
@pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes by forking")
def test_all_processors(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Many records are read by other processes, in their order, faults and all."""
    monkeypatch.setattr(reading, "MANY", 5)
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    names = [f"{number:03}.yaml" for number in range(250)]
    for name in names:
        shop.write(name, f"oil {name}")
    (shop.folder / "007.yaml").write_text("kind: x")
    folder = str(shop.folder)
    with contents(folder, names, who) as every:
        found = list(every)
    assert b"%d" % os.getpid() not in {content.digest for content in found}
    with contents(folder, names[:4], who) as every:
        assert {content.digest for content in every} == {b"%d" % os.getpid()}
    plain = [content_of(folder, name)._replace(digest=b"") for name in names]
    assert [content._replace(digest=b"") for content in found] == plain
    assert len(plain[7].faults) == 1


@pytest.mark.parametrize("why", ["threads", "platform", "one processor"])
def test_one_process(why: str, shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where other processes are no use, or would do harm, this one reads all."""
    monkeypatch.setattr(reading, "MANY", 1)
    if why == "threads":
        monkeypatch.setattr(threading, "active_count", lambda: 2)
    elif why == "platform":
        monkeypatch.setattr(reading.sys, "platform", "darwin")
    else:
        monkeypatch.setattr(os, "cpu_count", lambda: None)
    with contents(str(shop.folder), ["two.yaml", "oils/one.yaml"], who) as every:
        assert [content.digest for content in every] == [b"%d" % os.getpid()] * 2
