"""The list of kinds that ``schema`` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.render.paper import Paper


def text(answer: Sequence[str], paper: Paper) -> None:
    """Write a line a kind."""
    for kind in answer:
        paper.text(kind)


def data(answer: Sequence[str]) -> list[str]:
    """Return the kinds for a program."""
    return list(answer)
