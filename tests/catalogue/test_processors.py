"""Checks of doing one thing to many files."""

from __future__ import annotations

import os
import threading
from concurrent.futures.process import BrokenProcessPool
from typing import NamedTuple

import pytest

from torquebook.catalogue.processors import WorkFault, in_order
from torquebook.errors import OutOfRange

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


def refuse(name: str) -> Done:
    """Fail, for some names in ways that no other process can take over."""
    number = int(name[:3])
    if number == 77:
        raise OutOfRange("pitch_mm", 3, 0.1, 2, "an example")
    if number == 200:
        raise RuntimeError(name, lambda: None)
    if number == 230:
        os._exit(9)
    return work(name)


@pytest.mark.skipif(os.cpu_count() == 1, reason="there is one processor")
@pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes by forking")
@pytest.mark.parametrize(
    ("names", "kind", "said"),
    [
        (NAMES[:100], OutOfRange, r"pitch_mm = 3 is outside 0\.1 to 2 \(an example\)"),
        (NAMES[150:210], WorkFault, "200.yaml"),
        (NAMES[220:], BrokenProcessPool, "terminated abruptly"),
    ],
)
def test_what_goes_wrong_elsewhere_is_raised_here(
    names: list[str], kind: type[Exception], said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An error in another process, or its end, is said, and nobody waits for ever."""
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    with pytest.raises(kind, match=said), in_order(refuse, names, many=2) as every:
        list(every)


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
