"""The papers of a quiz as they are printed: by Chromium, and set by typst."""

from __future__ import annotations

import io
import re
import shutil
from dataclasses import replace
from typing import TYPE_CHECKING, Any
from unicodedata import normalize

import pypdf
import pytest
from playwright.sync_api import sync_playwright
from quiz_papers import quiz

from torquebook.catalogue.book import Book
from torquebook.quiz.making import make_quiz
from torquebook.render.quizsheet.content import keys_of, questions_of, solutions_of
from torquebook.render.quizsheet.page import keys_page, questions_page, solutions_page
from torquebook.render.quizsheet.pdf import pdf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Page

    from torquebook.quiz.model import Quiz
    from torquebook.render.papersizes import Paper

CHROMIUM = shutil.which("chromium")
needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium is installed")
SIZES = {"A4": (595.28, 841.89), "Letter": (612.0, 792.0)}  # ISO 216; ANSI/ASME Y14.1, in points
SMALLEST_PT = 7.9
TORN = re.compile(r"^\s*=|=\s*$|^\s*[m²]\s*$", re.MULTILINE)
#: Widths between the margins, and the fonts of a bare machine beside those that are named.
WIDTHS = {"A4": 190, "Letter": 196}
MEASURE = """() => {
  const out = [];
  const box = (one) => one.getBoundingClientRect();
  const apart = (a, b) => a.right <= b.left + 0.5 || b.right <= a.left + 0.5
    || a.bottom <= b.top + 0.5 || b.bottom <= a.top + 0.5;
  for (const sheet of document.querySelectorAll('.sheet')) {
    const questions = [...sheet.querySelectorAll('.q')];
    questions.forEach((one, at) => {
      const own = box(one), name = `question ${at + 1}`;
      for (const other of questions.slice(at + 1))
        if (!apart(own, box(other))) out.push(`${name} overlaps another`);
      for (const inner of one.querySelectorAll('p, li, li span, td, th, figure, svg, i, caption')) {
        const b = box(inner);
        if (b.left < own.left - 0.5 || b.right > own.right + 0.5
            || b.top < own.top - 0.5 || b.bottom > own.bottom + 0.5)
          out.push(`${name}: ${inner.tagName} ${inner.textContent} leaves its question`);
        if (inner.scrollWidth > inner.clientWidth + 1 && inner.clientWidth)
          out.push(`${name}: ${inner.tagName} ${inner.textContent} is wider than its place`);
      }
      for (const said of one.querySelectorAll('.in3 span+span, .in4 span+span, .in5 span+span'))
        if (said.getClientRects()[0].height > 22)
          out.push(`${name}: ${said.textContent} goes on in another line`);
      const items = [...one.querySelectorAll('li')].map(box);
      items.forEach((a, i) => items.slice(i + 1).forEach((b) => {
        if (!apart(a, b)) out.push(`${name}: options overlap`);
      }));
      const figure = one.querySelector('figure');
      if (figure)
        for (const other of one.querySelectorAll('li, td, th, .places, .number'))
          if (!apart(box(figure), box(other))) out.push(`${name}: the drawing covers something`);
      const svg = one.querySelector('svg');
      if (svg) {
        const held = box(svg);
        for (const part of svg.querySelectorAll('circle, polygon, path, rect, text')) {
          const b = box(part);
          if (b.left < held.left - 0.5 || b.right > held.right + 0.5
              || b.top < held.top - 0.5 || b.bottom > held.bottom + 0.5)
            out.push(`${name}: ${part.tagName} ${part.textContent} leaves the drawing`);
        }
        const said = [...svg.querySelectorAll('text')].map(box);
        said.forEach((a, i) => said.slice(i + 1).forEach((b) => {
          if (!apart(a, b)) out.push(`${name}: texts of the drawing overlap`);
        }));
      }
    });
  }
  return [document.querySelectorAll('.q').length, out];
}"""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """Return a page of headless Chromium."""
    with sync_playwright() as play:
        context = play.chromium.launch_persistent_context(
            str(tmp_path_factory.mktemp("profile")),
            executable_path=CHROMIUM,
            args=["--no-sandbox"],
        )
        yield context.new_page()
        context.close()


def sheets(level: int, paper: Paper) -> str:
    """Return the page of a quiz that has each family of a level three times, on three sheets."""
    return questions_page(questions_of(quiz(level)), paper)


@needs_chromium
@pytest.mark.parametrize("fonts", ["named", "any"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("level", [1, 2, 3])
def test_nothing_is_cut_and_nothing_overlaps(
    level: int, paper: Paper, fonts: str, browser: Page
) -> None:
    """Every part lies in its question, questions, options and drawings beside one another."""
    text = sheets(level, paper)
    if fonts == "any":
        named = '"Liberation Sans",Arial,Helvetica,"DejaVu Sans Condensed",sans-serif'
        assert named in text
        text = text.replace(named, "sans-serif")
    browser.emulate_media(media="print")
    browser.set_viewport_size({"width": round(WIDTHS[paper] / 25.4 * 96), "height": 1000})
    browser.set_content(text)
    count, troubles = browser.evaluate(MEASURE)
    assert count == sum(len(sheet.questions) for sheet in quiz(level).sheets)
    assert troubles == []


@needs_chromium
def test_what_is_wide_is_seen(browser: Page) -> None:
    """The measure finds text that has no room, a drawing cut off, and questions on each other."""
    text = sheets(3, "A4")
    for spoilt, said in (
        (text.replace("<svg ", '<svg viewBox="0 0 9 9" ', 1), "leaves the drawing"),
        (text.replace("</style>", ".q{margin-bottom:-9mm}</style>"), "overlaps another"),
        (text.replace("</style>", "table{width:120mm}</style>"), "leaves its question"),
        (text.replace("</style>", "li span+span{width:4mm}</style>"), "goes on in another line"),
    ):
        browser.set_content(spoilt)
        assert any(said in one for one in browser.evaluate(MEASURE)[1])


def printed(text: str, browser: Page) -> pypdf.PdfReader:
    """Return what Chromium prints of a page."""
    browser.set_content(text)
    return pypdf.PdfReader(io.BytesIO(browser.pdf(prefer_css_page_size=True)))


def holds_sheets(read: pypdf.PdfReader, made: Quiz, paper: Paper) -> None:
    """Check size, sheets, texts and sizes of letters of printed questions."""
    for page in read.pages:
        assert tuple(map(float, page.mediabox[2:])) == pytest.approx(SIZES[paper], abs=1)
    pages = [page_text(page) for page in read.pages]
    every = squeezed("".join(pages))
    firsts = [at for at, text in enumerate(pages) if "Name" in text]
    assert len(firsts) == len(made.sheets)
    for first, after, sheet in zip(firsts, [*firsts[1:], len(pages)], made.sheets, strict=True):
        own = f"Sheet {sheet.number} of {len(made.sheets)}"
        assert all(own in " ".join(text.split()) for text in pages[first:after])
        assert f"End of {own.lower()}" in " ".join(pages[after - 1].split())
        assert squeezed(sheet.questions[-1].text) in squeezed(pages[after - 1])
        assert not TORN.search("".join(pages[first:after]))
        for asked in sheet.questions:
            assert squeezed(asked.text) in every


def page_text(page: Any) -> str:
    """Return the text of a page, no letter of which is too small to be read."""

    def visit(text: str, ctm: list[float], line: list[float], _: object, size: float) -> None:
        points = size * abs(ctm[3] * line[3])
        assert not text.strip() or points > SMALLEST_PT, (text, points)

    return str(page.extract_text(visitor_text=visit))


def squeezed(text: str) -> str:
    """Return a text without spaces and ligatures, which a PDF has of its own."""
    return "".join(normalize("NFKC", text).split())


@needs_chromium
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("level", [1, 3])
def test_a_browser_prints_the_sheets(level: int, paper: Paper, browser: Page) -> None:
    """Each sheet begins on a page of its own, says on each page which it is, and has all of it."""
    read = printed(sheets(level, paper), browser)
    assert len(read.pages) <= 9
    holds_sheets(read, quiz(level), paper)


@needs_chromium
def test_ten_questions_are_a_page_and_twenty_two(browser: Page) -> None:
    """A class of thirty costs about a page for ten questions of each apprentice."""
    for count, paper, most in ((10, "A4", 31), (10, "Letter", 34), (20, "A4", 60)):
        asked = questions_of(quiz(1, 30, count))
        for read in (
            printed(questions_page(asked, paper), browser),
            pypdf.PdfReader(io.BytesIO(pdf(asked, paper))),
        ):
            assert 30 * count // 10 <= len(read.pages) <= most


@needs_chromium
def test_a_browser_prints_keys_and_solutions(browser: Page) -> None:
    """Thirty sheets' keys and solutions have every sheet, and their pages are counted."""
    made = quiz(1, 30, 20)
    for text, most in ((keys_page(keys_of(made)), 13), (solutions_page(solutions_of(made)), 19)):
        read = printed(text, browser)
        said = squeezed("".join(page_text(page) for page in read.pages))
        assert len(read.pages) <= most
        assert all(f"Sheet{number}of30" in said for number in range(1, 31))
        assert f"page{len(read.pages)}of{len(read.pages)}" in said


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("level", [1, 3])
def test_typst_sets_the_sheets(level: int, paper: Paper) -> None:
    """The PDF has the same texts, pages counted sheet by sheet, and nobody's name in it."""
    read = pypdf.PdfReader(io.BytesIO(pdf(questions_of(quiz(level)), paper)))
    holds_sheets(read, quiz(level), paper)
    said = [squeezed(page.extract_text()) for page in read.pages]
    for number in (1, 2, 3):
        own = [text for text in said if f"Sheet{number}of3" in text]
        assert len(own) in {2, 3}
        for at, text in enumerate(own, 1):
            assert f"page{at}of{len(own)}" in text


def test_metadata_hold_no_answer() -> None:
    """A PDF's metadata are its title and what made it; no date, no author, no subject."""
    made = replace(quiz(2), seed="do-not-tell")
    found = pypdf.PdfReader(io.BytesIO(pdf(questions_of(made)))).metadata or {}
    assert set(found) <= {"/Title", "/Creator"}
    assert found["/Title"] == "Tightening and reuse"
    assert b"do-not-tell" not in pdf(questions_of(made))


def test_typst_sets_keys_and_solutions() -> None:
    """Every key and every step is on the papers."""
    made = quiz(3)
    for content in (keys_of(made), solutions_of(made)):
        read = pypdf.PdfReader(io.BytesIO(pdf(content)))
        said = squeezed("".join(map(page_text, read.pages)))
        assert f"page{len(read.pages)}of{len(read.pages)}" in said
        for sheet in made.sheets:
            assert f"Sheet{sheet.number}of3" in said
    keys = squeezed(
        "".join(page_text(one) for one in pypdf.PdfReader(io.BytesIO(pdf(keys_of(made)))).pages)
    )
    for sheet in keys_of(made).sheets:
        for key in sheet.keys:
            assert squeezed(key.key) in keys


def test_wide_lists_stand_in_their_column() -> None:
    """A torque list of many columns is turned, so that half a page holds it."""
    book = Book.open()
    tables = [
        one.table
        for seed in "abcdefgh"
        for made in (make_quiz(book, ("list-mistake",), level=3, count=9, sheets=1, seed=seed),)
        for one in questions_of(made).sheets[0].questions
        if one.table
    ]
    assert {len(table.columns) for table in tables} == {6, 7}
    turned = [table for table in tables if len(table.columns) == 6]
    assert turned
    for table in turned:
        assert table.columns == ("line", "1", "2", "3", "4", "5")
        assert len(table.rows) > 6
