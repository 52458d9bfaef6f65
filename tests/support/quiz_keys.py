"""Keys of questions worked out a second time, from what is printed in the question alone.

Each function reads numbers and words out of a question's text, its assumptions, drawing and grid,
and computes what is right by a published formula; the program's own functions are not used but
for lists, of which the rules themselves say what is wrong.
"""

from __future__ import annotations

import csv
import re
from io import BytesIO, StringIO
from math import cos, radians
from typing import TYPE_CHECKING, Any

import quiz_tables as t

from torquebook.findings import Severity
from torquebook.plans.reading import read_plan
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.catalogue.book import Book
    from torquebook.quiz.model import Question

UNIT = r"(N·m|lbf·ft|lbf·in|kgf·m|kgf·cm)"
NUMBER = r"(\d+(?:\.\d+)?)"
SIZE = r"(M\d+(?:x\d+(?:\.\d+)?)?|\d+(?:-\d+)?(?:/\d+)?-\d+)"
CLASS = r"(\d+\.\d+|A\d-\d0|SAE \d)"


def said(question: Question) -> str:
    """Return the text and the assumptions."""
    return " ".join((question.text, *question.assumptions))


def find(pattern: str, text: str) -> Any:
    """Return the groups of the one place where a pattern fits."""
    found = re.search(pattern, text)
    assert found, f"{pattern} is not in: {text}"
    return found.groups() if len(found.groups()) > 1 else found[1]


def bolt(question: Question) -> tuple[str, str]:
    """Return the size and the class of the bolt that a question is about."""
    size, name = find(rf"bolt {SIZE} of class {CLASS}", question.text)
    return size, name


def unit_of(question: Question) -> str:
    """Return the unit of torque that stands in a text."""
    return str(find(rf"{NUMBER} {UNIT}", question.text)[1])


def head_mark(q: Question, _: Book) -> float:
    """ISO 898-1 or ISO 3506-1: strength by the mark, times area for a load."""
    size = find(rf"bolt {SIZE} ", q.text)
    stresses = t.stresses_mpa(q.drawing.mark, t.diameter_mm(size))  # type: ignore[union-attr]
    value = stresses[0 if re.search("tensile|may this bolt break", q.text) else 1]
    return value * t.area_mm2(size) / 1000 if "which load" in q.text else value


def stress_area(q: Question, _: Book) -> float:
    """ISO 898-1, 9.1.6.1; ASME B1.1."""
    size = find(rf"thread {SIZE} ", q.text)
    assert abs(float(find(rf"diameter d of {NUMBER} mm", q.text)) - t.diameter_mm(size)) < 0.01
    return t.area_mm2(size)


def proof_load(q: Question, _: Book) -> float:
    """ISO 898-1:2013, table 5; SAE J429."""
    size, name = bolt(q)
    stress = float(find(rf"proof load of class .*?: {NUMBER} MPa", said(q)))
    assert abs(stress - t.stresses_mpa(name, t.diameter_mm(size))[2]) < 0.6
    return t.proof_n(size, name) / 1000


def _torque_nm(q: Question, size: str, preload_n: float, text: str) -> float:
    if "factor K" in text:  # M = K d F: Mechanical Fastening, Joining and Assembly, p. 85
        return float(find(rf"factor K is {NUMBER}", text)) * t.diameter_mm(size) * preload_n / 1000
    stated = float(find(rf"D_Km = {NUMBER} mm", said(q)))
    assert abs(stated - t.seat_mm(size)) < 0.006
    return t.torque_nm(size, preload_n, float(find(rf"under the head is {NUMBER}", text)))


def torque_for_share(q: Question, _: Book) -> float:
    """VDI 2230-1:2003, or the nut factor."""
    size, name = bolt(q)
    share = float(find(rf"to {NUMBER} % of its proof", q.text)) / 100
    return _torque_nm(q, size, share * t.proof_n(size, name), q.text) / t.NM[_asked_unit(q)]


def _asked_unit(q: Question) -> str:
    answer = q.answer
    shown = getattr(answer, "shown", None) or answer.options[answer.key].text  # type: ignore[union-attr]
    return str(shown).rpartition(" ")[2]


def share_of_torque(q: Question, _: Book) -> float:
    """VDI 2230-1:2003, or the nut factor, read backwards."""
    size, name = bolt(q)
    value, unit = find(rf"tightened to {NUMBER} {UNIT}", q.text)
    preload_n = float(value) * t.NM[unit] / _torque_nm(q, size, 1.0, q.text)
    return 100 * preload_n / t.proof_n(size, name)


def oil_preload(q: Question, _: Book) -> float:
    """Preload is inverse to K, or to the bracket of VDI 2230-1."""
    size = find(rf"bolt {SIZE} ", q.text)
    before, after = map(float, find(rf"from {NUMBER} to {NUMBER},", q.text))
    if "factor K" in q.text:
        return 100 * (before / after - 1)
    return 100 * (t.torque_nm(size, 1.0, before) / t.torque_nm(size, 1.0, after) - 1)


def convert(q: Question, _: Book) -> float:
    """NIST SP 811 (2008)."""
    value, unit, other = find(rf"prints {NUMBER} {UNIT}\. How much is that in {UNIT}\?", q.text)
    return float(value) * t.NM[unit] / t.NM[other]


def _turns(text: str) -> float:
    return sum(eval_fraction(part) for part in text.split())


def eval_fraction(text: str) -> float:
    """Return a fraction such as 3/4, or a whole number."""
    top, _, bottom = text.partition("/")
    return float(top) / float(bottom or 1)


def angle_units(q: Question, _: Book) -> float | str:
    """By definition a turn has 360°, and a hexagon six faces."""
    if "part of a turn" in q.text:
        degrees = float(find(rf"asks for {NUMBER}°", q.text))
        return next(
            option.text
            for option in q.answer.options  # type: ignore[union-attr]
            if abs(360 * _turns(option.text.removesuffix(" turn")) - degrees) < 0.01
        )
    value, kind = find(r"asks for ([\d./ ]+?)( turn| flats?|°)", q.text)
    degrees = {" turn": 360.0, "°": 1.0}.get(kind, 60.0) * _turns(value)
    return degrees if "degrees" in q.text else degrees / 60


def thread_advance(q: Question, _: Book) -> float:
    """Definition of the pitch: one for each turn."""
    size = find(rf"bolt {SIZE} ", q.text)
    return t.pitch_mm(size) * float(find(rf"turned by {NUMBER}°", q.text)) / 360


def read_stages(q: Question, _: Book) -> float:
    """Stages as they stand in the text."""
    printed = find(r"prints: (.*?)\. ", q.text)
    if "±" in printed:
        nominal, give = map(float, find(rf"{NUMBER} ±{NUMBER} ", printed))
        return nominal - give if "least" in q.text else nominal + give
    if "the wrench show" in q.text:
        return float(re.findall(rf"{NUMBER} {UNIT}", printed)[-1][0])
    turns = re.findall(r"\+([\d/]+) turn", printed)
    degrees = re.findall(r"\+(\d+)°", printed)
    return sum(map(float, degrees)) + 360 * sum(map(eval_fraction, turns))


def _lever(q: Question) -> float:
    """1 + E cos θ / L (TM 9-2350-277-40&P, p. 44), drawn as it is written."""
    lever, reach = map(
        float, find(rf"lever L of {NUMBER} \S+ an adapter with E of {NUMBER} ", q.text)
    )
    angle = 0.0 if "straight on" in q.text else 90.0
    if turned := re.search(r"stands at (\d+)°", q.text):
        angle = float(turned[1])
    drawn: Any = q.drawing
    assert drawn.angle_deg == angle
    assert drawn.lever_text.split()[0] == f"{lever:g}"
    assert drawn.adapter_text.split()[0] == f"{reach:g}"
    size = 25.4 if " in;" in q.text else 1.0
    assert abs(drawn.lever_mm - size * lever) < 0.01
    assert abs(drawn.adapter_mm - size * reach) < 0.01
    return 1 + reach / lever * cos(radians(angle))


def adapter_set(q: Question, _: Book) -> float:
    """TM 9-2350-277-40&P, p. 44."""
    return float(find(rf"get {NUMBER} {UNIT}", q.text)[0]) / _lever(q)


def adapter_arrives(q: Question, _: Book) -> float:
    """TM 9-254, fig. 45."""
    return float(find(rf"set to {NUMBER} {UNIT}", q.text)[0]) * _lever(q)


def _deviation(value: float, unit: str) -> float:
    """ISO 6789:2003, type II, class A: 4 % above 10 N·m, 6 % up to it."""
    return 0.04 if value * t.NM[unit] > 10 else 0.06


def wrench_deviation(q: Question, _: Book) -> float:
    """ISO 6789:2003."""
    value, unit = find(rf"set to {NUMBER} {UNIT}", q.text)
    sign = -1 if "the least" in q.text else 1
    return float(value) * (1 + sign * _deviation(float(value), unit))


def click_proves(q: Question, _: Book) -> str:
    """Take a click without movement as a lower bound, less the deviation (common practice)."""
    value, unit = find(rf"set to {NUMBER} {UNIT}", q.text)
    least = float(value) * (1 - _deviation(float(value), unit))
    right = [o.text for o in q.answer.options if "at least" in o.text]  # type: ignore[union-attr]
    assert len(right) == 1
    assert abs(float(find(rf"at least {NUMBER}", right[0])) - least) <= 0.006 * least
    return right[0]


def which_wrench(q: Question, _: Book) -> str:
    """Both stages lie between the ends of one range."""
    stages = [float(value) for value, _ in re.findall(rf"{NUMBER} {UNIT}", q.text)]
    assert len(stages) == 2
    ranges = [o.text for o in q.answer.options if " to " in o.text]  # type: ignore[union-attr]
    fits = []
    for text in ranges:
        low, high = map(float, find(rf"{NUMBER} to {NUMBER} ", text))
        if low <= min(stages) and max(stages) <= high:
            fits.append(text)
    assert len(fits) == 1
    return fits[0]


def finishing_torque(q: Question, _: Book) -> float:
    """F = P θ / 360 / δ on top of the snug torque (VDI 2230-1:2003), far from yield."""
    size, name = bolt(q)
    snug, unit = find(rf"tightened to {NUMBER} {UNIT} and then", q.text)
    degrees = float(find(r"turned by (\d+)°", q.text))
    give, mu = (
        float(find(rf"give {NUMBER} µm", said(q))),
        float(find(rf"friction {NUMBER} in", said(q))),
    )
    gain_n = 1e6 * t.pitch_mm(size) * degrees / 360 / give
    per_n = t.torque_nm(size, 1.0, mu)
    start_n = float(snug) * t.NM[unit] / per_n
    assert start_n + gain_n < 0.85 * t.proof_n(size, name), "not surely elastic"
    return float(snug) + gain_n * per_n / t.NM[unit]


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
    from itertools import permutations  # noqa: PLC0415

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


def nut_pairing(q: Question, _: Book) -> str:
    """ISO 898-2:1992."""
    return f"class {t.PAIRS[bolt(q)[1]]}"


def engagement(q: Question, _: Book) -> float:
    """TB 43-0218, section III."""
    size, into = find(rf"bolt {SIZE} is screwed into a part of (\w+)", q.text)
    needed = t.ENGAGEMENT[into] * t.diameter_mm(size)
    return needed / t.pitch_mm(size) if "How many turns" in q.text else needed


def drag_added(q: Question, _: Book) -> float:
    """AC 43.13-1B, chapter 7: added; TB 43-0218: from a third of the torque up."""
    torque, drag = (float(value) for value, _ in re.findall(rf"{NUMBER} {UNIT}", q.text)[:2])
    small = "third" in said(q) and 3 * drag < torque
    return torque if small else torque + drag


def spanner(q: Question, _: Book) -> str:
    """ISO 4014; ISO 8765 has the same widths."""
    return f"{t.ISO_4014[int(t.diameter_mm(find(rf'bolt {SIZE} by', q.text)))][0]} mm"


def table_row(q: Question, _: Book) -> str:
    """ISO 4014 and ISO 273; or the cell of the grid, which other tests hold to print."""
    grid: Any = q.grid
    if "spanner" in grid.columns:
        size, column = find(r"bolts (M\d+)\. Which (.*?) goes", q.text)
        d = int(size[1:])
        columns = {"spanner": t.ISO_4014[d][0], "medium hole": t.ISO_273[d][0]}
        value = columns.get(column, t.ISO_273[d][1])
        row = next(row for row in grid.rows if row[0] == size)
        assert float(row[grid.columns.index(column)]) == value
        return f"{value:g} mm"
    size, grade = find(r"Bolts (\S+) of (SAE \d) are", q.text)
    row = next(row for row in grid.rows if row[0] == size)
    return f"{row[grid.columns.index(grade)]} {grid.title.rpartition(' ')[2]}"


def table_factor(q: Question, _: Book) -> float:
    """TM 9-2320-362-14&P, table F-1; TM 10-6640-238-13, table G1."""
    value = float(find(rf"gives {NUMBER} {UNIT}", q.text)[0])
    return value * t.CORRECTIONS[find(r"The bolts are (.*?)\.", q.text)]


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


CHECKS: dict[str, Callable[[Question, Book], Any]] = {
    "head-mark": head_mark, "stress-area": stress_area, "proof-load": proof_load,
    "torque-for-share": torque_for_share, "share-of-torque": share_of_torque,
    "oil-preload": oil_preload, "convert": convert, "read-stages": read_stages,
    "angle-units": angle_units, "thread-advance": thread_advance, "adapter-set": adapter_set,
    "adapter-arrives": adapter_arrives, "wrench-deviation": wrench_deviation,
    "click-proves": click_proves, "which-wrench": which_wrench,
    "finishing-torque": finishing_torque, "circle-order": circle_order,
    "order-fault": order_fault, "nut-pairing": nut_pairing, "engagement": engagement,
    "drag-added": drag_added, "spanner": spanner, "table-row": table_row,
    "table-factor": table_factor, "list-mistake": list_mistake, "reuse-verdict": reuse_verdict,
    "gate-order": gate_order,
}  # fmt: skip
