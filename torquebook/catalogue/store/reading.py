"""Read many records, on all processors where that can be done without side effects."""

from __future__ import annotations

import os
import sys
import threading
from contextlib import contextmanager
from functools import partial
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from torquebook.catalogue.store.making import Reader
    from torquebook.catalogue.store.writing import Content

#: From so many records on it pays to start other processes.
MANY: Final = 2000
_AT_ONCE: Final = 100


@contextmanager
def contents(folder: str, names: Sequence[str], read: Reader) -> Iterator[Iterable[Content]]:
    """Give what records say, in the order of their names.

    Where processes are made by forking, and this one has a single thread, all processors read;
    elsewhere a new process would run the caller's own script again, so there is only this one.

    Parameters
    ----------
    folder : str
    names : sequence of str
        The files' paths in the folder.
    read : callable
        Reads one record.
    """
    processes = os.cpu_count() or 1
    alone = sys.platform != "linux" or threading.active_count() > 1
    if len(names) < MANY or processes == 1 or alone:
        yield (read(folder, name) for name in names)
        return
    import multiprocessing  # noqa: PLC0415 - only for many

    with multiprocessing.get_context("fork").Pool(processes) as pool:
        yield pool.imap(partial(read, folder), names, _AT_ONCE)
