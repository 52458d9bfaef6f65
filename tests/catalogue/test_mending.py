"""Checks of mending what is mechanical in a record's text."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue import mending
from torquebook.catalogue.mending import Change, mended
from torquebook.catalogue.reading import vet_text
from torquebook.catalogue.strict import load
from torquebook.findings import Place

SPECS = Path(__file__).parents[2] / "specs"
TEXTS = {path: path.read_text(encoding="utf-8") for path in sorted(SPECS.rglob("*.yaml"))}
LISTS = re.compile(r"(?<=^threads:\n|  sizes:\n|  holes:\n| drills:\n)(?:  - .*\n)+", re.MULTILINE)
# A class, size or edition that is a number once its quotes are taken off.
QUOTED = re.compile(r'((?:class|thread|size|edition|nut|name): )"([1-9]\d*(?:\.\d+)?)"')

BEFORE_AND_AFTER = {
    "numbers, truth values and keys of the wrong type get quotes around what was written": (
        (
            "kind: printed table\ntitle: 012   # sheet\nfriction: true\n"
            "factors: {8.80: 0.8, true: 0.9}\nrows:\n  - {thread: 10.0, low: 8}\n"
        ),
        (
            'kind: printed table\ntitle: 012   # sheet\nfriction: "true"\n'
            'factors: {"8.80": 0.8, "true": 0.9}\nrows:\n  - {thread: "10.0", low: 8}\n'
        ),
    ),
    "what is written of a number stays": (
        "kind: joint\nname: +1e3\ntitle: .50\nwrench: -0.\n",
        'kind: joint\ntitle: ".50"\nname: "+1e3"\nwrench: "-0."\n',
    ),
    "keys move with the comments above them and at the end of their lines": (
        (
            "# head\n# of the record\ntitle: a # is a\nkind: joint\n# how many\n# there\ncount: 4\n"
            "name: b # is b\n"
        ),
        (
            "# head\n# of the record\nkind: joint\ntitle: a # is a\nname: b # is b\n# how many\n"
            "# there\ncount: 4\n"
        ),
    ),
    "deeper comments belong to what stands above them": (
        "kind: joint\ncount: 4\nfastener:\n  thread: M8\n  # no class is printed\ntitle: x\n",
        "kind: joint\ntitle: x\nfastener:\n  thread: M8\n  # no class is printed\ncount: 4\n",
    ),
    "blank lines, and comments between blank lines, stay between the blocks": (
        "kind: joint\n\ncount: 4\n# counted\n\n# -- x --\n\n# its\nname: x\n\n\ntitle: y\n\n",
        "kind: joint\n\ntitle: y\n\n# -- x --\n\n# its\nname: x\n\n\ncount: 4\n# counted\n\n",
    ),
    "a missing line end at the end of the file stays missing": (
        "kind: joint\ncount: 4\ntitle: x",
        "kind: joint\ntitle: x\ncount: 4",
    ),
    "line ends of other systems stay": (
        "kind: joint\r\n# how many\r\ncount: 4\r\ntitle: 8.8",
        'kind: joint\r\ntitle: "8.8"\r\n# how many\r\ncount: 4',
    ),
    "text over several lines moves as a whole": (
        "kind: joint\nnote: |\n  one\n\n  # two\n\ntitle: >-\n  three\n  four\nname: 'a\n\n  b'\n",
        "kind: joint\ntitle: >-\n  three\n  four\n\nname: 'a\n\n  b'\nnote: |\n  one\n\n  # two\n",
    ),
    "a source over several lines": (
        (
            "kind: joint\nsource:\n    # read\n    provenance: p\n    title: t # t\n    # what\n"
            "    kind: invented\n# the end\n"
        ),
        (
            "kind: joint\nsource:\n    # what\n    kind: invented\n    title: t # t\n    # read\n"
            "    provenance: p\n# the end\n"
        ),
    ),
    "a source in one line": (
        'kind: joint\nsource: { provenance: "}, {",title: a b ,kind: invented, }  # }\n',
        'kind: joint\nsource: { kind: invented,title: a b ,provenance: "}, {", }  # }\n',
    ),
    "a source in brackets over several lines": (
        'kind: joint\nsource: {title: a,\n  kind: invented,\n  provenance: "b"}\n',
        'kind: joint\nsource: {kind: invented,\n  title: a,\n  provenance: "b"}\n',
    ),
    "a record in brackets": (
        "{count: 4, source: {title: x, kind: memory}, kind: joint}\n",
        "{kind: joint, count: 4, source: {kind: memory, title: x}}\n",
    ),
    "a byte order mark stays": (
        "\ufeffcount: 4\nkind: joint\n",
        "\ufeffkind: joint\ncount: 4\n",
    ),
}
HOLES = "kind: holes\ntitle: x\nholes:{}\nsource: {{kind: memory, title: x, provenance: x}}\n"
SMALL, LARGE = (
    "{d_mm: 5, fine_mm: 5.3, medium_mm: 5.5, coarse_mm: 5.8}",
    "{d_mm: 6, fine_mm: 6.4, medium_mm: 6.6, coarse_mm: 7}",
)
SORTED = {
    "entries with comments": (
        f"\n  # six\n  - {LARGE} # 6\n\n  # five\n#  - {{d_mm: 4}}\n  - {SMALL} # 5\n  # all\n",
        f"\n  # five\n#  - {{d_mm: 4}}\n  - {SMALL} # 5\n  # all\n\n  # six\n  - {LARGE} # 6\n",
    ),
    "entries over several lines, not indented": (
        f"\n- {LARGE}\n- d_mm: 5\n  fine_mm: 5.3 # fine\n  medium_mm: 5.5\n  coarse_mm: 5.8\n# x",
        f"\n- d_mm: 5\n  fine_mm: 5.3 # fine\n  medium_mm: 5.5\n  coarse_mm: 5.8\n- {LARGE}\n# x",
    ),
    "entries in brackets": (f" [{LARGE}, {SMALL}]  # x]", f" [{SMALL}, {LARGE}]  # x]"),
}
AS_THEY_ARE = {
    "no record": "- 8.8\n- a: 1\n",
    "no kind": "title: 8.8\nname: x\n",
    "an unknown kind": "title: 8.8\nkind: joints\n",
    "an unknown key": "kind: joint\ncuont: 4\ntitle: x\n",
    "no readable text": "title: x\nkind: joint\nname: [\n",
    "a key that stands twice": 'kind: printed table\nfactors: {8: 0.8, "8": 0.9}\ntitle: 8\n',
    "a key that is nothing": "kind: joint\nnull: 4\ntitle: 8.8\n",
    "a number for a number": "kind: joint\ncount: 4\n",
    "text for a number": 'kind: joint\ncount: "4"\n',
    "a source that is no mapping": "kind: joint\nsource: [x, y]\n",
    "a list of a record with faults": f"kind: holes\nholes:\n  - {LARGE}\n  - {SMALL}\n",
    "a size that is no designation": (
        "kind: heads\ntitle: x\nhead: nut\nstandard: x\nsizes: [{size: M6}, {size: five}]\n"
        "source: {kind: memory, title: x, provenance: x}\n"
    ),
    "nothing": "",
}


@pytest.mark.parametrize(("before", "after"), BEFORE_AND_AFTER.values(), ids=BEFORE_AND_AFTER)
def test_mended(before: str, after: str) -> None:
    """What is mechanical is mended, all else stays, and a second mending finds nothing."""
    done = mended(before, "x.yaml")
    assert done.text == after
    assert done.changes
    assert mended(after, "x.yaml") == (after, (), ())


@pytest.mark.parametrize(("before", "after"), SORTED.values(), ids=SORTED)
def test_lists(before: str, after: str) -> None:
    """Entries of a sorted list move with their comments."""
    assert mended(HOLES.format(before), "x.yaml").text == HOLES.format(after)
    assert mended(HOLES.format(after), "x.yaml") == (HOLES.format(after), (), ())


@pytest.mark.parametrize("text", AS_THEY_ARE.values(), ids=AS_THEY_ARE)
def test_not_mechanical(text: str) -> None:
    """What is no slip of the order or the quotes is left alone."""
    assert mended(text, "x.yaml") == (text, (), ())


def test_changes_have_their_places() -> None:
    """Each change is said with the place that it had before, in the order of the file."""
    text = "name: x\ntitle: 8.80\nkind: joint\nsource: {title: a, kind: memory}\n"
    assert mended(text, "x.yaml").changes == (
        Change(Place("x.yaml", 2, 1), "keys of the record put in order (title before name)"),
        Change(Place("x.yaml", 2, 8), "8.80 put in quotes"),
        Change(Place("x.yaml", 4, 20), "keys of source put in order (kind before title)"),
    )
    text = "kind: joint\nsource: {kind: memory, 7: 8, where: 9}\n"
    assert mended(text, "x.yaml").changes == (
        Change(Place("x.yaml", 2, 24), "7 put in quotes"),
        Change(Place("x.yaml", 2, 37), "9 put in quotes"),
    )


@pytest.mark.parametrize(
    "text",
    [
        "? count\n: 4\n? kind\n: joint\n",  # keys that are not the first of their lines
        HOLES.format(f"\n  -\n    {LARGE}\n  -\n    {SMALL}\n"),  # entries below their hyphens
        "count: 4\nkind: joint\n...\n",  # an end that would come into the middle
        'kind: joint\nnote: "a\n# b"\ntitle: x\n',  # text that looks like a comment
        "kind: joint\nnote: |+\n  x\n\n\ntitle: y\n",  # blank lines that are text
        "{count: 4 # four\n, kind: joint}\n",  # a comment that would swallow a comma
    ],
)
def test_what_cannot_be_moved_is_said(text: str) -> None:
    """Where a move would change the record the text stays, and the answer says what is left."""
    done = mended(text, "x.yaml")
    assert (done.text, done.changes) == (text, ())
    assert [left.what.startswith("not ") for left in done.left] == [True]
    assert "by hand" in done.left[0].what


def test_quotes_that_would_change_a_value_are_not_set(monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault of our own in finding what was written is caught before the text is given back."""
    monkeypatch.setattr(mending, "written_at", lambda _line, _column: "8.9")
    done = mended("kind: joint\ntitle: 8.8\n", "x.yaml")
    assert done.text == "kind: joint\ntitle: 8.8\n"
    assert done.changes == ()
    assert done.left[0].place == Place("x.yaml", 2, 8)


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: str(path.relative_to(SPECS)))
def test_our_own_records_need_no_mending(path: Path) -> None:
    """The records of the book are given back as they are."""
    assert mended(TEXTS[path], str(path)) == (TEXTS[path], (), ())


def _parts(text: str, begin: str) -> list[str]:
    """Return a text cut in front of every line that begins as said."""
    cuts = [0, *(found.start() for found in re.finditer(begin, text, re.MULTILINE)), len(text)]
    return [text[one:two] for one, two in pairwise(cuts)]


@st.composite
def spoilt_records(draw: st.DrawFn) -> tuple[str, str]:
    """Draw a record of the book with comments of its own, and the same spoilt by slips."""
    head, *blocks = _parts(draw(st.sampled_from(list(TEXTS.values()))), r"^\w")
    kind, *blocks = [f"{block.rstrip()}  # {block[:4]}\n" for block in blocks]
    blocks = [f"# {number}\n" * (number % 3) + block for number, block in enumerate(blocks)]
    whole = head + kind + "".join(blocks)
    *facts, source = blocks
    above, *keys = _parts(source, r"^  \w")
    facts.append(above + "".join(draw(st.permutations(keys))))
    spoilt = head + kind + "".join(draw(st.permutations(facts)))
    found = LISTS.search(spoilt)
    if found:
        entries = draw(st.permutations(found.group().splitlines(keepends=True)))
        spoilt = spoilt[: found.start()] + "".join(entries) + spoilt[found.end() :]
    if draw(st.booleans()):
        spoilt = QUOTED.sub(r"\1\2", spoilt)
    if draw(st.booleans()):
        whole, spoilt = whole.replace("\n", "\r\n"), spoilt.replace("\n", "\r\n")
    return whole, spoilt


@given(spoilt_records())
def test_spoilt_records_are_given_back(texts: tuple[str, str]) -> None:
    """Keys and entries that were shuffled, and quotes taken off, come back byte for byte."""
    whole, spoilt = texts
    done = mended(spoilt, "x.yaml")
    assert done.text == whole
    assert bool(done.changes) is (spoilt != whole)


@given(st.data())
def test_any_order_is_mended_and_no_line_is_lost(data: st.DataObject) -> None:
    """Whatever stands first: the record is the same, every line is there, and it stays so."""
    head, *blocks = _parts(data.draw(st.sampled_from(list(TEXTS.values()))), r"^\w")
    gaps = st.sampled_from(["", "\n", "# alone\n\n", "\n# alone\n\n", "\n\n# above\n"])
    text = head + "".join(data.draw(gaps) + block for block in data.draw(st.permutations(blocks)))
    if data.draw(st.booleans()):
        text = text.removesuffix("\n")
    done = mended(text, "x.yaml")
    assert done.left == ()
    assert sorted(done.text.splitlines()) == sorted(text.splitlines())
    assert done.text.endswith("\n") is text.endswith("\n")
    record, _ = vet_text(text, "x.yaml")
    assert record is not None
    assert vet_text(done.text, "x.yaml")[0] == record
    assert list(load(done.text, "x.yaml")[0]) == list(load(head + "".join(blocks), "x.yaml")[0])
    assert mended(done.text, "x.yaml") == (done.text, (), ())
