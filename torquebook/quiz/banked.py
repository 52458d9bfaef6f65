"""Families whose keys the rules have given: the mistake in a list, the verdict on a fastener."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.quiz.answering import chosen
from torquebook.quiz.bank import judged, ruled
from torquebook.quiz.model import Choice, Grid, Option, Question

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.bank import Judged
    from torquebook.quiz.draws import Draw

#: Short enough to stand two in a row on the sheet.
_VERDICTS: Final = {
    "renew": "renew it",
    "measure": "measure it first",
    "clean": "clean it; if sound, use again",
    "reuse": "use it again",
}
#: By the right verdict and the one that was chosen, what was got wrong; all are always offered.
_MISTAKES: Final = {
    ("renew", "measure"): "no measurement makes it good again",
    ("renew", "clean"): "cleaning does not mend it",
    ("renew", "reuse"): "what is damaged or spent may fail when it is used again",
    ("measure", "renew"): "a measurement decides, and none was taken yet",
    ("measure", "clean"): "a look shows nothing of its stretch or its drag",
    ("measure", "reuse"): "not before it was measured",
    ("clean", "renew"): "nothing speaks against it if it is clean and sound",
    ("clean", "measure"): "there is no limit that it could be measured against",
    ("clean", "reuse"): "dirt and rust on a thread change its friction and hide pits",
    ("reuse", "renew"): "what passes its check may go back in",
    ("reuse", "measure"): "nothing is left to measure",
    ("reuse", "clean"): "it is clean, and was looked at",
}


def list_mistake(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the line of a torque list that is wrong."""
    found = judged(draw, level, unit)
    options = tuple(_line(found, at) for at in range(len(found.cells)))
    rows = tuple((str(at), *cells) for at, cells in enumerate(found.cells, 1))
    return Question(
        "list-mistake", level, "Find the mistake in a torque list before it reaches a bolt.",
        "One line of this torque list is wrong. Which?",
        ("All bolts have hexagon heads and lie on circles; orders name positions, counted round.",
         "Lines within the usual scatter of tightening count as right."),
        Choice(options),
        (f"Line {found.wrong + 1}: {found.kind}.", *_sentences(found.steps),
         f"Rule: {found.rule}."),
        (found.source,), grid=Grid("Torque list", ("line", *found.columns), rows),
    )  # fmt: skip


def _line(found: Judged, at: int) -> Option:
    if at == found.wrong:
        return Option(f"line {at + 1}")
    share = found.shares[at]
    known = f": its preload lies at about {share} % of proof load" if share else ""
    return Option(f"line {at + 1}", f"nothing is wrong with it{known}")


def reuse_verdict(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask what becomes of a fastener that came out."""
    found = ruled(draw, level, unit)
    wrong = [
        Option(text, _MISTAKES[found.verdict, other])
        for other, text in _VERDICTS.items()
        if other != found.verdict
    ]
    by = f"The workshop goes by {found.prefer} for used parts" if found.prefer else (
        "Where sources disagree the strictest counts"
    )  # fmt: skip
    return Question(
        "reuse-verdict", level, "Decide what may go back in.",
        f"{found.said} What becomes of it?",
        (f"{by}; the maker says nothing but what stands here.", *found.asks),
        chosen(draw, _VERDICTS[found.verdict], wrong), _sentences(found.steps),
        (found.source,),
    )  # fmt: skip


def _sentences(steps: list[str]) -> tuple[str, ...]:
    """Return what the rules say with a capital letter and a full stop."""
    return tuple(f"{step[:1].upper()}{step[1:].rstrip('.')}." for step in steps)


FAMILY: Final = (("list-mistake", list_mistake), ("reuse-verdict", reuse_verdict))
