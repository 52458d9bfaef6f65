"""The printed sheet: what stands on it, printed by a browser and by typst."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from html import escape
from html.parser import HTMLParser
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pypdf
import pytest

from torquebook import units
from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.catalogue.places import specs_root
from torquebook.errors import TorquebookError
from torquebook.jobs.model import WorkedPass
from torquebook.jobs.working import work_out
from torquebook.render.sheet.content import sheet_of
from torquebook.render.sheet.orders import drawn, order_rows
from torquebook.render.sheet.page import page
from torquebook.render.sheet.pdf import pdf

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.jobs.model import WorkedJob, WorkedJoint
    from torquebook.render.papersizes import Paper

CHROMIUM = shutil.which("chromium")
VOID = {"meta", "br", "hr", "img", "input", "link"}
MOST_PAGES = 3
SMALLEST_PT = 8.0
NUMBERS_PT = 12.0
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def job() -> WorkedJob:
    """Work the brigade's overhaul out."""
    return work_out(Library(), Book.open(), "brigade-overhaul")


class Tags(HTMLParser):
    """Keeps the elements of a document, and raises where one is closed that is not open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.every: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open an element."""
        self.every.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element without content."""
        self.every.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        """Close the innermost element."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Keep text."""
        self.text.append(data)


def wanted(joint: WorkedJoint) -> list[str]:
    """Return every number that a joint is tightened by."""
    found = [stage.shown for stage in joint.stages]
    found += [units.write(stage.setting) for stage in joint.stages if stage.setting]
    for stage in joint.stages:
        if stage.window:
            low, high = (round(one.value) for one in stage.window)
            found.append(f"{low}–{high} {stage.window[1].unit.replace('.', '·')}")
    return found


def test_the_page_asks_nobody_for_anything(job: WorkedJob) -> None:
    """It is balanced HTML without script or address, and says so to the browser."""
    text = page(sheet_of(job))
    tags = Tags(text)
    names = {tag for tag, _ in tags.every}
    assert not names & {"script", "link", "img", "iframe", "object", "a", "form"}
    assert not any(
        key in {"src", "href"} or key.startswith("on") for _, a in tags.every for key in a
    )
    assert "default-src 'none'" in text
    assert text.count("http") == text.count("http://www.w3.org/2000/svg") + text.count("http-equiv")


def test_every_step_and_number_is_on_the_page(job: WorkedJob) -> None:
    """Gates, joints, stages and settings are those of the job, in working order."""
    said = " ".join(" ".join(Tags(page(sheet_of(job))).text).split())
    at = 0
    for step in job.steps:
        name = step.gate.name if step in job.gates else step.held.record.name  # type: ignore[union-attr]
        at = said.index(name, at)
    for joint in job.joints:
        for number in wanted(joint):
            assert number in said, (joint.held.id, number)


def test_limits_of_gates_are_on_the_page(job: WorkedJob) -> None:
    """Each gate's reading has its limits as the record has them, each question its two boxes."""
    cards = [card for card in sheet_of(job).cards if card.is_gate]
    said = page(sheet_of(job))
    for gate, card in zip(job.gates, cards, strict=True):
        measure = gate.gate.measure
        if measure is None:
            assert card.reading is None
            continue
        assert card.reading is not None
        for limit in (measure.low, measure.high):
            assert limit is None or f"{limit:g}" in card.reading.limits
        assert f"<strong>{card.reading.limits}</strong>" in said
    assert said.count('<span class="tick">yes</span>') == sum(not card.reading for card in cards)


def drawn_order(svg: str, joint: WorkedJoint) -> list[int]:
    """Return the positions in the order of the numbers that a drawing shows, by where they lie."""
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    xs, ys = zip(*joint.spots, strict=True)
    texts = [
        (float(t.get("x", "")), float(t.get("y", "")), t.text) for t in root.iter(f"{SVG}text")
    ]
    left, top = min(x for x, _, _ in texts), min(y for _, y, _ in texts)
    across = max(max(xs) - min(xs), max(ys) - min(ys))
    shown = max(max(x for x, _, _ in texts) - left, max(y for _, y, _ in texts) - top)
    scale = shown / across
    turns = {}
    for x, y, text in texts:
        at = (min(xs) + (x - left) / scale, max(ys) - (y - top) / scale)
        away = [abs(at[0] - a) + abs(at[1] - b) for a, b in joint.spots]
        assert min(away) < 0.02 * across
        turns[int(text or 0)] = away.index(min(away)) + 1
    return [turns[turn] for turn in sorted(turns)]


def test_drawings_go_as_the_records_say(job: WorkedJob) -> None:
    """The numbers stand where the bolts lie that the record tightens first, second and so on."""
    cards = [card for card in sheet_of(job).cards if not card.is_gate]
    seen = 0
    for joint, card in zip(job.joints, cards, strict=True):
        if not card.drawing:
            assert joint.held.record.count == 1
            continue
        order = list(dict.fromkeys(at for one in joint.passes for at in one.order))
        assert drawn_order(card.drawing, joint) == order, joint.held.id
        assert sorted(order) == list(range(1, joint.held.record.count + 1))
        seen += 1
    assert seen > 15


def test_other_orders_are_in_the_numbers_of_the_drawing(job: WorkedJob) -> None:
    """An order that is not drawn reads back as the record's, through the drawing."""
    seen = 0
    for joint in job.joints:
        first = drawn(joint)[0]
        for one in joint.passes:
            if list(one.order) == first or one.group:
                continue
            rows = [row.order for row in order_rows(joint)]
            read = [
                [first[int(turn) - 1] for turn in row.split("-")] for row in rows if row[0] < "a"
            ]
            assert list(one.order) in read, joint.held.id
            seen += 1
    assert seen >= 3


def test_groups_that_take_all_stages_one_after_another_are_drawn_once(job: WorkedJob) -> None:
    """A group that begins when another has ended is numbered behind it, and has its own shape."""
    joint = next(one for one in job.joints if one.held.record.count == 4 and one.spots)
    passes = tuple(
        WorkedPass((stage,), order, group)
        for order, group in (((2, 1), "front"), ((3, 4), "rear"))
        for stage in (1, 2)
    )
    joint = replace(joint, passes=passes)
    assert drawn(joint) == ([2, 1, 3, 4], {"front": [2, 1], "rear": [3, 4]})
    rows = [row.order for row in order_rows(joint)]
    assert rows == ["1-2, front (round)", "3-4, rear (square)"]


def test_what_has_to_be_settled_stands_on_top_and_beside_its_joint(tmp_path: Path) -> None:
    """A finding that stops the work is on the sheet twice, with what would be right."""
    name = "joints/brigade/starter"
    (tmp_path / "joints" / "brigade").mkdir(parents=True)
    text = (specs_root() / f"{name}.yaml").read_text(encoding="utf-8")
    faulty = text.replace('tighten: "45 N.m"', 'tighten: "145 N.m"')
    assert faulty != text
    (tmp_path / f"{name}.yaml").write_text(faulty, encoding="utf-8")
    sheet = sheet_of(work_out(Library([tmp_path]), Book.open([tmp_path]), "brigade-overhaul"))
    (card,) = [one for one in sheet.cards if not one.is_gate and one.alerts]
    assert card.name == "starter motor"
    worst = card.alerts[0]
    assert (worst.word, worst.step) == ("STOP", card.number)
    assert sheet.alerts[0] == worst
    said = page(sheet)
    assert said.count(escape(worst.text)) == 2
    assert f"step {card.number} starter motor:" in said


@pytest.mark.skipif(CHROMIUM is None, reason="no Chromium is installed")
@pytest.mark.parametrize(("paper", "fonts"), [("A4", "named"), ("Letter", "any")])
def test_a_browser_prints_three_pages(
    job: WorkedJob, paper: Paper, fonts: str, tmp_path: Path
) -> None:
    """Headless Chromium prints three pages or fewer, also in the wide font of a bare machine."""
    source, printed = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    text = page(sheet_of(job), paper)
    if fonts == "any":
        text, times = re.subn(r"font:8pt/1.15 [^;]*;", "font:8pt/1.15 sans-serif;", text)
        assert times == 1
    source.write_text(text, encoding="utf-8")
    options = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
    options += [f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={printed}"]
    command = [str(CHROMIUM), *options, str(source)]
    subprocess.run(command, check=True, capture_output=True, timeout=60)
    _holds_the_job(printed.read_bytes(), job)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_typst_sets_three_pages(job: WorkedJob, paper: Paper) -> None:
    """The PDF has three pages or fewer, every number on them, and nobody's name in it."""
    made = pdf(sheet_of(job), paper)
    _holds_the_job(made, job)
    assert not (pypdf.PdfReader(io.BytesIO(made)).metadata or {}).get("/Author")


def _holds_the_job(made: bytes, job: WorkedJob) -> None:
    reader = pypdf.PdfReader(io.BytesIO(made))
    assert len(reader.pages) <= MOST_PAGES
    said: list[str] = []
    large: list[str] = []

    def visit(text: str, page: list[float], line: list[float], _: object, size: float) -> None:
        points = size * abs(page[3] * line[3])
        assert not text.strip() or points > SMALLEST_PT - 0.1, (text, points)
        said.append(text)
        if points > NUMBERS_PT - 0.1:
            large.append(text)

    for one in reader.pages:
        one.extract_text(visitor_text=visit)
    every = "".join("".join(large).split())
    for joint in job.joints:
        for number in wanted(joint):
            assert "".join(number.split()) in every, (joint.held.id, number)
    assert f"page{len(reader.pages)}of{len(reader.pages)}" in "".join("".join(said).split())


def test_without_typst_a_pdf_names_the_extra(
    job: WorkedJob, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the extra is not installed, one message says how to get it and what does without."""
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(TorquebookError, match=r"pip install \"\.\[pdf\]\" in the clone; or write"):
        pdf(sheet_of(job))


def test_a_pdf_loses_no_letter(job: WorkedJob) -> None:
    """A letter that the PDF's fonts do not have is said, and never printed as an empty box."""
    sheet = replace(sheet_of(job), title="整備")
    with pytest.raises(TorquebookError, match=r"整.*FILE\.html"):
        pdf(sheet)
    assert "整備" in page(sheet)


def test_what_records_say_is_inert(tmp_path: Path) -> None:
    """Markup, quotes, template code and control characters of a record are text."""
    hostile = "</style><script>alert(1)</script> & \u2028 #eval(1) \u200d'"
    source = "source: {kind: invented, title: x, provenance: invented}\n"
    (tmp_path / "joints").mkdir()
    (tmp_path / "jobs").mkdir()
    quoted = '"' + hostile.replace("\u2028", "").replace("\u200d", "\\u200d") + '"'
    joint = (
        f"kind: joint\ntitle: {quoted}\nname: {quoted}\ncount: 4\n"
        "layout: {circle: {diameter_mm: 9}}\n"
        f'fastener: {{thread: "M10", strength_class: "8.8"}}\ntighten: "44 N.m"\n'
        f"conditions: [{quoted}]\n"
    )
    (tmp_path / "joints" / "a.yaml").write_text(joint + source)
    job = f"kind: job\ntitle: {quoted}\nname: {quoted}\nsteps:\n  - joint: joints/a\n{source}"
    (tmp_path / "jobs" / "a.yaml").write_text(job)
    worked = work_out(Library([tmp_path]), Book.open([tmp_path]), "jobs/a")
    text = page(sheet_of(worked))
    assert "script" not in {tag for tag, _ in Tags(text).every}
    assert "\u200d" not in text
    assert "</style><script" not in text
    read = pypdf.PdfReader(io.BytesIO(pdf(sheet_of(worked))))
    assert "#eval(1)" in "".join(one.extract_text() for one in read.pages)
