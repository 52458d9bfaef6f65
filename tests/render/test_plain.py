"""Text made safe for any terminal."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.render.plain import ascii_only, inert, width

ANY_TEXT = st.text(st.characters(), max_size=60)


@pytest.mark.parametrize(
    ("hostile", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"),
        ("two\nlines\tand\rback", "two\\nlines\\tand\\rback"),
        ("\x07\x08\x00", "\\x07\\x08\\x00"),
        ("\x9b2J", "\\x9b2J"),
        ("abc\u202excod.exe", "abc\\u202excod.exe"),
        ("\u2066a\u2069", "\\u2066a\\u2069"),
        ("zero\u200bwidth\ufeff", "zero\\u200bwidth\\ufeff"),
        ("line\u2028break", "line\\u2028break"),
        ("half\ud800", "half\\ud800"),
        ("\U000e0041", "\\U000e0041"),
        ("e" + "\u0301" * 4, "e\u0301\u0301\\u0301\\u0301"),
    ],
)
def test_inert_shows_what_would_act(hostile: str, shown: str) -> None:
    """Controls, changes of direction and characters of no width stand as escapes."""
    assert inert(hostile) == shown


@pytest.mark.parametrize(
    "text", ["60 N·m ±3 °", "Zylinderkopf, vorn", "крышка", "ボルト", "a\\x1b"]
)
def test_inert_leaves_words_alone(text: str) -> None:
    """Any language's letters, and our own signs, stay as they are."""
    assert inert(text) == text


@given(ANY_TEXT)
def test_inert_text_has_nothing_that_acts(text: str) -> None:
    """No text at all leaves a control, a format or half a character behind."""
    shown = inert(text)
    acting = {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert not [c for c in shown if unicodedata.category(c) in acting]
    assert inert(shown) == shown


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("60 ±3 N·m", "60 +/-3 N.m"),
        ("90°", "90 deg"),
        ("10 × 4–5 − 1", "10 x 4-5 - 1"),
        ("58 mm², µ ½ Ø", "58 mm2, u 1/2 dia "),
        ("Öl für Räder", "Ol fur Rader"),
        ("крышка", "\\u043a\\u0440\\u044b\\u0448\\u043a\\u0430"),
        ("…", "..."),
    ],
)
def test_ascii_only(text: str, plain: str) -> None:
    """Signs get their usual ASCII, letters lose their accents, the rest is escaped."""
    assert ascii_only(text) == plain


@given(ANY_TEXT)
def test_ascii_only_is_ascii(text: str) -> None:
    """Whatever comes in, only ASCII goes out, and nothing disappears."""
    plain = ascii_only(text)
    assert plain.isascii()
    assert bool(plain) == bool(text)


@pytest.mark.parametrize(
    ("text", "columns"), [("abc", 3), ("N·m", 3), ("2–4", 3), ("ボルト", 6), ("e\u0301", 1)]
)
def test_width(text: str, columns: int) -> None:
    """Wide characters take two columns, marks on a letter none."""
    assert width(text) == columns
