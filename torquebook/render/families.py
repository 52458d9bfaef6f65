"""The list of families of questions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.quiz.making import Listed
    from torquebook.render.paper import Paper


def text(answer: Sequence[Listed], paper: Paper) -> None:
    """Write a row a family: its slug, from which level on it is asked, what it teaches."""
    rows = [(one.slug, str(one.level), one.aim) for one in answer]
    paper.columns([("family", "from level", "to"), *rows])
    paper.gap()
    paper.text("For sheets of some: torquebook quiz --families FAMILY,FAMILY")


def data(answer: Sequence[Listed]) -> list[dict[str, Any]]:
    """Return the families for a program."""
    return [{"family": one.slug, "level": one.level, "aim": one.aim} for one in answer]
