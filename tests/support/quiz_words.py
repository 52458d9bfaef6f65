"""Keys that are no number, worked out a second time: orders, lists, verdicts, steps."""

from __future__ import annotations

import csv
import re
from io import BytesIO, StringIO
from itertools import permutations
from typing import TYPE_CHECKING, Any

import quiz_tables as t
from quiz_reading import find

from torquebook.findings import Severity
from torquebook.plans.reading import read_plan
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.model import Question


def _numbers(text: str) -> list[int]:
    return [int(part) for part in text.split("-")]


def _even(order: list[int], count: int) -> bool:
    """ASME PCC-1, appendix F: all published orders stay at one bolt's worth."""
    return sorted(order) == list(range(1, count + 1)) and t.most_pull(order, count) <= 1.05


def _drawn(q: Question) -> int:
    """Return how many bolts are drawn, as the text counts them."""
    count, way, where = find(
        r"(\d+) bolts on a circle are counted (\w+), number 1 (.*?), as", q.text
    )
    drawn: Any = q.drawing
    spot = {"on top": 0, "on the right": 90, "at the bottom": 180, "on the left": 270}[where]
    assert (drawn.count, drawn.start_deg) == (int(count), spot)
    assert drawn.clockwise == (way == "clockwise")
    return int(count)


def circle_order(q: Question, _: Book) -> str | list[tuple[int, ...]]:
    """ASME PCC-1, appendix F: add the unit vectors of the bolts tightened so far."""
    count, answer = _drawn(q), q.answer
    if hasattr(answer, "options"):
        right = [o.text for o in answer.options if _even(_numbers(o.text), count)]
        assert len(right) == 1
        return right[0]
    rest = permutations(range(2, count + 1))
    return [
        tuple(number - 1 for number in (1, *order)) for order in rest if _even([1, *order], count)
    ]


def order_fault(q: Question, _: Book) -> str:
    """Count the bolts; then add the unit vectors."""
    count = _drawn(q)
    drawn: Any = q.drawing
    order = list(drawn.order) or _numbers(find(r"as ([\d-]+)\. What", q.text))
    assert bool(drawn.order) == ("stands its turn" in q.text)
    if drawn.order:
        turns = [at for at in range(1, count + 1) if t.most_pull(order[:at], count) > 1.05]
        return f"at turn {turns[0]}" if turns else "at no turn"
    right = []
    for option in q.answer.options:  # type: ignore[union-attr]
        number = int(re.sub(r"\D", "", option.text) or 0)
        holds = {
            "missed": number not in order,
            "twice": order.count(number) == 2,
            "first": t.most_pull(order, count) > 1.05,
            "nothing": _even(order, count),
        }[option.text.split()[-1]]
        right += [option.text] if holds else []
    assert len(right) == 1, (order, right)
    return str(right[0])


def list_mistake(q: Question, book: Book) -> str:
    """Judge the list as it is printed in the question; hexagon bolts are its assumption."""
    grid: Any = q.grid
    out = StringIO()
    names = dict.fromkeys(("kind", "head", *grid.columns[1:]))
    writer = csv.DictWriter(out, tuple(names), lineterminator="\n")
    writer.writeheader()
    for row in grid.rows:
        cells = dict(zip(grid.columns[1:], row[1:], strict=True))
        writer.writerow({"kind": "bolt", "head": "hexagon"} | cells)
    answers = judge(read_plan("-", stdin=BytesIO(out.getvalue().encode())), book).answers
    serious = {Severity.STOP, Severity.ASK}
    wrong = [
        at for at, one in enumerate(answers, 1) if any(f.severity in serious for f in one.findings)
    ]
    assert len(wrong) == 1
    rule = find(r"Rule: ([\w-]+)", q.solution[-1] + " ")
    assert rule in {finding.rule for finding in answers[wrong[0] - 1].findings}
    return f"line {wrong[0]}"
