"""Checks of doing one thing to many files."""

from __future__ import annotations

import os
import threading
from typing import NamedTuple

import pytest

from torquebook.catalogue.processors import in_order

NAMES = [f"{number:03}.yaml" for number in range(250)]


class Done(NamedTuple):
    """A name, and the process that it was done in."""

    name: str
    process: int


def work(name: str) -> Done:
    """Return what was done where."""
    return Done(name, os.getpid())


@pytest.mark.skipif(os.cpu_count() == 1, reason="there is one processor")
@pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes by forking")
def test_all_processors(monkeypatch: pytest.MonkeyPatch) -> None:
    """Many names are worked on by other processes, and come in their order; few by this one."""
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    with in_order(work, NAMES, many=250) as every:
        found = list(every)
    assert [done.name for done in found] == NAMES
    assert os.getpid() not in {done.process for done in found}
    with in_order(work, NAMES, many=251) as every:
        assert {done.process for done in every} == {os.getpid()}


@pytest.mark.parametrize("why", ["threads", "platform", "one processor"])
def test_one_process(why: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where other processes are no use, or would do harm, this one does all."""
    if why == "threads":
        monkeypatch.setattr(threading, "active_count", lambda: 2)
    elif why == "platform":
        monkeypatch.setattr("torquebook.catalogue.processors.sys.platform", "darwin")
    else:
        monkeypatch.setattr(os, "cpu_count", lambda: None)
    with in_order(work, NAMES, many=1) as every:
        assert list(every) == [Done(name, os.getpid()) for name in NAMES]
