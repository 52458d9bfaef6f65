"""Checks of how strength classes are read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.classes import ClassName, read_class
from torquebook.errors import NotUnderstood


@pytest.mark.parametrize(
    ("text", "name", "family"),
    [
        ("8.8", "8.8", "metric"),
        (" 8.8 ", "8.8", "metric"),
        ("8,8", "8.8", "metric"),
        ("class 8.8", "8.8", "metric"),
        ("property class 10.9", "10.9", "metric"),
        ("cl. 12.9", "12.9", "metric"),
        ("grade 10.9", "10.9", "metric"),
        ("ISO 898-1 8.8", "8.8", "metric"),
        ("A2-70", "A2-70", "metric"),
        ("a2 70", "A2-70", "metric"),
        ("A470", "A4-70", "metric"),
        ("A4/80", "A4-80", "metric"),
        ("SAE 8", "SAE 8", "inch"),
        ("grade 8", "SAE 8", "inch"),
        ("Gr.8", "SAE 8", "inch"),
        ("gr 5", "SAE 5", "inch"),
        ("G5", "SAE 5", "inch"),
        ("SAE grade 8", "SAE 8", "inch"),
        ("SAE J429 8", "SAE 8", "inch"),
        ("SAE J429 grade 5.2", "SAE 5.2", "inch"),
        ("J429 Grade 2", "SAE 2", "inch"),
        ("sae-8", "SAE 8", "inch"),
        ("SAE 5 (120 ksi)", "SAE 5", "inch"),
    ],
)
def test_read(text: str, name: str, family: str) -> None:
    """Each usual way of writing a class is read as the one class that it names."""
    assert read_class(text) == ClassName(name, family)


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("8", ("8.8", "SAE 8")),
        ("10", ("10.9",)),
        ("class 8", ("8.8", "SAE 8")),
        ("8.8/8", ("8.8",)),
        ("8.8|8", ("8.8",)),
        ("A2", ("A2-50", "A2-70", "A2-80")),
        ("SAE 1 or 2", ("SAE 1", "SAE 2")),
        ("SAE 0-1-2 (74 ksi)", ("SAE 1", "SAE 2")),
        ("(8.8)", ("8.8", "10.9", "A2-70", "SAE 5", "SAE 8")),
        ("7", ("SAE 7",)),
        ("3", ("8.8", "10.9", "A2-70", "SAE 5", "SAE 8")),
        ("B7", ("8.8", "10.9", "A2-70", "SAE 5", "SAE 8")),
        ("", ("8.8", "10.9", "A2-70", "SAE 5", "SAE 8")),
    ],
)
def test_refused(text: str, readings: tuple[str, ...]) -> None:
    """What may be two classes, or half of one, is asked back with its readings."""
    with pytest.raises(NotUnderstood) as caught:
        read_class(text)
    assert caught.value.readings == readings


@given(st.text(max_size=20))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text ends in anything but a class or one message."""
    try:
        name = read_class(text).name
    except NotUnderstood as refusal:
        name = refusal.readings[0]
    assert name
