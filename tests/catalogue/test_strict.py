"""Checks of the strict YAML reader."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
import yaml
from first_faults import load_file
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.strict import KEY, load
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from torquebook.catalogue.strict import Positions


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("true", True),
        ("false", False),
        ("null", None),
        ("", None),
        ("12", 12),
        ("-3", -3),
        ("1.25", 1.25),
        ("1e3", 1000.0),
        (".5", 0.5),
        ("no", "no"),
        ("on", "on"),
        ("True", "True"),
        ("~", "~"),
        ("012", "012"),
        ("0o17", "0o17"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        ("1:30", "1:30"),
        ("2013-02-01", "2013-02-01"),
        ("1.2.3", "1.2.3"),
        ("١٢", "١٢"),
        ('"8.8"', "8.8"),
        ("'8.8'", "8.8"),
        ('"true"', "true"),
        ("M10x1.25", "M10x1.25"),
    ],
)
def test_types(written: str, read: object) -> None:
    """Only true, false, null and decimal numbers are typed; all else is text."""
    value, _ = load(f"a: {written}\n", "x.yaml")
    assert value == {"a": read}
    assert type(value["a"]) is type(read)


def test_positions() -> None:
    """Every value and every key has its line and column, counted from 1."""
    text = 'kind: friction\nrows:\n  - ["8.8", 12]\n  - mu: 0.12\n'
    value, positions = load(text, "x.yaml")
    assert value == {"kind": "friction", "rows": [["8.8", 12], {"mu": 0.12}]}
    assert positions == {
        (): (1, 1),
        ("kind", KEY): (1, 1),
        ("kind",): (1, 7),
        ("rows", KEY): (2, 1),
        ("rows",): (3, 3),
        ("rows", 0): (3, 5),
        ("rows", 0, 0): (3, 6),
        ("rows", 0, 1): (3, 13),
        ("rows", 1): (4, 5),
        ("rows", 1, "mu", KEY): (4, 5),
        ("rows", 1, "mu"): (4, 9),
    }


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("a: 1\nb: 2\na: 3\n", "3:1", 'the key "a" stands twice (first in line 1)'),
        ("a: &x 1\n", "1:4", "an anchor (&x)"),
        ("a: *x\n", "1:4", "an alias (*x)"),
        ("a: !!str 1\n", "1:4", "a tag"),
        ("a: ! 1\n", "1:4", "a tag"),
        ("%YAML 1.1\n---\na: 1\n", "1:1", "a % directive"),
        ("a:\n\tb: 1\n", "2:1", "a tab"),
        ('a: "x\ty"\n', "1:6", "a tab"),
        ("a: .inf\n", "1:4", "not a finite number"),
        ("a: -.INF\n", "1:4", "not a finite number"),
        ("a: .nan\n", "1:4", "not a finite number"),
        ("a: 1e400\n", "1:4", "not a finite number"),
        (f"a: {'9' * 31}\n", "1:4", "more than 30 digits"),
        ("a: 1\n---\nb: 1\n", "2:1", "a second document"),
        ("8.8: 1\n", "1:1", 'the key 8.8 is not text; write "8.8" in quotes'),
        ("true: 1\n", "1:1", "the key true is not text"),
        (": 1\n", "1:1", "does not fit"),
        ("? \n: 1\n", "1:2", "the key nothing is not text"),
        ("{: 1}\n", "1:2", "no YAML"),
        ("? [a]\n: 1\n", "1:3", "a list or mapping as a key"),
        ("{{a: 1}: 2}\n", "1:2", "a list or mapping as a key"),
        ("[" * 101 + "]" * 101, "1:101", "nested more than 100 deep"),
        ("", "1:1", "holds nothing"),
        ("# only a comment\n", "1:1", "holds nothing"),
        ("a: b: c\n", "1:5", "a colon stands where no key can be"),
        ("a: @x\n", "1:4", "put the value in quotes"),
        ("a: [1, 2\n", "2:1", "not closed"),
        ("a: 1\n b: 2\n", "2:3", "a colon stands where no key can be"),
        ("a: \x07\n", "1:4", "U+0007"),
        ("a: \ud800\n", "1:4", "U+D800"),
        ("a: x\u2028y\n", "1:5", "U+2028"),
        ('a: "\\e[31m"\n', "1:4", "U+001B"),
        ('a: "\\q"\n', "1:5", "escape"),
    ],
)
def test_refusals(text: str, place: str, words: str) -> None:
    """Whatever another reader would guess at is refused, with place and reason."""
    with pytest.raises(Unreadable) as caught:
        load(text, "x.yaml")
    assert caught.value.where == f"x.yaml:{place}"
    assert words in str(caught.value)
    assert caught.value.right


def test_depth_of_100_is_read() -> None:
    """A hundred levels are still read; the next one is refused."""
    value, _ = load("[" * 100 + "]" * 100, "x.yaml")
    assert isinstance(value, list)


def test_hostile_depth_ends_in_a_message() -> None:
    """Very deep nesting ends in a message and never exhausts the stack."""
    with pytest.raises(Unreadable, match="100 deep"):
        load("[" * 200_000, "x.yaml")
    with pytest.raises(Unreadable, match="100 deep"):
        load("- " * 50_000, "x.yaml")


def test_large_text_is_refused() -> None:
    """More than 8 MiB of text is refused before it is parsed."""
    with pytest.raises(Unreadable, match="8 MiB"):
        load("#" * (8 * 1024 * 1024 + 1), "x.yaml")


def test_file_with_byte_order_mark(tmp_path: Path) -> None:
    """A byte order mark before UTF-8 is taken off in silence: it changes nothing."""
    path = tmp_path / "x.yaml"
    path.write_bytes(b"\xef\xbb\xbfa: 1\r\nb: 2\r\n")
    value, positions = load_file(path)
    assert value == {"a": 1, "b": 2}
    assert positions["b",] == (2, 4)


PIECES = st.sampled_from(
    [
        *"abx01.:-#&*!|>%@`'\"{}[],?~ \n\r\t\\é\0\x85\u2028\ufeff\ud800",
        *(
            "- ",
            ": ",
            "  ",
            "\n  ",
            "---\n",
            "...\n",
            "1e999",
            ".inf",
            "<<",
            "&a ",
            "*a",
            "!!int ",
            "null",
        ),
    ]
)


def outcome(read: Callable[[], tuple[Any, Positions]]) -> str:
    """Return the message of a refusal, or nothing where a value was read."""
    try:
        value, positions = read()
    except Unreadable as error:
        return str(error)
    assert () in positions
    assert isinstance(value, (str, int, float, bool, list, dict, type(None)))
    return ""


@given(st.one_of(st.text(), st.lists(PIECES, max_size=40).map("".join)))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text whatever ends in anything but a value or one message with the file's name."""
    message = outcome(lambda: load(text, "x.yaml"))
    assert not message or message.startswith("x.yaml:")


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, raw: bytes
) -> None:
    """No file whatever ends in anything but a value or one message with the file's name."""
    path = tmp_path_factory.getbasetemp() / "fuzz.yaml"
    path.write_bytes(raw)
    message = outcome(lambda: load_file(path))
    assert not message or "fuzz.yaml" in message


def test_complaint_without_a_place(monkeypatch: pytest.MonkeyPatch) -> None:
    """A complaint of the parser that has no place still ends in one message."""

    def complain(*_args: object, **_names: object) -> None:
        raise yaml.YAMLError

    monkeypatch.setattr(yaml, "parse", complain)
    with pytest.raises(Unreadable, match="no YAML text; save it as UTF-8 text"):
        load("a: 1", "x.yaml")


LEAVES = st.one_of(
    st.booleans(), st.none(), st.integers(-(10**9), 10**9), st.text("abc .:#-", max_size=8)
)
TREES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(st.text("abc", min_size=1, max_size=3), inner, max_size=3),
    ),
    max_leaves=10,
)


def written(value: object) -> str:
    """Write a value as flow YAML, text always in double quotes."""
    if isinstance(value, list):
        return "[" + ", ".join(written(item) for item in value) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f'"{k}": {written(v)}' for k, v in value.items()) + "}"
    if isinstance(value, str):
        return f'"{value}"'
    if value is None or isinstance(value, bool):
        return {True: "true", False: "false", None: "null"}[value]
    return str(value)


@given(TREES)
def test_round_trip(tree: object) -> None:
    """What is written out plainly is read back as it was."""
    value, _ = load(written(tree), "x.yaml")
    assert value == tree


def test_a_hard_space_is_named() -> None:
    """A space from a web page or a spreadsheet, which nobody sees, is named where it stands."""
    with pytest.raises(Unreadable, match=r"x\.yaml:2:7: a no-break space \(U\+00A0\), which is"):
        load("kind: joint\ncount:\u00a06\nname: x\n", "x.yaml")
