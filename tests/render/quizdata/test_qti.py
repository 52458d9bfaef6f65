"""QTI packages against schemas, and marked by a reader that knows the standard alone."""

from __future__ import annotations

from io import BytesIO
from itertools import permutations
from pathlib import Path
from typing import TYPE_CHECKING
from zipfile import ZipFile

import pytest
import xmlschema
from hypothesis import given, settings
from qti_marker import Item, children, parsed, text_of
from quiz_class import QUIZ, asked, quizzes

from torquebook.quiz.letters import code_of
from torquebook.quiz.model import Choice, Number, Option, Sequence
from torquebook.render.cautions import CAUTION
from torquebook.render.quizdata.papers import qti_papers
from torquebook.render.quizdata.qti.item import identifiers, item
from torquebook.render.quizdata.qti.package import ITEM_TYPE, MANIFEST, TEST_TYPE, package

if TYPE_CHECKING:
    from torquebook.quiz.model import Question, Quiz

DATA = Path(__file__).parents[1] / "data/qti"
# See data/qti/README.md.
QTI = xmlschema.XMLSchema10(DATA / "qti-2.1.1-used.xsd")
PACKAGE = xmlschema.XMLSchema10(DATA / "imscp_v1p1.xsd")
HOSTILE = 'a <b> & "c" ]]> \x1b[2J \u202e &amp;'


def files_of(packed: bytes) -> dict[str, bytes]:
    """Return the files of a package, each one held against its schema."""
    with ZipFile(BytesIO(packed)) as archive:
        assert archive.testzip() is None
        files = {name: archive.read(name) for name in archive.namelist()}
    for name, content in files.items():
        if name.endswith(".xml"):
            (PACKAGE if name == MANIFEST else QTI).validate(content.decode())
    return files


def questions(quiz: Quiz) -> dict[str, Question]:
    """Return the questions of a quiz by the paths of their items."""
    return {
        f"items/s{sheet.number:03}-q{number:03}.xml": one
        for sheet in quiz.sheets
        for number, one in enumerate(sheet.questions, 1)
    }


BROKEN = {
    "no title": (b' title="Sheet', b' name="Sheet'),
    "answers before the question": (b"<responseProcessing", b"<itemBody/><responseProcessing"),
    "no such cardinality": (b'cardinality="single"', b'cardinality="one"'),
    "an identifier that is none": (
        b'simpleChoice identifier="A"',
        b'simpleChoice identifier="1 A"',
    ),
    "two options of one name": (b'simpleChoice identifier="A"', b'simpleChoice identifier="B"'),
    "text outside of a block": (b"<itemBody>", b"<itemBody>text"),
    "an element of another place": (b"<ul>", b"<ul><p>text</p>"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_the_schema_can_fail(name: str) -> None:
    """It refuses an item with any of these faults."""
    good = item(QUIZ.sheets[0].questions[0], "a", "Sheet 1")
    QTI.validate(good.decode())
    bad = good.replace(*BROKEN[name], 1)
    assert bad != good
    with pytest.raises(xmlschema.XMLSchemaValidationError):
        QTI.validate(bad.decode())


def test_the_schema_of_packages_can_fail() -> None:
    """It refuses a manifest without resources."""
    manifest = files_of(package(QUIZ))[MANIFEST].decode()
    with pytest.raises(xmlschema.XMLSchemaValidationError):
        PACKAGE.validate(manifest.replace("resources>", "sources>"))


def test_a_package_lists_every_file_once() -> None:
    """An item a question, a test a sheet; tests need their items, and nothing lies beside."""
    files = files_of(package(QUIZ))
    top = parsed(files[MANIFEST])
    listed = [one.getAttribute("href") for one in top.getElementsByTagName("file")]
    assert sorted(listed) == sorted(set(files) - {MANIFEST})
    kinds = {
        one.getAttribute("identifier"): one.getAttribute("type")
        for one in top.getElementsByTagName("resource")
    }
    assert list(kinds.values()).count(ITEM_TYPE) == 12
    assert list(kinds.values()).count(TEST_TYPE) == 3
    needed = [one.getAttribute("identifierref") for one in top.getElementsByTagName("dependency")]
    assert sorted(needed) == sorted(name for name, kind in kinds.items() if kind == ITEM_TYPE)


def test_a_test_has_the_sheet_in_order() -> None:
    """Its items are those of the sheet, a point each, and the caution stands before them."""
    files = files_of(package(QUIZ))
    test = parsed(files["tests/sheet-002.xml"])
    refs = [one.getAttribute("href") for one in test.getElementsByTagName("assessmentItemRef")]
    assert refs == [f"../items/s002-q00{number}.xml" for number in (1, 2, 3, 4)]
    (total,) = test.getElementsByTagName("outcomeDeclaration")
    assert total.getAttribute("normalMaximum") == "4"
    assert text_of(test.getElementsByTagName("rubricBlock")[0]) == CAUTION
    names = [
        one.getAttribute("identifier") for one in test.getElementsByTagName("assessmentItemRef")
    ]
    assert [
        files[ref[3:]].count(f'identifier="{name}"'.encode())
        for ref, name in zip(refs, names, strict=True)
    ] == [1] * 4
    assert all(name.startswith(f"{code_of(QUIZ)}-") for name in names)
    assert "Class 2 b, 2026-05-31" in test.getAttribute("title")


def test_the_bytes_are_the_same_for_the_same_quiz() -> None:
    """No time and no order of sets plays a part."""
    packed = package(QUIZ)
    assert packed == package(QUIZ)
    with ZipFile(BytesIO(packed)) as archive:
        assert archive.namelist()[0] == MANIFEST
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_drawings_are_told_or_lie_beside() -> None:
    """Without a way to draw they are words; with one, pictures with the same words."""
    told = files_of(package(QUIZ))["items/s001-q003.xml"].decode()
    shows = "4 bolts on a circle, seen from the head's side, numbered counterclockwise, number 1"
    assert f"<p>Drawing: {shows} at the bottom.</p>" in told
    files = files_of(package(QUIZ, lambda drawing: f"<svg><!-- {type(drawing).__name__} --></svg>"))
    top = parsed(files["items/s001-q003.xml"])
    (picture,) = top.getElementsByTagName("img")
    assert picture.getAttribute("src") == "../drawings/s001-q003.svg"
    assert picture.getAttribute("alt") == f"{shows} at the bottom"
    assert files["drawings/s001-q003.svg"] == b"<svg><!-- BoltCircle --></svg>\n"
    assert "drawings/s001-q001.svg" not in files


def test_the_package_is_a_key_with_its_drawings() -> None:
    """It bears no name that apprentices' sheets have; its drawings are documents of SVG."""
    papers = qti_papers(QUIZ, "A4", plain=False)
    assert list(papers) == ["-key"]
    files = files_of(papers["-key"])
    drawings = [content for name, content in files.items() if name.endswith(".svg")]
    assert len(drawings) == 3
    assert {parsed(content).tagName for content in drawings} == {"svg"}
    assert {parsed(content).namespaceURI for content in drawings} == {"http://www.w3.org/2000/svg"}


def test_what_only_trainers_see() -> None:
    """The solution, the mistakes and the sources are for tutors and scorers, not candidates."""
    top = parsed(item(QUIZ.sheets[0].questions[0], "a", "b"))
    (block,) = top.getElementsByTagName("rubricBlock")
    assert block.getAttribute("view").split() == ["scorer", "tutor"]
    said = text_of(block)
    assert all(words in said for words in ("so it is", "A: the spanner of M10", "Sources: inv"))
    body = block.parentNode
    assert body is not None
    body.removeChild(block)
    assert "the spanner of M10" not in text_of(top)
    table = parsed(item(QUIZ.sheets[1].questions[1], "a", "b"))
    assert [text_of(row) for row in table.getElementsByTagName("tr")] == [
        "threadwidth", "M813", "M1016",
    ]  # fmt: skip


def test_hostile_texts_are_inert() -> None:
    """Markup, quotes and control characters are text, in items and in names."""
    choice = Choice((Option(HOSTILE), Option("b", HOSTILE)))
    made = item(asked("a", choice, HOSTILE), "a", HOSTILE)
    QTI.validate(made.decode())
    top = parsed(made)
    shown = HOSTILE.replace("\x1b", r"\x1b").replace("\u202e", r"\u202e")
    assert top.getAttribute("title") == shown
    assert text_of(top.getElementsByTagName("p")[0]) == shown
    assert text_of(top.getElementsByTagName("simpleChoice")[0]) == shown


@settings(max_examples=25, deadline=None)
@given(quiz=quizzes())
def test_any_quiz_is_valid_and_marked_as_its_key_says(quiz: Quiz) -> None:
    """The correct response is the key and has the point; a blank and every slip have none."""
    files = files_of(package(quiz))
    for path, one in questions(quiz).items():
        read, answer = Item(files[path]), one.answer
        assert read.score(read.correct()) == 1
        assert read.score(None) == 0
        if isinstance(answer, Number):
            assert read.correct() == answer.value
            assert not any(read.score(slip.value) for slip in answer.slips)
            ends = (answer.value - answer.tolerance, answer.value + answer.tolerance)
            assert [read.score(end) for end in ends] == [1, 1]
            beyond = 1.01 * answer.tolerance or 0.1**answer.decimals
            assert [read.score(answer.value + far) for far in (-beyond, beyond)] == [0, 0]
        elif isinstance(answer, Choice):
            texts = [text_of(o) for o in read.top.getElementsByTagName("simpleChoice")]
            assert texts == [option.text for option in answer.options]
            assert read.identifiers.index(str(read.correct())) == answer.key
            points = [read.score(name) for name in read.identifiers]
            assert points == [float(option.right) for option in answer.options]
        else:
            assert read.correct() == tuple(identifiers(answer)[at] for at in answer.key)
            for order in answer.accepted:
                assert read.score(tuple(read.identifiers[at] for at in order)) == 1


def test_every_order_is_marked_as_the_model_says() -> None:
    """All orders of four bolts, and of three steps with one right order."""
    for answer in (
        Sequence(("1", "2", "3", "4"), (0, 2, 1, 3), ((0, 2, 3, 1),)),
        Sequence(("tighten", "mark", "back off"), (1, 2, 0)),
    ):
        read = Item(item(asked("a", answer), "a", "b"))
        orders = list(permutations(range(len(answer.items))))
        points = [read.score(tuple(read.identifiers[at] for at in order)) for order in orders]
        assert points == [float(answer.accepts(order)) for order in orders]
        assert sum(points) == 1 + len(answer.accepted)


def test_items_without_the_parts_that_they_do_not_need() -> None:
    """A number that no mistake is known of has no list of mistakes."""
    read = Item(item(asked("a", Number(90, "deg", 1, 0)), "a", "b"))
    (block,) = read.top.getElementsByTagName("rubricBlock")
    assert [one.tagName for one in children(block)] == ["p", "ul", "p"]
    assert "Answer in degrees:" in text_of(read.top)
