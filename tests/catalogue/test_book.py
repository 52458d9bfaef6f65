"""Checks of the book's answers."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.bands import Band
from torquebook.catalogue.book import Book
from torquebook.errors import NotUnderstood, Unreadable

if TYPE_CHECKING:
    from pathlib import Path


OURS = Book.open()


@pytest.fixture
def book() -> Book:
    """Return our own book."""
    return OURS


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("M10", ["M10"]),
        ("M10x1.5", ["M10"]),
        ("M10x1.25", ["M10x1.25"]),
        ("M8x30", ["M8"]),
        ("M7x0.75", ["M7x0.75"]),
        ("M10 fine", ["M10x1.25", "M10x1", "M10x0.75"]),
        ("3/8", ["3/8-16", "3/8-24"]),
        ("3/8 fine", ["3/8-24"]),
        ("3/8 UNC", ["3/8-16"]),
        ("1", ["1-8", "1-12"]),
        ("1-14", ["1-14"]),
        ("#10", ["10-24", "10-32"]),
    ],
)
def test_candidates(book: Book, text: str, sizes: list[str]) -> None:
    """A text gives every thread that it may mean, the coarser first."""
    assert [thread.size for thread in book.candidates(text)] == sizes


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("M10x1.3", "no listed pitch of this diameter; write M10x1.25 or M10 or M10x1 or M10x0.75"),
        ("M13", "no listed diameter; write M14 or M12 or"),
        ("1-5/8", "no listed diameter; write 1-1/2-6 or"),
        ("M26", "no listed coarse thread; write M26x1.5"),
        ("1-14 UNF", "pitch and series do not belong together; write 1-14 UNS"),
        ("M6x1 UNF", "no thread designation"),
        ("M2 fine", "no listed fine thread; write M2"),
        ("nothing", "no thread designation"),
    ],
)
def test_unlisted_threads(book: Book, text: str, message: str) -> None:
    """A thread that is not listed is refused with the nearest ones that are."""
    with pytest.raises(NotUnderstood) as caught:
        book.candidates(text)
    assert message in str(caught.value)


@pytest.mark.parametrize(
    ("text", "end"),
    [
        ("M39.5", "ends at M39"),
        ("M42x3", "ends at M39"),
        ("2", "ends at 1-3/4 in"),
        ("M1.5", "begins at M1.6"),
        ("#6-32", "begins at #8"),
    ],
)
def test_ends_of_the_book(book: Book, text: str, end: str) -> None:
    """Beyond the largest and the smallest size nothing else is offered: the book ends there."""
    with pytest.raises(NotUnderstood) as caught:
        book.candidates(text)
    assert str(caught.value) == f'"{text}": the book {end}'


@pytest.mark.parametrize("size", [thread.size for thread in OURS.threads()])
def test_own_spelling_needs_no_reading(book: Book, size: str) -> None:
    """A size as the book writes it is found at once, and means what reading it would mean."""
    assert [thread.size for thread in book.candidates(size)] == [size]
    assert [thread.size for thread in book.candidates(f" {size}")] == [size]


@pytest.mark.parametrize("name", sorted({one.name for one in OURS.strengths("metric", 10)}))
def test_own_class_names_need_no_reading(book: Book, name: str) -> None:
    """A class as the book writes it is found at once, and means what reading it would mean."""
    assert book.class_named(name) == book.class_named(f" {name}") == name


def test_one_thread(book: Book) -> None:
    """One thread is asked for, so a text that may mean two is asked back."""
    assert book.thread("M10").pitch_mm == 1.5
    with pytest.raises(NotUnderstood, match="more than one pitch; write 3/8-16 UNC or 3/8-24 UNF"):
        book.thread("3/8")
    with pytest.raises(NotUnderstood, match=r"more than one pitch; write M10x1\.25 or M10x1 or"):
        book.thread("M10 fine")


def test_threads_of_a_diameter(book: Book) -> None:
    """Threads are given by family and diameter."""
    sizes = {thread.size for thread in book.threads("metric", 10)}
    assert sizes == {"M10", "M10x1.25", "M10x1", "M10x0.75"}
    assert {thread.family for thread in book.threads("inch")} == {"inch"}
    assert len(book.threads()) > len(book.threads("metric")) > 50


@pytest.mark.parametrize(
    ("d_mm", "proof_mpa"), [(3, 580), (15.9, 580), (16, 580), (16.1, 600), (39, 600)]
)
def test_two_columns_of_8_8(book: Book, d_mm: float, proof_mpa: float) -> None:
    """Class 8.8 changes above 16 mm, and M16 lies in the lower column (ISO 898-1, table 3)."""
    assert book.strength("8.8", d_mm).proof_mpa == proof_mpa


@pytest.mark.parametrize(
    ("name", "d_mm", "family", "message"),
    [
        ("10.8", 10, None, "no listed class; write 10.9 or"),
        ("5.2", 10, None, "no listed class; write SAE 5.2 or"),
        ("SAE 3", 10, None, "no listed class; write SAE 2 or SAE 4"),
        ("A3-70", 10, None, "no listed class; write A1-70 or A2-70 or A4-70"),
        ("9.8", 16.1, None, "listed up to 16 mm diameter, not for 16.1 mm; write 8.8 or 10.9"),
        ("SAE 8", 10, "metric", "a class for inch threads only; write 10.9"),
        ("SAE 5", 10, "metric", "a class for inch threads only; write 8.8 or 9.8"),
        ("A2-70", 9.525, "inch", "a class for metric threads only; write SAE 4"),
        ("A2-70", 22, None, "listed up to 20 mm diameter, not for 22 mm; write A2-50 or A1-50"),
        ("SAE 2", 44.45, None, "listed up to 1-1/2 in diameter, not for 1-3/4 in"),
        ("10.9", 9.525, "inch", "a class for metric threads only; write SAE 8"),
        ("8", 10, None, "write 8.8 or SAE 8"),
        ("SAE 8", 4.826, "inch", "listed from 1/4 in diameter, not for 0.19 in"),
    ],
)
def test_classes_that_do_not_fit(
    book: Book, name: str, d_mm: float, family: str | None, message: str
) -> None:
    """A class that is unknown, or of another size or family, is refused with what fits."""
    with pytest.raises(NotUnderstood) as caught:
        book.strength(name, d_mm, family)
    assert message in str(caught.value)


def test_class_without_a_size(book: Book) -> None:
    """A class can be told to exist before the size is known."""
    assert book.class_named("Gr. 8") == "SAE 8"
    with pytest.raises(NotUnderstood):
        book.class_named("8.9")


def test_classes_weakest_first(book: Book) -> None:
    """The classes of a diameter come weakest first."""
    names = [entry.name for entry in book.strengths("metric", 10)]
    proofs = [entry.proof_mpa for entry in book.strengths("metric", 10)]
    assert proofs == sorted(proofs)
    assert {"4.6", "8.8", "12.9", "A2-70"} <= set(names)
    assert names[-1] == "12.9"
    assert book.strengths("inch", 9.525)[0].name == "SAE 1"


def test_nuts(book: Book) -> None:
    """A nut's class is the latest edition's and style 1 where listed; editions never mix."""
    assert book.nut("8", 6)[1:5] == ("1", "1992", "ISO 898-2", 855)
    assert book.nut("8", 6, "1980").proof_mpa == 810
    assert book.nut("nut 10", 10).pairs_with == "10.9"
    assert book.nut("12", 20).style == "2"
    assert book.nut("04", 10).pairs_with == ""
    assert book.nut("5", 10, fine=True).standard == "ISO 898-6"
    assert book.nut("9", 6).edition == "1980"


@pytest.mark.parametrize(
    ("name", "d_mm", "message"),
    [
        ("8.8", 10, "no listed class of nuts; write 8"),
        ("seven", 10, "no listed class of nuts; write"),
        ("9", 10, "class 9 is not listed for 10 mm"),
        ("4", 10, "class 4 is not listed for 10 mm"),
    ],
)
def test_nuts_that_do_not_fit(book: Book, name: str, d_mm: float, message: str) -> None:
    """A nut's class that is unknown or not for that size is refused."""
    with pytest.raises(NotUnderstood) as caught:
        book.nut(name, d_mm)
    assert message in str(caught.value)


def test_friction(book: Book) -> None:
    """Friction is found by name, by other names and by number."""
    assert book.friction("Engine oil").name == "oiled"
    assert book.friction("0.12").mu_head.nominal == 0.12
    assert book.default_friction().name == "unsaid"
    assert not book.friction("dry").lubricated
    assert book.friction("oiled") in book.frictions()
    with pytest.raises(NotUnderstood, match="no friction of that name; write oiled"):
        book.friction("oyled")


@pytest.mark.parametrize("word", ["galvanised", "Galvanized"])
def test_doubtful_friction(book: Book, word: str) -> None:
    """Galvanised may be thin and slippery or thick and rough, so it is asked back."""
    with pytest.raises(NotUnderstood) as caught:
        book.friction(word)
    assert set(caught.value.readings) == {"zinc plated", "hot-dip galvanised"}


def test_doubtful_material(book: Book) -> None:
    """An alloy may be aluminium, magnesium or steel, so it is asked back."""
    with pytest.raises(NotUnderstood, match="may be more than one material"):
        book.material("alloy")
    with pytest.raises(NotUnderstood) as caught:
        book.material("light alloy")
    assert caught.value.readings == ("aluminium", "magnesium")
    assert book.material("alloy steel").name == "steel"


@pytest.mark.parametrize(
    ("text", "name", "tensile"),
    [
        ("GJL-250", "cast iron", 250),
        ("gjl 250", "cast iron", 250),
        ("AW-6082", "wrought aluminium", 290),
        ("AlMgSi1 F31", "wrought aluminium", 290),
        ("GK-AlSi9Cu3", "cast aluminium", 180),
    ],
)
def test_grade(book: Book, text: str, name: str, tensile: float) -> None:
    """A printed grade has its own strength, and is found by either of its names."""
    material = book.material(text)
    assert (material.name, material.tensile_mpa) == (name, Band.exact(tensile))


@pytest.mark.parametrize("text", ["klik 20-100", "click 20-101", "Click_20 10"])
def test_near_matches_are_names(book: Book, text: str) -> None:
    """What is offered for a mistyped wrench is the record's own name, and finds it."""
    with pytest.raises(NotUnderstood) as caught:
        book.wrench(text)
    assert caught.value.readings[0] == "click 20-100"
    assert [book.wrench(name).name for name in caught.value.readings] == list(caught.value.readings)


def test_heads(book: Book) -> None:
    """Heads are found by kind, by standard and by other names; empty is a hexagon."""
    coarse, fine = book.thread("M10"), book.thread("M10x1.25")
    assert (book.head("", coarse) or coarse)[1:3] == ("ISO 4014", "M10")
    assert (book.head("hex", fine) or fine)[1:3] == ("ISO 8765", "M10x1.25")
    assert (book.head("ISO 4762", fine) or fine)[1:3] == ("ISO 4762", "M10")
    assert book.head("DIN 931", coarse) == book.head("old DIN", coarse)
    assert book.head("flange", book.thread("M30")) is None
    assert book.head("", book.thread("3/8-16")) is None
    with pytest.raises(NotUnderstood, match="no head of that name; write hexagon"):
        book.head("hexagn", coarse)
    with pytest.raises(NotUnderstood, match="no head of that name; write ISO 4762"):
        book.head("ISO 4763", coarse)


def test_heads_of_a_thread(book: Book) -> None:
    """A thread's heads are the exact sizes where listed, else those of its diameter."""
    listed = {(head.head, head.standard) for head in book.heads(book.thread("M12x1.25"))}
    assert ("hexagon", "ISO 8765") in listed
    assert ("hexagon", "ISO 4014") not in listed
    assert ("socket", "ISO 4762") in listed
    assert ("hexagon", "ISO 4014") in {head[:2] for head in book.heads(book.thread("M14x1"))}
    assert book.heads(book.thread("1/4-20")) == ()


def test_holes_and_drills(book: Book) -> None:
    """Holes go by diameter, drills by thread; where none is listed, none is given."""
    hole = book.hole(10)
    assert hole
    assert hole[:4] == (10, 10.5, 11, 12)
    assert book.hole(9.525) is None
    assert book.drill_mm(book.thread("M10x1.25")) == 8.8
    assert book.drill_mm(book.thread("M12x1")) is None


def test_materials_and_wrenches(book: Book) -> None:
    """Materials and wrenches are found by name."""
    assert book.material("aluminum").engagement_d == 1.5
    assert book.material("aluminium") in book.materials()
    assert book.wrench("click 20-100") in book.wrenches()
    lbf_ft = book.wrench("click 20-150 lbf.ft")
    assert lbf_ft.low_nm == pytest.approx(27.116, abs=0.001)
    with pytest.raises(NotUnderstood, match="no material of that name"):
        book.material("cheese")
    with pytest.raises(NotUnderstood, match="no wrench of that name"):
        book.wrench("sledge")


def test_table_rows(book: Book) -> None:
    """Printed lines are found by thread, class and kind of nut; two classes share a line."""
    found = book.table_rows(book.thread("1/4-28"), "SAE 5")
    assert [(table.where, row.low) for table, row in found] == [("table G1", 10), ("table F-1", 6)]
    assert [row.low for _, row in book.table_rows(book.thread("1/4-20"), "SAE 2")] == [5]
    assert [row.low for _, row in book.table_rows(book.thread("1/4-20"), "SAE 7")] == [10]
    tension = book.table_rows(book.thread("3/8-24"), "", "tension")
    assert [row[3:6] for _, row in tension] == [(160, 190, 390)]
    assert [row.low for _, row in book.table_rows(book.thread("M10"), "")] == [40, 48]
    assert book.table_rows(book.thread("M10"), "8.8") == ()
    assert book.table_rows(book.thread("M10x1.25"), "") == ()


def test_records(book: Book) -> None:
    """Every record has an entry under its path."""
    ids = [entry.id for entry in book.records()]
    assert ids == sorted(ids)
    assert "tables/faa-ac-43.13-1b-7-1" in ids


MINE = """\
kind: friction
title: "Friction, our own mix"
name: "dry"
mu_thread: {low: 0.1, nominal: 0.2, high: 0.3}
mu_head: {low: 0.1, nominal: 0.2, high: 0.3}
lubricated: false
source:
  kind: invented
  title: "test"
  provenance: "invented"
"""


def test_own_folder_comes_first(tmp_path: Path) -> None:
    """A record in the user's folder outranks ours of the same name, and the rest stays."""
    (tmp_path / "mine.yaml").write_text(MINE, encoding="utf-8")
    laid = Book.open([tmp_path])
    assert laid.friction("dry").mu_head.low == 0.1
    assert laid.friction("dry").source == "invented: test"
    assert [friction.name for friction in laid.frictions()].count("dry") == 1
    assert laid.friction("oiled") == Book.open().friction("oiled")
    assert laid.records()[0].id == "mine"


def test_own_name_covers_ours_however_it_is_spelt(tmp_path: Path) -> None:
    """A record of the user's covers ours of the same name in other capitals."""
    (tmp_path / "mine.yaml").write_text(MINE.replace('name: "dry"', 'name: "DRY"'), "utf-8")
    names = [friction.name for friction in Book.open([tmp_path]).frictions()]
    assert "DRY" in names
    assert "dry" not in names


def test_folder_that_is_none(tmp_path: Path) -> None:
    """A folder that is none is refused in one message."""
    with pytest.raises(Unreadable, match="no folder"):
        Book.open([tmp_path / "absent"])


@given(st.one_of(st.text(max_size=15), st.text("M10x.SAE8-A2370/ Gr,K=µ", max_size=12)))
def test_any_words_are_known_or_asked_back(text: str) -> None:
    """No words whatever end in anything but an answer or one message that quotes them."""
    book = OURS
    thread = book.thread("M10")
    for look in (
        book.candidates,
        book.class_named,
        lambda words: book.strength(words, 10, "metric"),
        lambda words: book.nut(words, 10),
        book.friction,
        lambda words: book.head(words, thread),
        book.material,
        book.wrench,
    ):
        message = ""
        try:
            look(text)
        except NotUnderstood as refusal:
            message = str(refusal)
        assert not message or message.startswith(f'"{text}": ')


HEAVY = (
    "pydantic",
    "jsonschema_rs",
    "yaml",
    "tabulate",
    "importlib.resources",
    "importlib.metadata",
)


def test_bench_path_is_light() -> None:
    """Opening the book and looking a thread up loads no model, validator or parser."""
    code = (
        "import sys; from torquebook.catalogue.book import Book; book = Book.open();"
        "book.thread('M10'); book.strength('8.8', 10); book.friction('dry'); book.tables();"
        f"print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
