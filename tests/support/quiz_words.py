"""Keys that are no number, worked out a second time: orders, lists, verdicts, steps."""

from __future__ import annotations

import csv
import re
from io import BytesIO, StringIO
from itertools import permutations
from typing import TYPE_CHECKING, Any

import quiz_tables as t
from quiz_reading import NUMBER, SIZE, UNIT, find

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


# By what is said of it, what becomes of a fastener; the sources are those of the trade notes:
# US Army TB 43-0218 and TM 1-1500-204-23-6, FAA AC 43.13-1B, NAVEDTRA 14014, DIN 267-27, ISO 4042,
# RCSC 2.3.3, W. Eccles (2010), else common practice. The first phrase that fits counts.
VERDICTS = {
    "renew": (
        "pits of rust", "damaged thread", "thinner at one place", "polyamide patch",
        "adhesive patch", "staked nut", "found loose", "A part turns",
        r"A stretch bolt \S+ of class 10.9 came", "stretched past yield", "has ribs", "flywheel",
        r"cover bolt \S+, 8.8, is tightened by angle",
        "tightened often", "exhaust", "electroplated", "of aluminium", "spring washer",
        "toothed lock", "sealing washer", "bonded seal", "cotter pin", "lock wire", "roll pin",
        "tab washer", "galvanised structural", "A490",
    ),
    "measure": ("was tightened by angle", "plain driveshaft", "circlip", "A325"),
    "clean": ("looks sound", "rusty, but without pits"),
    "reuse": ("castellated", "clutch-cover", "wheel bolt", "dowel"),
}  # fmt: skip
# ISO 2320, class 04, fifth removal [N·m]; AC 43.13-1B, table 7-2, fine thread [lbf·in].
DRAGS_NM = {"M6": 0.3, "M8": 0.6, "M10": 1.0, "M12": 1.6}
DRAGS_LBF_IN = {"7/16-20": 8, "1/2-20": 10, "5/8-18": 18}
WORDS = {
    "renew": "renew it", "measure": "measure it first", "clean": "clean it and use it again",
    "reuse": "use it again",
}  # fmt: skip


def reuse_verdict(q: Question, _: Book) -> str:
    """Limits by their numbers, all else by the trade's own rules."""
    return WORDS[_measured(q.text) or _told(q.text)]


def _measured(text: str) -> str:
    """Return the verdict of a measurement, empty where none is told."""
    if found := re.search(rf"is {NUMBER} mm long; new .* allows {NUMBER} mm", text):
        return "reuse" if float(found[1]) <= float(found[2]) else "renew"
    if found := re.search(rf"is {NUMBER} mm long, a new one {NUMBER} mm", text):
        # ISO 898-1: Rp0.2 is where 0.2 % stay; less proves nothing
        return "renew" if float(found[1]) / float(found[2]) - 1 > 0.002 else "measure"
    if found := re.search(r"tightened (\d) times?; its maker allows (\d)", text):
        return "reuse" if int(found[1]) < int(found[2]) else "renew"
    if found := re.search(
        rf"of {NUMBER} mm where it is thinnest; its maker allows {NUMBER} mm", text
    ):
        return "reuse" if float(found[1]) >= float(found[2]) else "renew"
    if found := re.search(rf"nut {SIZE} .*drags with {NUMBER} {UNIT}", text):
        value = float(found[2])
        least = DRAGS_LBF_IN.get(found[1])
        enough = value >= least if least else value * t.NM[found[3]] >= DRAGS_NM[found[1]]
        return "reuse" if enough else "renew"
    return ""


def _told(text: str) -> str:
    for verdict, phrases in VERDICTS.items():
        if any(re.search(phrase, text, re.IGNORECASE) for phrase in phrases):
            return verdict
    raise AssertionError(text)


# What has to come before what, each pair for its own reason (ASME PCC-1 for the passes, AC 43.13-1B
# for drag, TB 43-0218 for holes and checks; else common practice).
BEFORE = (
    ("flywheel's bolts", "runout"), ("runout", "cover down"), ("cover down", "gearbox up"),
    ("gearbox up", "bolts of the gearbox"), ("blow", "depth"), ("depth", "start every"),
    ("start every", "30 %"), ("30 %", "60 %"), ("60 %", "tighten to 100 %"),
    ("tighten to 100 %", "round once more"), ("two threads", "measure the drag"),
    ("measure the drag", "compare the drag"), ("compare the drag", "add the drag"),
    ("add the drag", "the sum"), ("used again", "start every"), ("start every", "snug"),
    ("snug", "mark head"), ("mark head", "by the angle"), ("by the angle", "every mark"),
    ("mark bolt", "back the bolt"), ("back the bolt", "to the mark"), ("to the mark", "reading"),
    ("one kind", "draw the nuts"), ("draw the nuts", "let the wheel"),
    ("let the wheel", "torque in a star"), ("torque in a star", "50 km"),
)  # fmt: skip


def gate_order(q: Question, _: Book) -> list[tuple[int, ...]]:
    """Every step comes after all that it needs; one order is left."""
    answer: Any = q.answer
    later: dict[str, set[str]] = {}
    for first, second in BEFORE:
        later.setdefault(first, set()).add(second)

    def names(item: str) -> list[str]:
        return [name for pair in BEFORE for name in pair if name in item]

    def reaches(first: str, second: str) -> bool:
        seen, todo = set(), names(first)
        while todo:
            name = todo.pop()
            if name in second:
                return True
            if name not in seen:
                seen.add(name)
                todo += sorted(later.get(name, ()))
        return False

    count = {at: sum(reaches(other, item) for other in answer.items if other != item)
             for at, item in enumerate(answer.items)}  # fmt: skip
    assert sorted(count.values()) == list(range(len(answer.items))), count
    return [tuple(sorted(count, key=count.__getitem__))]
