"""The list of records that lie in their folder."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.jobs.keeping import Kept
    from torquebook.render.paper import Paper


def text(answer: Sequence[Kept], paper: Paper) -> None:
    """Write a paragraph a record."""
    if not answer:
        paper.text("no records yet; torquebook job run JOB begins one")
    for one in answer:
        paper.text(one.line, 0, 2)


def data(answer: Sequence[Kept]) -> list[dict[str, Any]]:
    """Return the records for a program."""
    return [
        {
            "record": str(one.path),
            "job": one.job,
            "begun": one.begun,
            "for": one.vehicle or None,
            "entries": one.entries,
            "signed": one.signed,
        }
        for one in answer
    ]
