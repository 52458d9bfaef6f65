"""The marks of a class: points for each apprentice, mistakes by family, and what was not read."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, Any, Final

from torquebook.quiz.letters import code_of, written
from torquebook.quiz.marking import Status
from torquebook.quiz.tallies import mistakes_of, tallies
from torquebook.render.quizdata.words import about

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.plans.model import Problem
    from torquebook.quiz.marking import Apprentice, Mark, Marking
    from torquebook.quiz.tallies import Tally
    from torquebook.render.paper import Paper

HEADS: Final = ("name", "sheet", "points", "per cent", "left out", "not read")
_WIDTHS: Final = (25, 8, 11, 8, 8, 8)
NOT_MARKED: Final = "not marked"
MOST_SHOWN: Final = 100
"""So many cells that were not read, and so many notes, are shown to a person."""
_MOST: Final = 8  # mistakes of the class that are worth the next lesson


def text(answer: Marking, paper: Paper) -> None:
    """Write the marks; no line of a person's is left out, of all else it is said how much."""
    paper.heading(f"Marks: {answer.name}")
    paper.text(f"{about(answer.quiz)}; quiz {code_of(answer.quiz)}", 2)
    if answer.apprentices:
        paper.gap()
        paper.grid([row(one) for one in answer.apprentices], HEADS, _WIDTHS, right={1, 2, 3, 4, 5})
    found = tallies(answer.marks)
    if common := mistakes_of(answer.marks)[:_MOST]:
        paper.heading("The most common mistakes")
        paper.columns([(str(one.count), one.text) for one in common], right={0})
    if found:
        paper.heading("By family of questions, the worst first")
    for tally in found:
        paper.text(f"{tally.family}: {result(tally)}", 2, 4)
        if tally.mistakes:
            rows = [(str(one.count), one.text) for one in tally.mistakes]
            paper.columns(rows, right={0}, indent=6)
    if answer.problems:
        paper.heading("Not read: mend these cells and mark again")
        for said in messages(answer.problems):
            paper.text(said, 2, 4)
    if answer.notes:
        paper.heading("Notes")
        for said in shown(answer.notes):
            paper.text(said, 2, 4)


def row(one: Apprentice) -> tuple[str, ...]:
    """Return an apprentice's marks as a row under ``HEADS``; who has no name has a line."""
    name = one.name or f"no name, line {one.place.line}"
    if not one.percent:
        return name, one.sheet, NOT_MARKED, "", "", ""
    counts = [one.count(status) for status in (Status.LEFT_OUT, Status.UNREAD)]
    points = f"{span(*one.points)} of {len(one.marks)}"
    return name, one.sheet, points, span(*one.percent), *(str(n) if n else "" for n in counts)


def span(low: float, high: float) -> str:
    """Return points or per cent, from what is sure to what is possible.

    Examples
    --------
    >>> span(25.0, 50.0), span(100.0, 100.0)
    ('25–50', '100')
    """
    ends = dict.fromkeys(f"{end:.0f}" for end in (low, high))
    return "–".join(ends)


def result(tally: Tally) -> str:
    """Return what became of a family's questions in half a line."""
    counts = tally.counts
    said = [f"{counts[Status.RIGHT]} of {tally.asked} right"]
    others = (Status.LEFT_OUT, Status.UNREAD)
    return ", ".join([*said, *(f"{counts[one]} {one}" for one in others if counts[one])])


def messages(problems: Iterable[Problem]) -> Iterator[str]:
    """Yield where cells stand, what is wrong with them, and what would be right."""
    return shown(f"{problem.place}: {problem.message}" for problem in problems)


def shown(texts: Iterable[str]) -> Iterator[str]:
    """Yield as many texts as a person reads, and how many more there are."""
    rest = iter(texts)
    yield from islice(rest, MOST_SHOWN)
    if more := sum(1 for _ in rest):
        yield f"and {more} more; --format json has them all"


def rows(answer: Marking) -> Iterator[tuple[str | float | None, ...]]:
    """Yield a row for each apprentice, the header first; the questions stand behind the sums."""
    most = max((len(one.marks) for one in answer.apprentices), default=0)
    numbers = [str(number) for number in range(1, most + 1)]
    yield (
        "name", "sheet", "questions", "right", "wrong", "left_out", "not_read",
        "percent_from", "percent_to", *numbers,
    )  # fmt: skip
    for one in answer.apprentices:
        low, high = one.percent or (None, None)
        counts = [one.count(status) if one.marks else None for status in Status]
        cells = [_cell(mark) for mark in one.marks]
        empty = [""] * (most - len(cells))
        yield one.name, one.sheet, len(one.marks), *counts, low, high, *cells, *empty


def _cell(mark: Mark) -> str:
    """Return what became of an answer, with the mistake or with what could not be read."""
    if mark.status is Status.WRONG:
        return f"{mark.status}: {mark.mistake}"
    return f"{mark.status}: {mark.given}" if mark.status is Status.UNREAD else mark.status.value


def data(answer: Marking) -> dict[str, Any]:
    """Return the marks for a program."""
    quiz = answer.quiz
    return {
        "what": "marks of question sheets",
        "quiz": {"code": code_of(quiz), "class_name": quiz.class_name, "date": quiz.date},
        "answers": answer.name,
        "apprentices": [_apprentice(one) for one in answer.apprentices],
        "families": [
            {
                "family": tally.family,
                "aim": tally.aim,
                "asked": tally.asked,
                **_counts(tally.counts),
                "mistakes": [one.__dict__ for one in tally.mistakes],
            }
            for tally in tallies(answer.marks)
        ],
        "unread": [
            {
                "file": problem.place.file,
                "line": problem.place.line,
                "cell": problem.place.cell,
                "column": problem.column,
                "text": problem.text,
                "what": problem.what,
                "readings": list(problem.readings),
            }
            for problem in answer.problems
        ],
        "notes": list(answer.notes),
    }


def _counts(counts: Any) -> dict[str, int]:
    return {status.value.replace(" ", "_"): counts[status] for status in Status}


def _apprentice(one: Apprentice) -> dict[str, Any]:
    low, high = one.percent or (None, None)
    return {
        "name": one.name,
        "sheet": one.sheet,
        "line": one.place.line,
        "marked": bool(one.marks),
        **_counts({status: one.count(status) for status in Status}),
        "percent_from": low,
        "percent_to": high,
        "answers": [
            {
                "question": mark.number,
                "family": mark.question.family,
                "given": mark.given,
                "key": written(mark.question.answer),
                "status": mark.status.value,
                "mistake": mark.mistake,
            }
            for mark in one.marks
        ],
    }
