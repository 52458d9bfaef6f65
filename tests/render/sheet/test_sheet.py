"""The printed sheet: what stands on it, printed by a browser and by typst."""

from __future__ import annotations

import io
import shutil
import subprocess
from html.parser import HTMLParser
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pypdf
import pytest

from torquebook import units
from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.jobs.working import work_out
from torquebook.render.sheet.content import sheet_of
from torquebook.render.sheet.page import page
from torquebook.render.sheet.pdf import pdf

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.jobs.model import WorkedJob, WorkedJoint
    from torquebook.render.sheet.model import Paper

CHROMIUM = shutil.which("chromium")
VOID = {"meta", "br", "hr", "img", "input", "link"}
MOST_PAGES = 3
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
            assert number in said, joint.held.id


def test_drawings_go_as_the_records_say(job: WorkedJob) -> None:
    """The title of each drawing is the order of the first round of its joint's record."""
    drawings = [card.drawing for card in sheet_of(job).cards if not card.is_gate]
    drawn = dict(zip([joint.number for joint in job.joints], drawings, strict=True))
    seen = 0
    for joint in job.joints:
        if not drawn[joint.number]:
            continue
        root = ET.fromstring(drawn[joint.number])  # noqa: S314 - our own drawing
        title = root.findtext(f"{SVG}title") or ""
        order = "-".join(map(str, joint.passes[0].order))
        assert f"order {order}" in title, joint.held.id
        assert len(list(root.iter(f"{SVG}text"))) >= len(joint.passes[0].order)
        seen += 1
    assert seen > 15


@pytest.mark.skipif(CHROMIUM is None, reason="no Chromium is installed")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_browser_prints_three_pages(job: WorkedJob, paper: Paper, tmp_path: Path) -> None:
    """Headless Chromium prints the sheet on three pages or fewer, every number on them."""
    source, printed = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    source.write_text(page(sheet_of(job), paper), encoding="utf-8")
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
    said = "".join("".join(one.extract_text() for one in reader.pages).split())
    for joint in job.joints:
        for number in wanted(joint):
            assert "".join(number.split()) in said, (joint.held.id, number)


def test_what_records_say_is_inert(tmp_path: Path) -> None:
    """Markup, quotes, template code and control characters of a record are text."""
    hostile = "</style><script>alert(1)</script> & \u2028 #eval(1) \u202e'"
    source = "source: {kind: invented, title: x, provenance: invented}\n"
    (tmp_path / "joints").mkdir()
    (tmp_path / "jobs").mkdir()
    quoted = '"' + hostile.replace("\u2028", "").replace("\u202e", "\\u202e") + '"'
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
    assert "\u202e" not in text
    assert "</style><script" not in text
    read = pypdf.PdfReader(io.BytesIO(pdf(sheet_of(worked))))
    assert "#eval(1)" in "".join(one.extract_text() for one in read.pages)
