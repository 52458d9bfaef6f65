"""Checks of finding records by the words that people use."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from torquebook.catalogue.lookup import named, near, plain
from torquebook.errors import NotUnderstood


class Thing(NamedTuple):
    """A record with names."""

    name: str
    aliases: tuple[str, ...] = ()


THINGS = (Thing("zinc plated", ("galvanised",)), Thing("dry"), Thing("galvanised"))


@pytest.mark.parametrize("text", ["zinc plated", "Zinc-Plated", " zinc_plated", "GALVANISED"])
def test_named(text: str) -> None:
    """Case, hyphens and white space do not matter, and the first record of a name counts."""
    assert named(THINGS, text, "friction") is THINGS[0]


def test_unknown_name() -> None:
    """An unknown name is refused with the names that come near."""
    with pytest.raises(NotUnderstood) as caught:
        named(THINGS, "zinc plaited", "friction")
    assert caught.value.readings == ("zinc plated",)
    assert str(caught.value) == '"zinc plaited": no friction of that name; write zinc plated'


def test_near() -> None:
    """Near are names that hold the text, stand in it as words, or are spelt alike."""
    assert near("zinc", ("dry", "zinc plated", "zinc flake")) == ("zinc plated", "zinc flake")
    assert near("zinc plated steel", ("el", "steel")) == ("steel",)
    assert near("oyled", ("oiled", "dry")) == ("oiled",)


def test_nothing_near() -> None:
    """Where nothing comes near, everything that can be said is offered."""
    assert near("qqq", ("a", "b"), ("b", "a", "b")) == ("b", "a")
    assert near("", ("dry",)) == ()
    with pytest.raises(NotUnderstood) as caught:
        named(THINGS, "qqq", "friction")
    assert caught.value.readings == ("zinc plated", "dry", "galvanised")


def test_plain() -> None:
    """A name is compared without the differences that mean nothing."""
    assert plain("  Oil-Free\n cadmium_plated ") == "oil free cadmium plated"
