"""JSON for programs."""

from __future__ import annotations

import json

from torquebook.bands import Band
from torquebook.render.data import band, json_text


def test_no_nan_ever() -> None:
    """What is no number is null, however deep it sits."""
    nan, infinite = float("nan"), float("inf")
    text = json_text({"a": nan, "b": [infinite, {"c": (-infinite, 1.5)}]})
    assert json.loads(text) == {"a": None, "b": [None, {"c": [None, 1.5]}]}


def test_json_is_ascii_and_inert() -> None:
    """No text in JSON can act on a terminal, and it reads back as it was."""
    text = json_text({"joint": "\x1b[2J\u202e\x9b ö"})
    assert text.isascii()
    assert text.replace("\n", "").isprintable()
    assert json.loads(text) == {"joint": "\x1b[2J\u202e\x9b ö"}


def test_band() -> None:
    """A band is an object with three names, an unknown one null."""
    assert band(Band(1.0, 2.0, 3.0)) == {"low": 1.0, "nominal": 2.0, "high": 3.0}
    assert band(None) is None
