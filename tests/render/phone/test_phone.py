"""The page for the phone, in a real browser: a job done, reloaded, exported, taken in."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import sync_playwright

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.errors import Unreadable
from torquebook.jobs.keeping import take_in
from torquebook.jobs.report import report_of
from torquebook.jobs.session import start_facts
from torquebook.jobs.steps import steps_of
from torquebook.jobs.working import work_out
from torquebook.render.phone.page import page

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Page

    from torquebook.jobs.model import WorkedJob

LOCAL = {"file:", "blob:"}
CHROMIUM = shutil.which("chromium")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium is installed")
SOURCE = 'source: {kind: invented, title: "an example", provenance: "invented"}\n'
JOINT = (
    'kind: joint\ntitle: "Cover"\nname: "cover · <b>"\ncount: 4\n'
    'fastener: {thread: "M10", strength_class: "8.8"}\ntighten: "20 N.m + 90 deg"\n'
    'rechecks: [{what: "look at the mark", after: "50 km"}]\n'
)
JOB = (
    'kind: job\ntitle: "Pump </script><script>alert(1)</script>"\nname: "pump"\nsteps:\n'
    '  - gate: {name: "float", why: "it wears", '
    "measure: {what: end float, unit: mm, low: 0.05, high: 0.15}}\n"
    '  - gate: {name: "dowels", why: "they locate", question: "Are both in?"}\n'
    "  - joint: joints/cover\n"
)

HOLDER = {"user": "anna", "host": "shed", "pid": 77, "since": "today"}


@pytest.fixture
def worked(tmp_path: Path) -> Callable[[str], WorkedJob]:
    """Return what works out a job of the small book."""
    for folder, text in (("joints/cover", JOINT), ("jobs/pump", JOB)):
        path = tmp_path / "book" / f"{folder}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text + SOURCE, encoding="utf-8")
    folders = [tmp_path / "book"]
    return lambda text: work_out(Library(folders), Book.open(folders), text)


@pytest.fixture
def file(tmp_path: Path, worked: Callable[[str], WorkedJob]) -> Path:
    """Write the page of a small job."""
    job = worked("jobs/pump")
    steps = steps_of(job)
    made = tmp_path / "pump.html"
    made.write_text(page(steps, start_facts(job, "", "phone"), "pump.jsonl"), encoding="utf-8")
    return made


@pytest.fixture
def phone(tmp_path: Path) -> Iterator[Page]:
    """Open a browser that keeps its storage, and fails the test on any request or error."""
    with sync_playwright() as play:
        context = play.chromium.launch_persistent_context(
            str(tmp_path / "profile"), executable_path=CHROMIUM, args=["--no-sandbox"]
        )
        shown = context.new_page()
        troubles: list[str] = []
        shown.on("pageerror", lambda error: troubles.append(str(error)))
        shown.on("dialog", lambda dialog: troubles.append(dialog.message))
        shown.on("request", lambda asked: asked.url[:5] in LOCAL or troubles.append(asked.url))
        yield shown
        context.close()
        assert troubles == []


def reload_as_a_person(phone: Page) -> None:
    """Reload no sooner than a thumb can: storage goes to another process of the browser.

    On a busy machine a reload at machine speed has come before it, once in some hundred runs.
    """
    phone.wait_for_timeout(500)
    phone.reload()


def test_a_job_is_done_on_the_phone_and_taken_in(
    file: Path, phone: Page, tmp_path: Path, worked: Callable[[str], WorkedJob]
) -> None:
    """A reading out of limits blocks; a reload loses nothing; the export is the same journal."""
    phone.goto(file.as_uri())
    assert phone.inner_text("#count") == "step 1 of 14"
    phone.fill("#reading", "0.5")
    phone.click("#done")
    assert "0.5 mm is above the limit: 0.05 to 0.15 mm" in phone.inner_text("#said")
    assert not phone.is_visible("#skip")
    phone.fill("#reading", "0,1")
    phone.click("#done")
    phone.click("#no")
    assert "the work stops here" in phone.inner_text("#said")
    phone.click("#yes")
    phone.click("#done")
    assert "20 N·m" in phone.inner_text("#big")
    phone.click("#done")
    phone.click("#back")
    before = phone.inner_text("#count")
    reload_as_a_person(phone)
    assert phone.inner_text("#count") == before == "step 4 of 14"
    phone.click("#skip")
    phone.fill("#reason", "no room for the socket")
    phone.click("#skip")
    while "what the wrench showed" not in phone.inner_text("#lines"):
        phone.click("#done")
    phone.fill("#reading", "40")
    phone.click("#done")
    assert "a thread strips or a bolt necks" in phone.inner_text("#said")
    phone.click("#skip")
    phone.fill("#reason", "both looked at, whole")
    phone.click("#skip")
    phone.click("#done")
    assert phone.inner_text("#count") == f"step 14 of {len(steps_of(worked('jobs/pump')))}"
    assert "sign it there" in phone.inner_text("#lines")
    with phone.expect_download() as given:
        phone.click("#export")
    exported = tmp_path / given.value.suggested_filename
    given.value.save_as(exported)

    kept = take_in(exported, tmp_path / "records", HOLDER)
    report = report_of(kept, worked)
    assert report.state is not None
    assert report.state.blocking == report.state.unfit == ()
    assert [row.reason for row in report.skipped] == ["no room for the socket"]
    assert [one.what for one in report.due] == ["look at the mark"]
    assert not report.edited
    assert take_in(exported, tmp_path / "records", HOLDER) == kept
    edited = tmp_path / "edited.jsonl"
    edited.write_text(exported.read_text().replace('"value":0.1,', '"value":0.2,'))
    with pytest.raises(Unreadable, match="was edited"):
        take_in(edited, tmp_path / "records", HOLDER)


def test_nonsense_is_asked_back_on_the_phone(file: Path, phone: Page) -> None:
    """A reading that is far off is believed only when it is given again."""
    phone.goto(file.as_uri())
    for typed in ("abc", "1,350", "0.05 N.m"):
        phone.fill("#reading", typed)
        phone.click("#done")
        assert "a reading in mm is due" in phone.inner_text("#said")
    phone.fill("#reading", "5 mm")
    phone.click("#done")
    assert "press again if it is so" in phone.inner_text("#said")
    phone.click("#done")
    assert "5 mm is above the limit" in phone.inner_text("#said")


def test_the_number_is_read_from_two_metres(file: Path, phone: Page) -> None:
    """Digits are at least 60 px high on a small phone, and keys are for thumbs (48 px)."""
    phone.set_viewport_size({"width": 360, "height": 740})
    phone.goto(file.as_uri())
    phone.fill("#reading", "0.1")
    phone.click("#done")
    phone.click("#yes")
    phone.click("#done")
    size = phone.eval_on_selector("#big", "one => parseFloat(getComputedStyle(one).fontSize)")
    assert size >= 60
    for key in ("#done", "#back", "#skip", "#export"):
        box = phone.locator(key).bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 48
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360


def test_the_page_asks_nobody(file: Path) -> None:
    """Its policy allows its own script by hash, and nothing from anywhere."""
    text = file.read_text(encoding="utf-8")
    assert "default-src 'none'; script-src 'sha256-" in text
    assert "http://" not in text
    assert "https://" not in text
    assert text.count("</script>") == 2
