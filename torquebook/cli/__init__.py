"""The commands. Each module parses, calls and renders; what it knows stands elsewhere."""

from __future__ import annotations

import gc
import os
import sys
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.cli.exits import Exit


def main(arguments: Sequence[str] | None = None) -> None:
    """Run one command and leave with its exit code.

    Parameters
    ----------
    arguments : sequence of str, optional
        The words behind the program's name; those of the process if not given.
    """
    # Imports make no garbage, but the collector looks through them again and again: a tenth
    # of a short command's time. What works through many lines turns it on again.
    gc.disable()
    # Nothing here needs a plugin of the models' library, and to look for some costs time.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    code = run(sys.argv[1:] if arguments is None else arguments)
    if os.environ.get("TORQUEBOOK_DEBUG"):
        sys.exit(code)
    # The answer is written. To take every module apart before leaving would take an eighth of
    # the whole time, and nothing is waiting for it: files are closed, and no threads run.
    with suppress(OSError, ValueError):
        sys.stdout.flush()
        sys.stderr.flush()
    os._exit(code)


def run(arguments: Sequence[str]) -> Exit | int:
    """Run one command and return its exit code; whatever goes wrong is one message."""
    from torquebook.cli.trouble import guarded  # noqa: PLC0415 - a reader of the package needs no click

    return guarded(list(arguments))
