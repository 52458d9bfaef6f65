"""The papers of a quiz: what stands on them, and that the questions tell no key."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from html.parser import HTMLParser
from itertools import permutations

import pypdf
import pytest
from quiz_papers import quiz, with_other_keys

from torquebook.errors import TorquebookError
from torquebook.quiz.letters import code_of
from torquebook.quiz.model import Choice, Number, Quiz, Sequence
from torquebook.render.cautions import CAUTION
from torquebook.render.quizsheet.content import keys_of, questions_of, solutions_of
from torquebook.render.quizsheet.page import keys_page, questions_page, solutions_page
from torquebook.render.quizsheet.papers import html_papers
from torquebook.render.quizsheet.pdf import pdf

LEVELS = (1, 2, 3)


class Read(HTMLParser):
    """Keeps the text of a document, its tags, and the names of their attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.said: list[str] = []
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.values: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        self.values |= {value or "" for name, value in attrs if name in {"class", "id", "style"}}

    def handle_data(self, data: str) -> None:
        """Keep text."""
        self.said.append(data)


def plain_text(document: str) -> str:
    """Return the words of a document, its spaces alike."""
    whole = re.sub(r"<span>(\d+(?:-\d+)+)</span>", r"\1", document)
    return " ".join(" ".join(Read(whole).said).split())


def spaced(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("level", LEVELS)
def test_the_questions_page_depends_on_no_key(level: int) -> None:
    """With other keys, reasons, sources and another seed the page is the same, byte by byte."""
    made = quiz(level)
    other = with_other_keys(made)
    page = questions_page(questions_of(made))
    assert questions_page(questions_of(other)) == page
    assert keys_page(keys_of(other)) != keys_page(keys_of(made))
    assert solutions_page(solutions_of(other)) != solutions_page(solutions_of(made))


@pytest.mark.parametrize("level", LEVELS)
def test_the_questions_pdf_depends_on_no_key(level: int) -> None:
    """Nor does the PDF, its metadata included."""
    made = quiz(level, 1)
    assert pdf(questions_of(made)) == pdf(questions_of(with_other_keys(made)))


def test_the_questions_hold_neither_seed_nor_family() -> None:
    """What makes the sheets again, and what a question is called, is on no question's page."""
    made = quiz(3)
    page = questions_page(questions_of(made))
    assert made.seed not in page
    assert not any(slug in page for slug in made.families if "-" in slug)
    assert not any(asked.aim in page for sheet in made.sheets for asked in sheet.questions)
    assert made.seed in keys_page(keys_of(made))


def test_options_differ_in_their_letter_and_text_alone() -> None:
    """Every option has the same markup, so that none stands out."""
    page = questions_page(questions_of(quiz(2)))
    items = re.findall(r"<li>.*?</li>", page)
    shapes = {re.sub(r">[^<]+<", ">.<", item) for item in items}
    assert len(items) > 100
    assert len(shapes) == 1


def test_the_right_option_has_no_place_of_its_own() -> None:
    """Over many sheets every place among four is right about as often."""
    keys = [
        asked.answer.key
        for sheet in quiz(2, 30, 20).sheets
        for asked in sheet.questions
        if isinstance(asked.answer, Choice) and len(asked.answer.options) == 4
    ]
    assert len(keys) > 150
    for place in range(4):
        assert keys.count(place) == pytest.approx(len(keys) / 4, rel=0.35)


@pytest.mark.parametrize("level", LEVELS)
def test_every_question_is_on_the_page_whole(level: int) -> None:
    """Text, assumptions, options with letters, table, drawing, unit and tolerance are printed."""
    made = quiz(level, 1)
    page = questions_page(questions_of(made))
    said = plain_text(page)
    for number, asked in enumerate(made.sheets[0].questions, 1):
        assert f" {number} {spaced(asked.text)}" in said
        for text in asked.assumptions:
            assert spaced(text) in said
        if isinstance(asked.answer, Choice):
            for letter, option in zip("ABCDE", asked.answer.options, strict=False):
                assert f"{letter} {spaced(option.text)}" in said
        if isinstance(asked.answer, Number):
            assert f"±{asked.answer.margin}" in said
        for row in asked.grid.rows if asked.grid else ():
            for cell in row:
                assert spaced(cell) in said
    drawings = sum(asked.drawing is not None for asked in made.sheets[0].questions)
    assert page.count("<svg ") == drawings > 3


def test_a_sheet_says_whose_it_is() -> None:
    """Number, class, date, level, unit and code, room for a name, and the caution are on each."""
    made = quiz(2)
    page = questions_page(questions_of(made))
    said = plain_text(page)
    for number in (1, 2, 3):
        assert f"Sheet {number} of 3" in said
        assert f'@page s{number}{{@bottom-left{{content:"Sheet {number} of 3";' in page
    assert said.count("Plant mechanics 1A · 2026-11-27 · level 2") == 3
    assert said.count(f"torques in kgf·m · code {code_of(made)}") == 3
    assert questions_of(made).foot == f"Plant mechanics 1A · code {code_of(made)}"
    assert said.count("Name") == 3
    assert said.count(f"For training: tighten nothing by this sheet. {CAUTION}") == 3


@pytest.mark.parametrize("level", LEVELS)
def test_the_key_has_every_answer_and_every_mistake(level: int) -> None:
    """The right letter or number with its unit, and what each wrong answer comes from."""
    made = quiz(level)
    said = plain_text(keys_page(keys_of(made)))
    for sheet in made.sheets:
        at = said.index(f"Sheet {sheet.number} of 3")
        for number, asked in enumerate(sheet.questions, 1):
            answer = asked.answer
            if isinstance(answer, Choice):
                right = answer.options[answer.key].text
                at = said.index(spaced(f"{number} {'ABCDE'[answer.key]}: {right}"), at)
                assert all(spaced(option.mistake) in said for option in answer.options)
            elif isinstance(answer, Number):
                at = said.index(spaced(f"{number} {answer.shown} ±{answer.margin}"), at)
                assert all(spaced(slip.mistake) in said[at:] for slip in answer.slips)
            else:
                marks = answer.items if answer.items[0].isdigit() else "ABCDEFGH"
                at = said.index(f"{number} {'-'.join(marks[one] for one in answer.key)}", at)


def test_every_order_that_is_right_stands_in_the_key() -> None:
    """Where many orders are as right, the key names a list, and the list has all and no other."""
    made = quiz(1, 30, 20)
    paper = keys_of(made)
    lists = {name: set(text.split(", ")) for name, text in paper.orders}
    seen = 0
    for sheet, keyed in zip(made.sheets, paper.sheets, strict=True):
        for asked, key in zip(sheet.questions, keyed.keys, strict=True):
            answer = asked.answer
            if not isinstance(answer, Sequence) or not answer.items[0].isdigit():
                continue
            named = key.key.partition(" or another of list ")[2]
            said = lists[named] if named else set(key.key.split(" or "))
            every = permutations(range(len(answer.items)))
            right = {
                "-".join(answer.items[at] for at in one) for one in every if answer.accepts(one)
            }
            assert said == right
            seen += bool(named)
    assert seen > 2


@pytest.mark.parametrize("level", LEVELS)
def test_solutions_have_steps_and_sources(level: int) -> None:
    """Each step is printed, and each source is numbered and listed once."""
    made = quiz(level)
    paper = solutions_of(made)
    said = plain_text(solutions_page(paper))
    assert len(set(paper.sources)) == len(paper.sources)
    for sheet, worked in zip(made.sheets, paper.sheets, strict=True):
        for asked, one in zip(sheet.questions, worked.questions, strict=True):
            assert all(spaced(step) in said for step in asked.solution)
            listed = [paper.sources[note - 1] for note in one.notes]
            assert list(map(spaced, listed)) == list(map(spaced, asked.sources))


def test_all_papers_ask_nobody_for_anything() -> None:
    """No script, no address, and the document says so to the browser."""
    for page in html_papers(quiz(3), "A4", plain=False).values():
        read = Read(page)
        assert not read.tags & {"script", "link", "img", "iframe", "object", "a", "form", "input"}
        assert not read.attributes & {"src", "href", "onload", "onclick"}
        assert "default-src 'none'" in page


def test_only_black_and_white_is_printed() -> None:
    """No colour and no grey is named in the style or in a drawing."""
    for page in html_papers(quiz(3), "A4", plain=False).values():
        named = set(re.findall(r"#[0-9a-fA-F]{3,6}\b", page))
        assert named <= {"#000", "#fff"}
        assert not re.search(r"\b(?:rgba?|hsl|gr[ae]y)\b", page)


def test_ascii_is_ascii() -> None:
    """With --ascii no paper holds another letter."""
    made = replace(quiz(3), class_name="Öl №7")
    for page in html_papers(made, "A4", plain=True).values():
        assert page.isascii()


def test_a_class_name_is_text() -> None:
    """Markup, quotes, template code and control characters of a class name are text."""
    hostile = "</style><script>alert(1)</script> \"&' #eval(1) \u202e\x1b[2J"
    made = replace(quiz(1, 1), class_name=hostile)
    for page in html_papers(made, "A4", plain=False).values():
        assert "script" not in Read(page).tags
        assert "\u202e" not in page
        assert "\x1b" not in page
        assert "</style><script" not in page
    shown = pypdf.PdfReader(io.BytesIO(pdf(questions_of(made)))).pages[0].extract_text()
    assert "#eval(1)" in shown


@pytest.mark.parametrize("level", LEVELS)
def test_same_seed_same_bytes(level: int) -> None:
    """Made again, all papers are the same; from another seed none is."""

    def papers(made: Quiz) -> dict[str, str]:
        return html_papers(made, "Letter", plain=False)

    made = papers(quiz(level))
    quiz.cache_clear()
    assert papers(quiz(level)) == made
    other = papers(quiz(level, seed="b"))
    assert all(other[part] != made[part] for part in made)


def test_sheets_differ() -> None:
    """No two sheets of a class read alike."""
    sheets = questions_of(quiz(1, 30, 10)).sheets
    texts = {tuple((one.text, one.drawing, one.options) for one in s.questions) for s in sheets}
    assert len(texts) == 30


def test_a_letter_that_a_pdf_lacks_is_said() -> None:
    """A class name that the PDF's fonts cannot set is refused, and set in HTML."""
    made = replace(quiz(1, 1), class_name="整備")
    with pytest.raises(TorquebookError, match=r"整, which the class name or a question holds"):
        pdf(questions_of(made))
    assert "整備" in questions_page(questions_of(made))
