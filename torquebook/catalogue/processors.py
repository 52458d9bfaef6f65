"""Do one thing to many files, on all processors where that can be done without side effects."""

from __future__ import annotations

import os
import sys
import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, Final, TypeVar

from torquebook.errors import TorquebookError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    T = TypeVar("T")

#: From so many records on it pays to start other processes to read them.
MANY: Final = 2000
_AT_ONCE: Final = 16  # few enough that no process ends long before the others


class WorkFault(Exception):
    """What was to be done failed in another process; says how."""


#: What a process that was made by forking is there for; it need not be pickled.
_work: Callable[[str], Any]


@contextmanager
def in_order(work: Callable[[str], T], names: Sequence[str], *, many: int) -> Iterator[Iterable[T]]:
    """Give what comes of names, in their order.

    Where processes are made by forking, and this one has a single thread, all processors work;
    elsewhere a new process would run the caller's own script again, so there is only this one.

    Parameters
    ----------
    work : callable
        Takes a name; what it returns can be pickled.
    names : sequence of str
    many : int
        From so many names on other processes are started.

    Raises
    ------
    TorquebookError
        As the work does.
    WorkFault
        If the work fails otherwise in another process.
    """
    processes = os.cpu_count() or 1
    alone = sys.platform != "linux" or threading.active_count() > 1
    if len(names) < many or processes == 1 or alone:
        yield map(work, names)
        return
    import multiprocessing  # noqa: PLC0415 - only for many
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415 - as above

    forking = multiprocessing.get_context("fork")
    with ProcessPoolExecutor(processes, forking, _begin, (work,)) as pool:
        yield pool.map(_do, names, chunksize=_AT_ONCE)


def _begin(work: Callable[[str], Any]) -> None:
    """Keep what this process is there for."""
    global _work  # noqa: PLW0603 - a process of its own
    _work = work


def _do(name: str) -> Any:
    try:
        return _work(name)
    except TorquebookError:
        raise
    except Exception as fault:  # noqa: BLE001 - whatever it is, it is raised on the other side
        # Not every error can be taken to another process, and one that cannot ends all of them.
        raise WorkFault(f"{fault or repr(fault)}") from None
