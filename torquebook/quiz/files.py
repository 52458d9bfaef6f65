"""Files of a quiz taken in as plans are, but told of in its own words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.errors import Unreadable
from torquebook.plans import intake

if TYPE_CHECKING:
    from pathlib import Path


def take_in(source: str | Path, right: str) -> tuple[bytes, str]:
    """Return a file's bytes and the name that stands for it.

    Parameters
    ----------
    source : str or Path
        A file's path, or ``-`` for standard input.
    right : str
        What would be right where there is none, or one that holds no text or table.

    Raises
    ------
    Unreadable
        If it cannot be opened, is too large or empty, or is a picture or the like.
    """
    try:
        return intake.take_in(source)
    except Unreadable as fault:
        raise Unreadable(fault.where, fault.what, right) from fault
