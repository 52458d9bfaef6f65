"""Checks of finding records by the words that people use."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from torquebook.catalogue.lookup import named, near, outside, plain
from torquebook.catalogue.shelves import StrengthClass, Thread
from torquebook.errors import NotUnderstood


class Thing(NamedTuple):
    """A record with names."""

    name: str
    aliases: tuple[str, ...] = ()
    doubtful: tuple[str, ...] = ()


THINGS = (
    Thing("zinc plated", ("galvanised",), ("coated", "dry")),
    Thing("dry"),
    Thing("galvanised", (), ("Coated",)),
)


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


def test_near_keeps_what_was_typed() -> None:
    """Who names one coating is offered no other, but each that stands there and their mixture."""
    names = ("oiled", "phosphated and oiled", "zinc", "zinc plated", "zinc flake")
    assert near("zinc plated and oiled", names) == ("zinc plated", "oiled")
    assert near("phosphatd and oiled", names) == ("oiled", "phosphated and oiled")
    assert near("plated and oiled", names) == ("oiled",)
    steel = ("oiled", "stainless", "stainless oiled")
    assert near("stainless and oiled", steel) == ("stainless", "oiled", "stainless oiled")


def test_nothing_near() -> None:
    """Where nothing comes near, everything that can be said is offered."""
    assert near("qqq", ("a", "b"), ("b", "a", "b")) == ("b", "a")
    assert near("", ("dry",)) == ()
    with pytest.raises(NotUnderstood) as caught:
        named(THINGS, "qqq", "friction")
    assert caught.value.readings == ("zinc plated", "dry", "galvanised")


def test_near_as_written() -> None:
    """What comes near is given as it is written, and each record once."""
    assert near("click 20 10", ("Click 20-100", "other")) == ("Click 20-100",)
    assert near("hot dip", ("Hot-dip A", "hot_dip a")) == ("Hot-dip A",)
    with pytest.raises(NotUnderstood) as caught:
        named((Thing("oiled", ("oil", "oily")),), "oilyd", "friction")
    assert caught.value.readings == ("oiled",)


def test_doubtful_word() -> None:
    """A word that may mean several records is asked back; a name is never in doubt."""
    with pytest.raises(NotUnderstood) as caught:
        named(THINGS, "coated", "friction")
    assert caught.value.readings == ("zinc plated", "galvanised")
    assert named(THINGS, "dry", "friction") is THINGS[1]


def strength(name: str, over: float, to: float, family: str = "metric") -> StrengthClass:
    """Return a class over one range of diameters."""
    return StrengthClass(name, family, "", "", 800, 640, 600, None, over, to, "")


@pytest.mark.parametrize(
    ("ranges", "family", "d_mm", "message"),
    [
        ([(0, 16), (18, 39)], "metric", 17, "not listed for 17 mm diameter"),
        ([(0, 16), (18, 39)], "metric", 40, "listed up to 39 mm diameter, not for 40 mm"),
        ([(5, 16)], "metric", 4, "listed from 6 mm diameter, not for 4 mm"),
        ([(39, 64)], "metric", 39, "listed from 39 mm diameter, not for 39 mm"),
        ([(5.08, 25.4)], "inch", 30, "listed up to 1 in diameter, not for 1.181 in"),
    ],
)
def test_outside(ranges: list[tuple[float, float]], family: str, d_mm: float, message: str) -> None:
    """A class that is not for a diameter says where its range begins or ends."""
    threads = [Thread(f"M{d}", "metric", d, 1, "coarse", "") for d in (4, 5, 6, 8)]
    entries = [strength("x", *one, family) for one in ranges]
    assert outside(entries, threads, d_mm) == message


def test_plain() -> None:
    """A name is compared without the differences that mean nothing."""
    assert plain("  Oil-Free\n cadmium_plated ") == "oil free cadmium plated"
